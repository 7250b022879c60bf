package bind

import (
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
)

// headsTwice finds the columns of conditions that have one name with another: which of the
// two is meant by it nobody knows, so that rows with a value under either are set aside.
func (b *binder) headsTwice() {
	for _, kind := range schema.Kinds() {
		if !schema.FurtherOf(kind).Traits {
			continue
		}
		for _, t := range b.kinds[kind] {
			for i := range t.Again {
				b.headTwice(t, &t.Again[i])
			}
		}
	}
}

func (b *binder) headTwice(t *table.Table, a *table.Again) {
	c, cause := t.Columns[a.Of], b.told(t.Place(a.At))
	trait, isTrait := b.lexicon.Traits.Find(c.Name)
	switch {
	case cause == nil:
	case isTrait && !c.Known:
		b.Owed.Named(trait, cause)
		b.suspects[t.Place(c.At)], b.suspects[t.Place(a.At)] = cause, cause
		undecided(cause, "the rows with a value under either are set aside")
	case c.Name == "Years" && c.Known && t.Kind != schema.Vehicles:
		b.suspects[t.Place(c.At)], b.suspects[t.Place(a.At)] = cause, cause
		undecided(cause, "the rows with a value under either are set aside")
	case c.Name == "Platform" && c.Known, c.Name == "Years" && c.Known:
		b.suspects[t.Place(a.At)] = cause // a sheet of the kind is none without the column
		undecided(cause, "the rows with a value under the second are set aside")
	case c.Name == "Precedence" && c.Known:
		b.Owed.Unrank(t.Sheet, cause)
	}
}

// undecided says what comes of two columns of one name.
func undecided(f *finding.Finding, until string) {
	f.Message = f.Constant + ", and which of the two is meant cannot be told"
	f.Fix += "; until then " + until
}

// underTwice sets a row aside that has a value under a condition's name for the second time.
func (b *binder) underTwice(r row, w *model.When) {
	for i := range r.t.Again {
		a := &r.t.Again[i]
		if cause := b.suspects[r.t.Place(a.At)]; cause != nil {
			if _, filled := a.Under(r.r.Row); filled {
				w.SetAside = true
				b.toBlame(cause)
			}
		}
	}
}

// placesTwice takes columns of a position whose name another one has as well for columns that
// may be that of any position which the sheet has no column for.
func (b *binder) placesTwice(t *table.Table, c *fitmentColumns) {
	for i := range t.Again {
		a := &t.Again[i]
		p, cause := c.positions[a.Of], b.told(t.Place(a.At))
		if cause == nil || p == nil && b.misnamed[t.Place(t.Columns[a.Of].At)] == nil {
			continue
		}
		maybe := b.misnamed[t.Place(t.Columns[a.Of].At)]
		if p != nil {
			maybe = append(b.vacancies(t, nil), p)
		}
		c.positions[a.Of] = nil
		for _, at := range [...]int32{t.Columns[a.Of].At.Col, a.At.Col} {
			place := t.Place(a.At)
			place.Pos.Col = at
			b.misnamed[place], b.headings[place] = maybe, cause
		}
		undecided(cause, "nothing under either is read")
		b.Owed.Unread(t.Sheet, cause)
	}
}

// vacancies gives the positions that a sheet has no column for and at which parts of one of
// the families may belong; nil for any families.
func (b *binder) vacancies(t *table.Table, families map[string]bool) []*model.Position {
	var out []*model.Position
	for _, p := range b.cat.Positions {
		home := len(p.Families) == 0 || len(families) == 0 || slices.ContainsFunc(p.Families, func(f string) bool { return families[word.Fold(f)] })
		if home && !b.has(t, p.Name) {
			out = append(out, p)
		}
	}
	return out
}

// opposites are words of which a heading and a name that differ in them mean two places.
var opposites = [...][2]string{{"front", "rear"}, {"front", "drive"}, {"front", "tag"}, {"drive", "tag"}, {"front", "back"}, {"left", "right"},
	{"upper", "lower"}, {"inner", "outer"}}

// opposed tells whether a heading speaks of another place than a name.
func opposed(heading, name string) bool {
	a, b := nameWords(heading), nameWords(name)
	return slices.ContainsFunc(opposites[:], func(o [2]string) bool {
		return slices.Contains(a, o[0]) && slices.Contains(b, o[1]) || slices.Contains(a, o[1]) && slices.Contains(b, o[0])
	})
}

// familiesUnder gives the families of the parts under a column of a Fitment sheet.
func (b *binder) familiesUnder(t *table.Table, c table.Column) map[string]bool {
	here := map[string]bool{}
	b.eachOffer(t, slices.IndexFunc(t.Columns, func(x table.Column) bool { return x.At == c.At }), func(family string) { here[family] = true })
	return here
}

// byOneWord gives the one position without a column on the sheet whose name holds all words
// of a heading; nil where none or several do.
func (b *binder) byOneWord(t *table.Table, name string) *model.Position {
	words := nameWords(name)
	if len(words) == 0 || strings.ContainsAny(name, "0123456789") {
		return nil
	}
	var found *model.Position
	for _, p := range b.cat.Positions {
		its := nameWords(p.Name)
		if slices.ContainsFunc(words, func(w string) bool { return len(w) < 3 || !slices.Contains(its, w) }) {
			continue
		}
		if found != nil {
			return nil
		}
		found = p
	}
	if found == nil || b.has(t, found.Name) {
		return nil
	}
	return found
}

// misnamedIn gives what was told of a column of a sheet that may be that of a position and is
// not read; nil where there is none.
func (b *binder) misnamedIn(t *table.Table, p *model.Position) *finding.Finding {
	for _, c := range t.Columns {
		if at := t.Place(c.At); slices.Contains(b.misnamed[at], p) {
			return b.headings[at]
		}
	}
	return nil
}
