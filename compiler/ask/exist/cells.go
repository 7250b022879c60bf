package exist

import (
	"math/big"
	"slices"

	"ferrule/compiler/bind"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Columns that are no traits.
const (
	platformColumn = "Platform"
	yearsColumn    = "Years"
	traitColumn    = "Trait"
	valueColumn    = "Value"
	RoadColumn     = "On the road" // holds numbers
)

// Cells is a row of a sheet: the text under each column; a column that it lacks is blank.
type Cells map[string]string

func (c Cells) with(column, text string) Cells {
	out := Cells{column: text}
	for k, v := range c {
		if k != column {
			out[k] = v
		}
	}
	return out
}

// Table is rows of a sheet, under the columns that any of them fills.
type Table struct {
	Columns []string
	Rows    [][]string
}

// Vehicles gives rows of a Vehicles sheet for all that exists.
func (l *Lister) Vehicles(list []Platform) Table {
	var rows []Cells
	for _, p := range list {
		for _, r := range p.Rows {
			rows = append(rows, l.vehicles(p.Platform, r.years, r.traits, p.Has)...)
		}
	}
	return l.VehiclesTable(rows)
}

// VehiclesTable puts rows of Vehicles under their columns.
func (l *Lister) VehiclesTable(rows []Cells) Table {
	return l.table(rows, []string{platformColumn, yearsColumn}, RoadColumn)
}

// BreaksTable puts rows of Breaks under their columns.
func (l *Lister) BreaksTable(rows []Cells) Table {
	return l.table(rows, []string{platformColumn, traitColumn, valueColumn, yearsColumn})
}

func (l *Lister) table(rows []Cells, before []string, after ...string) Table {
	columns := slices.Clone(before)
	for _, t := range l.cat.Traits {
		columns = append(columns, t.Name)
	}
	var out Table
	for _, c := range append(columns, after...) {
		if slices.ContainsFunc(rows, func(r Cells) bool { return r[c] != "" }) {
			out.Columns = append(out.Columns, c)
		}
	}
	for _, r := range rows {
		var line []string
		for _, c := range out.Columns {
			line = append(line, r[c])
		}
		out.Rows = append(out.Rows, line)
	}
	return out
}

// vehicles writes a box of all traits as rows of Vehicles: several where a value can only stand
// alone in a cell. A trait that no vehicle of the platform has stays blank.
func (l *Lister) vehicles(p *model.Platform, years []model.Span, traits, has []model.TraitSet) []Cells {
	rows := []Cells{{platformColumn: p.Name, yearsColumn: bind.YearCell(years)}}
	for _, t := range traits {
		if slices.ContainsFunc(has, func(h model.TraitSet) bool { return h.Trait.Index == t.Trait.Index }) {
			rows = product(rows, t.Trait.Name, l.words.Stated(t))
		}
	}
	return rows
}

// product gives each row once for each text.
func product(rows []Cells, column string, texts []string) []Cells {
	var out []Cells
	for _, text := range texts {
		for _, r := range rows {
			out = append(out, r.with(column, text))
		}
	}
	return out
}

// breakRow writes when some values are built as rows of Breaks. Values that no vehicle has are
// named or not, as it is shorter.
func (l *Lister) breakRow(p *decide.Platform, b decide.Break) []Cells {
	t := p.Cat.Traits[b.Trait-1]
	base := []Cells{{platformColumn: p.Model.Name, traitColumn: t.Name}}
	rows := product(base, valueColumn, l.words.Stated(model.TraitSet{Trait: t, Values: b.Values}))
	for i, set := range b.Box {
		switch {
		case set == nil:
		case i == 0:
			rows = product(rows, yearsColumn, []string{bind.YearCell(p.Model.Spans(set))})
		default:
			rows = product(rows, p.Cat.Traits[i-1].Name, l.condition(p, p.Cat.Traits[i-1], set))
		}
	}
	return rows
}

func (l *Lister) condition(p *decide.Platform, t *model.Trait, set space.Set) []string {
	texts := l.words.Cells(model.TraitSet{Trait: t, Values: set})
	if t.Kind.OnLine() {
		return texts
	}
	never := p.Values(p.All, t.Index+1).Not(t.Absent() + 1)
	wider := l.words.Cells(model.TraitSet{Trait: t, Values: set.Or(never)})
	if len(wider) < len(texts) || len(wider) == len(texts) && len(wider[0]) < len(texts[0]) {
		return wider
	}
	return texts
}

// decimal writes a number as a cell holds it; "" for one that no cell can.
func decimal(r *big.Rat) string {
	n, exact := r.FloatPrec()
	if !exact {
		return ""
	}
	return r.FloatString(n)
}
