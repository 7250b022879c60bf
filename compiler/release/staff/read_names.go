package staff

import (
	"cmp"
	"slices"

	"ferrule/compiler/line"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/compiler/wire"
	"ferrule/sheets/cell"
)

// position gives a declared position; nil, and a fault, where there is none.
func (r *reader) position(name string) *model.Position {
	p := r.positions[name]
	if p == nil {
		r.fail("nothing declares the position %q", name)
	}
	return p
}

// part gives the part of a number; one that nothing declares is unknown, as in the
// workbooks.
func (r *reader) part(number string) *model.Part {
	p := r.parts[number]
	if p == nil {
		p = &model.Part{Number: number}
		r.parts[number] = p
	}
	return p
}

// place gives the cell; the sheets of a workbook stand in the order in which they are
// first named.
func (r *reader) place(in *wire.Place) cell.Place {
	if in == nil {
		return cell.Place{}
	}
	key := [2]string{in.File, in.Sheet}
	s := r.sheets[key]
	if s == nil {
		s = &cell.Sheet{File: in.File, Name: in.Sheet, Order: len(r.sheets)}
		r.sheets[key] = s
	}
	pos, ok := cell.Parse(in.Cell)
	if !ok && in.Cell != "" {
		r.fail("%q is no cell", in.Cell)
	}
	return cell.Place{Sheet: s, Pos: pos}
}

func (r *reader) when(in wire.When) model.When {
	out := model.When{SetAside: in.SetAside, Traits: r.sets(in.Traits)}
	for i := range out.Traits {
		if t := &out.Traits[i]; slices.Contains(in.TraitsNot, t.Trait.Name) && t.Line != nil {
			t.Line.Not = true
		}
	}
	if in.Platforms != nil {
		out.Platforms = []*model.Platform{}
	}
	for _, name := range in.Platforms {
		p := r.platforms[name]
		if p == nil {
			r.fail("nothing declares the platform %q", name)
			continue
		}
		out.Platforms = append(out.Platforms, p)
	}
	slices.SortFunc(out.Platforms, func(a, b *model.Platform) int { return cmp.Compare(a.Index, b.Index) })
	if len(in.Years) > 0 {
		out.Years = &model.Years{Not: in.YearsNot}
		for _, s := range in.Years {
			out.Years.Spans = append(out.Years.Spans, model.Span{From: or(s[0], model.FirstYear), To: or(s[1], model.LastYear)})
		}
	}
	return out
}

func or(year *int, open int) int {
	if year == nil {
		return open
	}
	return *year
}

// sets gives the restricted traits, as declared.
func (r *reader) sets(in wire.Object) []model.TraitSet {
	var out []model.TraitSet
	for _, f := range in {
		t := r.traits[f.Name]
		values, ok := f.Value.([]any)
		if t == nil || !ok {
			r.fail("nothing declares the trait %q", f.Name)
			continue
		}
		if t.Kind.OnLine() {
			out = append(out, r.lineSet(t, values))
			continue
		}
		out = append(out, model.TraitSet{Trait: t, Values: r.set(t, values)})
	}
	slices.SortFunc(out, func(a, b model.TraitSet) int { return cmp.Compare(a.Trait.Index, b.Trait.Index) })
	return out
}

func (r *reader) set(t *model.Trait, values []any) space.Set {
	var in []int
	for _, v := range values {
		i := t.Absent()
		if v != nil {
			i = slices.IndexFunc(t.Values, func(d *model.Value) bool { return d.Name == v })
		}
		if i < 0 {
			r.fail("nothing declares the value %v of %s", v, t.Name)
			continue
		}
		in = append(in, i)
	}
	return space.SetOf(in...)
}

// lineSet gives what is said of a trait on a line: ranges, of which an end may be open, and null for
// 'does not apply'.
func (r *reader) lineSet(t *model.Trait, values []any) model.TraitSet {
	out := model.TraitSet{Trait: t, Values: space.Set{}, Line: &model.Line{}}
	var all []line.Range
	for _, v := range values {
		ends, ok := v.([]any)
		switch {
		case v == nil:
			out.Values = space.SetOf(t.Absent())
		case !ok || len(ends) != 2:
			r.fail("%v is no range of %s", v, t.Name)
		default:
			all = append(all, r.lineRange(t, ends[0], ends[1]))
		}
	}
	out.Line.Ranges = line.SetOf(all...)
	return out
}

// lineRange gives a range by its ends; nil is an open one.
func (r *reader) lineRange(t *model.Trait, from, to any) line.Range {
	k := t.Kind.Line()
	first, last := k.Ends()
	out := line.Range{From: first, To: last}
	for i, end := range []any{from, to} {
		text, ok := end.(string)
		if end == nil {
			continue
		}
		at, err := k.Value(text)
		if !ok || err != nil {
			r.fail("%v is no value of %s", end, t.Name)
			continue
		}
		if i > 0 && from != nil && at.Letters != out.Letters {
			r.fail("%v to %v is no range of %s", from, to, t.Name)
		}
		if out.Letters = at.Letters; i == 0 {
			out.From = at.From
		} else {
			out.To = at.To
		}
	}
	if out.To < out.From {
		r.fail("%v to %v is no range of %s", from, to, t.Name)
	}
	return out
}

// box gives vehicles of one platform.
func (r *reader) box(in wire.Box) model.Box {
	out := model.Box{Traits: r.sets(in.Traits)}
	for _, s := range in.Years {
		out.Years = append(out.Years, model.Span{From: s[0], To: s[1]})
	}
	return out
}

// replacement gives what Replaced by says, nil for nothing.
func (r *reader) replacement(in *wire.Fits) *model.Fits {
	if in == nil {
		return nil
	}
	return r.fits(in)
}

func (r *reader) fits(in *wire.Fits) *model.Fits {
	out := &model.Fits{Text: in.Text}
	for o := range model.Outcomes {
		if o.String() == in.Outcome {
			out.Outcome = o
		}
	}
	if out.Outcome == model.Gap || out.Outcome == model.Conflict {
		r.fail("a cell cannot say %q", in.Outcome)
	}
	if in.With != "" {
		out.With = r.position(in.With)
	}
	for _, a := range in.Alternatives {
		var items model.Alternative
		for _, it := range a {
			items = append(items, model.Item{Part: r.part(it.Part), Quantity: it.Quantity})
		}
		out.Alternatives = append(out.Alternatives, items)
	}
	return out
}
