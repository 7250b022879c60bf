package layout

import (
	"fmt"
	"slices"

	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/sheets/cell"
)

// prepare finds in the sheet what the rows of Layouts name, once its heads are known.
func (g *reading) prepare() {
	if g.ready {
		return
	}
	g.ready = true
	if g.extent.header.From > 0 {
		g.headed()
	}
	if g.dead {
		return
	}
	g.cellsColumn()
	g.isColumns()
	g.sectionColumns()
	g.acrossColumns()
	g.markColumns()
	g.fixedColumns()
	g.skipColumns()
	g.begin()
}

// cellsColumn finds out which column the cells below across hold.
func (g *reading) cellsColumn() {
	if len(g.across) == 0 {
		return
	}
	by, t := g.across[0].row.AsAt, target{}
	switch {
	case g.cells != nil:
		t, by = g.cells.levels[0][0], g.cells.row.AsAt
		t.name = g.alias(t.name)
	case g.kind == schema.Fitment:
		t.name = fits
	case g.hasMarks() || g.flipping():
		return // a mark says that the row is there
	default:
		g.r.report(&table.Fault{What: table.Unread, Cells: []cell.Place{g.across[0].row.WordAt},
			Message: fmt.Sprintf("no row says what the cells below across are in a table of %s", schema.Title(g.kind)),
			Fix:     "write a row cells with the column under As"})
		g.fail()
		return
	}
	g.cellsAt = g.add(t, elsewhere, by)
	if g.part() {
		g.partAt = g.cellsAt
	}
}

// hasMarks tells whether marks say what the cells mean.
func (g *reading) hasMarks() bool { return len(g.marks) > 0 }

// flipping tells whether rows of the sheet are columns of the table.
func (g *reading) flipping() bool {
	return slices.ContainsFunc(g.is, func(h *holding) bool { return h.labels || h.what == aRowText })
}

// fail sets the table aside: a row of it that cannot be followed says which vehicles its rows are
// about, or what fits, and without that they would say something else. It has been told.
func (g *reading) fail() { g.dead, g.piece.failed = true, true }

// begin makes what makes the records, and the values that are known by now.
func (g *reading) begin() {
	if g.dead {
		return
	}
	g.unknownSubjects()
	if g.flipping() {
		return // the columns are known when all rows are
	}
	g.start()
	g.constants()
	g.crossed()
	g.declare()
}

// start makes what makes the records, now that the columns are known.
func (g *reading) start() {
	columns := slices.Clone(g.columns)
	g.maker = table.NewMaker(g.sheet, g.r.kinds(g.kind), columns, g.r.texts)
	t := g.maker.Table()
	for i := range t.Columns {
		if t.Columns[i].At == elsewhere {
			t.Columns[i].At = t.Elsewhere(g.by[i])
		}
	}
	t.Laid.Several = len(g.across) > 0 || slices.ContainsFunc(g.splits, func(s *split) bool { return s.with == "each" })
}
