package drag

import (
	"slices"

	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

// effect is what a climbing number does.
type effect uint8

const (
	nothing effect = iota
	ladder         // each row lies within the one above: exceptions of exceptions
	decides        // another cell decides than would if the first value stood everywhere
)

// line is a row in which a number may decide: of Fitment or Facts.
type line struct {
	when *model.When
	says []said
}

// said is what a row says of a position or a fact.
type said struct{ of, what any }

type rowAt struct {
	sheet *cell.Sheet
	row   int32
}

// rows finds the rows of the catalogue by where they stand.
type rows struct {
	cat    *model.Catalogue
	wanted map[rowAt]bool
	at     map[rowAt]*line     // of those that are wanted; nil until one is asked for
	on     [][]*model.Vehicles // by platform; nil until one is asked for
}

func newRows(cat *model.Catalogue, runs []*Run) *rows {
	rs := &rows{cat: cat, wanted: map[rowAt]bool{}}
	for _, r := range runs {
		for i, row := range r.Rows {
			if r.class == precedence || r.class == years {
				rs.wanted[rowAt{r.Cells[i].Sheet, row}] = true
			}
		}
	}
	return rs
}

// line gives a row of Fitment or Facts, nil where there is none.
func (rs *rows) line(at rowAt) *line {
	if rs.at == nil {
		rs.read()
	}
	return rs.at[at]
}

func (rs *rows) read() {
	rs.at = map[rowAt]*line{}
	for _, f := range rs.cat.Fitments {
		if at := (rowAt{f.At.Sheet, f.Row}); rs.wanted[at] {
			rs.at[at] = fitmentLine(f)
		}
	}
	for _, f := range rs.cat.FactRows {
		if at := (rowAt{f.At.Sheet, f.At.Pos.Row}); rs.wanted[at] {
			l := &line{when: &f.When}
			for _, c := range f.Cells {
				l.says = append(l.says, said{c.Fact, c.Value})
			}
			rs.at[at] = l
		}
	}
}

func fitmentLine(f *model.Fitment) *line {
	l := &line{when: &f.When}
	for _, c := range f.Cells {
		l.says = append(l.says, said{c.Position, c.Fits.Key(0)})
	}
	return l
}

// longest is how many rows of a run are held against each other; a longer one is taken to
// change what decides.
const longest = 300

func (rs *rows) effect(r *Run) effect {
	if r.class != precedence && (r.class != years || r.climb < first) {
		return nothing
	}
	var lines []*line
	for i, n := range r.Rows {
		if l := rs.line(rowAt{r.Cells[i].Sheet, n}); l != nil {
			lines = append(lines, l)
		}
	}
	if len(lines) < len(r.Rows) {
		return nothing // a row of another kind, or one that could not be read
	}
	switch {
	case r.class == precedence && within(lines):
		return ladder
	case r.class == precedence && rs.disagree(lines):
		return decides
	case r.class == years && rs.reaches(lines):
		return decides
	}
	return nothing
}

// within tells whether each row's vehicles are among those of the row above it, and are not
// all of them: a row that hides all of another is no exception to it.
func within(lines []*line) bool {
	for i := 1; i < len(lines); i++ {
		if above, row := lines[i-1].when, lines[i].when; !inside(row, above) || inside(above, row) {
			return false
		}
	}
	return true
}

func inside(a, b *model.When) bool {
	if b.Platforms != nil && (a.Platforms == nil || slices.ContainsFunc(a.Platforms, func(p *model.Platform) bool { return !b.Concerns(p) })) {
		return false
	}
	if b.Years != nil && (a.Years == nil || !spansInside(a.Years, b.Years)) {
		return false
	}
	for _, t := range b.Traits {
		i := slices.IndexFunc(a.Traits, func(o model.TraitSet) bool { return o.Trait == t.Trait })
		if i < 0 || !a.Traits[i].In(t) {
			return false
		}
	}
	return true
}

// spansInside tells whether the years of a condition are all in one span of another.
func spansInside(a, b *model.Years) bool {
	if a.Not || b.Not {
		return false
	}
	return !slices.ContainsFunc(a.Spans, func(s model.Span) bool {
		return !slices.ContainsFunc(b.Spans, func(o model.Span) bool { return o.From <= s.From && s.To <= o.To })
	})
}

// disagree tells whether two of the rows say different things of one vehicle.
func (rs *rows) disagree(lines []*line) bool {
	if len(lines) > longest {
		return true
	}
	for i, a := range lines {
		for _, b := range lines[:i] {
			if differ(a, b) && rs.exists(nil, a.when, b.when) {
				return true
			}
		}
	}
	return false
}

func differ(a, b *line) bool {
	return slices.ContainsFunc(a.says, func(x said) bool {
		return slices.ContainsFunc(b.says, func(y said) bool { return x.of == y.of && x.what != y.what })
	})
}

// reaches tells whether a row says something of vehicles of years that the first row does
// not name, or not of some that it names.
func (rs *rows) reaches(lines []*line) bool {
	first := lines[0].when.Years
	return slices.ContainsFunc(lines[1:], func(l *line) bool {
		meant := *l.when
		meant.Years = first
		return rs.exists(first, l.when) || rs.exists(l.when.Years, &meant)
	})
}

// exists tells whether a vehicle exists that meets all the conditions, in a year that but
// does not name; nil for any.
func (rs *rows) exists(but *model.Years, ws ...*model.When) bool {
	meets := func(v *model.Vehicles) bool {
		all := append([]*model.When{&v.When}, ws...)
		return !slices.ContainsFunc(all, func(w *model.When) bool { return w.SetAside }) && rs.year(but, all) && traitsMeet(all)
	}
	i := slices.IndexFunc(ws, func(w *model.When) bool { return w.Platforms != nil })
	if i < 0 {
		return slices.ContainsFunc(rs.cat.Vehicles, meets)
	}
	return slices.ContainsFunc(ws[i].Platforms, func(p *model.Platform) bool { return slices.ContainsFunc(rs.vehicles(p), meets) })
}

// vehicles gives the Vehicles rows that are about a platform.
func (rs *rows) vehicles(p *model.Platform) []*model.Vehicles {
	if rs.on == nil {
		rs.on = make([][]*model.Vehicles, len(rs.cat.Platforms))
		for _, v := range rs.cat.Vehicles {
			for _, p := range v.When.On(rs.cat) {
				rs.on[p.Index] = append(rs.on[p.Index], v)
			}
		}
	}
	return rs.on[p.Index]
}

// year tells whether a model year of a platform meets the conditions on both.
func (rs *rows) year(but *model.Years, all []*model.When) bool {
	return slices.ContainsFunc(all[0].On(rs.cat), func(p *model.Platform) bool {
		return !slices.ContainsFunc(all, func(w *model.When) bool { return !w.Concerns(p) }) &&
			slices.ContainsFunc(p.Years, func(y int) bool {
				return (but == nil || !but.Has(y)) && !slices.ContainsFunc(all, func(w *model.When) bool { return !w.Years.Has(y) })
			})
	})
}

// traitsMeet tells whether there is a value of each trait that meets all conditions.
func traitsMeet(all []*model.When) bool {
	left := map[*model.Trait]model.TraitSet{}
	for _, w := range all {
		for _, t := range w.Traits {
			if before, ok := left[t.Trait]; ok {
				t = before.And(t)
			}
			if t.IsEmpty() {
				return false
			}
			left[t.Trait] = t
		}
	}
	return true
}
