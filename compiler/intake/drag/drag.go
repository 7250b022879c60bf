// Package drag finds what dragging a cell makes: a run of rows in which only a number
// climbs by one, as spreadsheet programs do it when the corner of a cell is pulled down.
//
// A run is three rows or more. What makes it suspicious depends on the column:
//
//   - Years of which the last one climbs and the first stays (2003-2010, 2003-2011,
//     2003-2012), where the rows are about one platform; in Vehicles only where at least half
//     of what stands beside them stays the same, since rows of a short platform come to such
//     ends by chance, and then differ in more. Where the first one climbs, or both, which
//     programs do not make of one cell, half must stay the same or four rows do so. Single years that climb beside
//     cells that stay the same are what a row a year looks like; they are told only where
//     most of the sheet's Years are no single years.
//   - Precedence: told whatever stands beside it, except where each row's conditions lie
//     within those of the row above it: exceptions of exceptions.
//   - Parts of fitment cells, platforms, sizes and measured values: only where what stands
//     beside them in the row stays the same, or climbs too. The column that names what a row
//     declares (a part in Parts, a platform in Platforms) is a list and never told.
//   - Anything that leads to names that nothing declares, whatever stands beside it: the
//     findings about those names are told as one.
//
// Where an earlier release is at hand, a fill is also told by what it went over (Since).
//
// Texts are compared as they stand, so that nothing needs to be read first.
package drag

import (
	"ferrule/compiler/intake/table"
	"ferrule/compiler/intake/written"
	"ferrule/schema"
	"ferrule/sheets/cell"
)

// least is how many rows make a run.
const least = 3

// Run is a run of rows of one column.
type Run struct {
	Kind   string // of the sheet
	Column string
	Texts  []string
	Cells  []cell.Place
	Rows   []int32
	// Same tells that everything else in the rows that matters stays the same or climbs too,
	// and Platform that the rows are about one platform, where the sheet says so.
	Same, Platform bool
	Mostly         bool // at least half of what is filled beside stays the same at each step
	class          class
	climb          climb
	column         int
	Told           bool // by itself; else only for names that nothing declares
}

// class is what a column's cells are.
type class uint8

const (
	other class = iota // told only where nothing declares what it says
	never              // declares what the rows are about, or is prose
	years
	precedence
	part
	name     // of a platform
	measured // a size or a measured value of a part
	count    // how many
	large    // a large number, which does not climb by one by chance
)

// Find gives the runs of all sheets, in their order.
func Find(tables []*table.Table) []*Run {
	places := Positions(tables)
	var out []*Run
	for _, t := range tables {
		out = append(out, find(t, places)...)
	}
	return out
}

// scan goes down the rows of one sheet.
type scan struct {
	t       *table.Table
	classes []class
	prose   []bool // by column
	open    []*Run // by column; nil where the cell does not climb
	out     []*Run
	above   []*table.Field // the cell of the row above, by column
	now     []*table.Field
	steps   []step

	filled  []int // by column: how many cells say something
	plain   []int // of them, numbers alone
	regular []int // of them, those of runs beside which everything stays the same
}

// step is how a cell is to the one above it.
type step struct {
	same   bool
	climbs bool
	climb  climb
}

func find(t *table.Table, places map[string]bool) []*Run {
	n := len(t.Columns)
	s := &scan{t: t, classes: make([]class, n), prose: make([]bool, n), open: make([]*Run, n), above: make([]*table.Field, n), now: make([]*table.Field, n), steps: make([]step, n), filled: make([]int, n), plain: make([]int, n), regular: make([]int, n)}
	for i := range t.Columns {
		s.classes[i] = classOf(t.Kind, &t.Columns[i], places)
		s.prose[i] = written.Prose(t.Kind, t.Columns[i].Name)
	}
	for i := range t.Records {
		s.row(t, i)
	}
	for col := range s.open {
		s.close(col)
	}
	return s.told()
}

func (s *scan) row(t *table.Table, i int) {
	s.above, s.now = s.now, s.above
	clear(s.now)
	for k := range t.Records[i].Fields {
		f := &t.Records[i].Fields[k]
		s.now[f.Column] = f
		s.filled[f.Column]++
		if s.classes[f.Column] == years && number(f.Text) {
			s.plain[f.Column]++
		}
	}
	climbs := false
	for col := range s.now {
		s.steps[col] = s.step(i, col)
		climbs = climbs || s.steps[col].climbs
	}
	for col := range s.now {
		if r := s.open[col]; r != nil && (!s.steps[col].climbs || s.steps[col].climb != r.climb) {
			s.close(col)
		}
	}
	if !climbs {
		return
	}
	for col := range s.now {
		if s.steps[col].climbs && s.classes[col] != never {
			s.extend(i, col)
		}
	}
}

// step compares a cell with the one above it. A cell of a merged range stands there once.
func (s *scan) step(i, col int) step {
	a, b := s.above[col], s.now[col]
	if a == nil || b == nil {
		return step{same: a == b}
	}
	if a.Text == b.Text {
		return step{same: true}
	}
	if a.At.Row != s.t.Records[i-1].Row || b.At.Row != s.t.Records[i].Row || s.t.Records[i].Row != s.t.Records[i-1].Row+1 {
		return step{}
	}
	c, ok := climbing(a.Text, b.Text)
	return step{climbs: ok, climb: c}
}

// extend adds a row to the run of a column, or begins one with the row above.
func (s *scan) extend(i, col int) {
	r := s.open[col]
	if r == nil {
		r = &Run{Kind: s.t.Kind, Column: s.t.Columns[col].Name, Same: true, Platform: true, Mostly: true, class: s.classes[col], climb: s.steps[col].climb}
		r.add(s.t, i-1, s.above[col])
		s.open[col] = r
	}
	r.add(s.t, i, s.now[col])
	r.Mostly = r.Mostly && s.mostly(col)
	for k, st := range s.steps {
		free := k == col || s.classes[k] == never && !s.counts(k)
		r.Same = r.Same && (free || st.same || st.climbs)
		if s.t.Columns[k].Name == "Platform" && s.t.Columns[k].Known {
			r.Platform = r.Platform && (k == col || st.same)
		}
	}
}

// mostly tells whether at least half of what is filled beside a column is as in the row above.
func (s *scan) mostly(col int) bool {
	same, filled := 0, 0
	for k, st := range s.steps {
		if k == col || s.above[k] == nil && s.now[k] == nil || s.prose[k] || s.classes[k] == large {
			continue
		}
		filled++
		if st.same {
			same++
		}
	}
	return 2*same >= filled
}

// counts tells whether a column that is never told of is part of what stands beside: what
// a row of another sheet than Parts declares is, and prose is not.
func (s *scan) counts(col int) bool {
	return s.t.Kind != schema.Parts && !s.prose[col]
}

func (r *Run) add(t *table.Table, i int, f *table.Field) {
	r.Texts = append(r.Texts, f.Text)
	r.Cells = append(r.Cells, t.Place(f.At))
	r.Rows = append(r.Rows, t.Records[i].Row)
}

func (s *scan) close(col int) {
	if r := s.open[col]; r != nil && len(r.Cells) >= least {
		s.out = append(s.out, r)
		r.column = col
		if r.Same {
			s.regular[col] += len(r.Cells)
		}
	}
	s.open[col] = nil
}
