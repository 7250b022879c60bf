package model

import (
	"ferrule/compiler/formula"
	"ferrule/compiler/measure"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// Figure is a property of parts that is a quantity: a column of the Parts sheets, or a
// value that is calculated, or both.
type Figure struct {
	Index     int
	Name      string
	Dimension measure.Dimension
	Unit      measure.Unit          // that of its header, else of the first cell that states one
	Computed  []*Calculated         // in the order of the sheets; none for what is only stated
	At        cell.Place            // its header, or the row that calculates it
	Columns   map[*cell.Sheet]int32 // where its column stands
}

// Cell gives the place where a part states the figure, the part's own cell where its
// sheet has no such column.
func (f *Figure) Cell(p *Part) cell.Place {
	if col, ok := f.Columns[p.At.Sheet]; ok {
		return p.At.At(cell.Pos{Row: p.At.Pos.Row, Col: col})
	}
	return p.At
}

// For gives what calculates the figure for a part, nil for nothing.
func (f *Figure) For(p *Part) *Calculated {
	for _, c := range f.Computed {
		if c.About(p) {
			return c
		}
	}
	return nil
}

// Reading is what a figure of one part is.
type Reading struct {
	Figure   *Figure
	Quantity measure.Quantity
	Value    formula.Value
	By       *Calculated  // nil: the part states it
	From     []cell.Place // the part's cell, or the formula's and those of what it uses
}

// Reading gives what a figure of the part is, and false where that is not known.
func (p *Part) Reading(f *Figure) (Reading, bool) {
	for _, r := range p.Readings {
		if r.Figure == f {
			return r, true
		}
	}
	return Reading{}, false
}

// State adds what the part itself states of a figure in a cell.
func (p *Part) State(f *Figure, q measure.Quantity, at cell.Place) {
	p.Readings = append(p.Readings, Reading{Figure: f, Quantity: q, Value: formula.ValueOf(q), From: []cell.Place{at}})
}

// Calculated is one row of a Calculated sheet: a property of parts that follows from
// others.
type Calculated struct {
	Figure  *Figure
	Unit    measure.Unit
	Text    string           // of the formula, as written
	Formula *formula.Formula // nil where it cannot be read
	Family  string           // "": any
	Source  string
	Note    string // for the staff only
	At      cell.Place
	TextAt  cell.Place // the Formula cell
}

// About tells whether the row calculates something of a part.
func (c *Calculated) About(p *Part) bool {
	return c.Family == "" || word.Fold(c.Family) == word.Fold(p.Family)
}

// Fact is something measured or published of vehicles: a column of the Facts sheets.
type Fact struct {
	Index     int
	Name      string
	Dimension measure.Dimension
	Unit      measure.Unit    // that of its header, else of the first cell that states one
	Values    []formula.Value // each magnitude that a cell states, once
	At        cell.Place      // its header
}

// FactRow is one row of a Facts sheet.
type FactRow struct {
	When       When
	Precedence int
	Source     string
	Cells      []*FactCell
	At         cell.Place // the leftmost filled cell
}

// FactCell says what a fact is on the vehicles of its row.
type FactCell struct {
	Row      *FactRow
	Fact     *Fact
	Value    int // index into the fact's Values
	Quantity measure.Quantity
	Text     string
	At       cell.Place
}

// Limit is one row of a Limits sheet.
type Limit struct {
	Index    int
	Name     string
	Position *Position     // nil: any
	Family   string        // "": any
	Left     string        // as written
	Must     string        // at least, at most or equal to
	Right    string        // as written
	Rule     *formula.Rule // nil where a side cannot be read
	Warning  bool          // parts that break it may be published
	Message  string
	At       cell.Place // the Limit cell
}

// About tells whether the limit is about a part, at those positions for which it
// holds. A kit is what it holds: only a limit that names its family is about the kit
// itself.
func (l *Limit) About(p *Part) bool {
	if l.Family == "" {
		return !p.Kit()
	}
	return word.Fold(l.Family) == word.Fold(p.Family)
}

// Holds tells whether the limit is about what is offered at a position.
func (l *Limit) Holds(at *Position) bool { return l.Position == nil || l.Position == at }

// Term gives the figure or the fact that a formula's ID stands for; the other is nil.
func (c *Catalogue) Term(id int) (*Figure, *Fact) {
	if id < len(c.Figures) {
		return c.Figures[id], nil
	}
	return nil, c.Facts[id-len(c.Figures)]
}
