package layout

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/schema/word"
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

// add gives the index of a column of the table, which it makes if there is none.
func (g *reading) add(t target, at cell.Pos, by cell.Place) int {
	key := word.Fold(t.name)
	if i, ok := g.index[key]; ok {
		return i
	}
	g.index[key] = len(g.columns)
	g.columns = append(g.columns, table.Column{Name: t.name, Unit: t.unit, At: at})
	g.by = append(g.by, by)
	return len(g.columns) - 1
}

// elsewhere stands for a column whose heading is in a Layouts sheet.
var elsewhere = cell.Pos{Row: -1}

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

// takes tells whether a column is that of the part which marks mean.
func (g *reading) takes(t target) bool {
	return len(g.across) > 0 && g.kind == schema.Fitment && (word.Fold(t.name) == "part" || word.Fold(t.name) == "fits")
}

// columnOf makes a column of what a row of Layouts says. unit is that of the head.
func (g *reading) columnOf(row *Row, level []target, at cell.Pos, unit string) *column {
	c := &column{row: row, by: row.AsAt, col: at.Col}
	for _, t := range level {
		if g.takes(t) {
			c.level, c.years = append(c.level, partOf), append(c.years, false)
			continue
		}
		t.name = g.alias(t.name)
		if t.unit == "" && g.measured(t.name) {
			t.unit = unit
		}
		c.level = append(c.level, g.add(t, at, row.AsAt))
		c.years = append(c.years, g.holdsYears(t.name))
	}
	for _, s := range g.says {
		for _, t := range level {
			if s.what == aHead && word.Fold(s.text) == word.Fold(t.name) {
				c.says = append(c.says, s)
				break
			}
		}
	}
	return c
}

// measured tells whether a unit of a head says something under a column.
func (g *reading) measured(name string) bool {
	c, ok := schema.Find(g.kind, name)
	return !ok || c.Holds == schema.HoldsMeasured
}

func (g *reading) holdsYears(name string) bool {
	c, ok := schema.Find(g.kind, name)
	return ok && c.Holds == schema.HoldsYears
}

// isColumns finds the columns that rows is name.
func (g *reading) isColumns() {
	type found struct {
		h   *holding
		col int32
	}
	var all []found
	for _, h := range g.is {
		switch h.what {
		case aHead, aColumn:
			if col, ok := g.find(h.row, h.place); ok {
				all = append(all, found{h, col})
			} else if !g.prose(h) {
				g.fail()
			}
		}
	}
	slices.SortStableFunc(all, func(a, b found) int { return cmp.Compare(a.col, b.col) })
	for _, f := range all {
		at, unit, text := cell.Pos{Col: f.col}, "", ""
		if h := g.headOf(f.col); h != nil {
			at, text = h.at, h.text
			at.Col = f.col
			_, unit = unitOf(h.lowest())
		} else {
			at.Row = max(g.extent.rows.From, 1)
		}
		if f.h.labels {
			g.labels = &column{h: f.h, row: f.h.row, by: f.h.row.AsAt, col: f.col}
			g.useOf(f.col).rowed = append(g.useOf(f.col).rowed, g.labels)
			continue
		}
		c := g.columnOf(f.h.row, f.h.levels[0], at, unit)
		c.h = f.h
		g.about(c, text, f.col)
		g.rowed = append(g.rowed, c)
		g.useOf(f.col).rowed = append(g.useOf(f.col).rowed, c)
	}
}

// fail sets the table aside: a row of it that cannot be followed says which vehicles its rows are
// about, or what fits, and without that they would say something else. It has been told.
func (g *reading) fail() { g.dead, g.piece.failed = true, true }

// prose tells whether what a row is names says nothing about what fits.
func (g *reading) prose(h *holding) bool {
	for _, t := range h.levels0() {
		if c, ok := schema.Find(g.kind, g.alias(t.name)); !ok || !c.Holds.Prose() {
			return false
		}
	}
	return len(h.levels) > 0
}

// about gathers what Layouts says of the cells of one column: other words, signs that part them,
// blanks that are as above.
func (g *reading) about(c *column, head string, col int32) {
	is := func(p place) bool {
		switch p.what {
		case aColumn:
			return p.col == col
		case aHead:
			hits := g.called(p.text)
			return len(hits) == 1 && hits[0].col == col || word.Fold(p.text) == word.Fold(head) && head != ""
		}
		return false
	}
	for _, s := range g.says {
		if is(s.place) && !slices.Contains(c.says, s) {
			c.says = append(c.says, s)
		}
	}
	for _, s := range g.splits {
		if is(s.place) || s.what == aHead && g.named(c, s.text) {
			c.splits = append(c.splits, s)
		}
	}
	for _, d := range g.downs {
		if is(d.place) || d.what == aHead && g.named(c, d.text) {
			c.down = d
		}
	}
	for _, s := range c.says {
		if s.old == "" {
			c.blank = s
		}
	}
}

// named tells whether a text is the name of a column that holds what c is about, and no head.
func (g *reading) named(c *column, text string) bool {
	return len(g.called(text)) == 0 && slices.ContainsFunc(c.level, func(i int) bool {
		return i >= 0 && word.Fold(g.columns[i].Name) == word.Fold(text) || i == partOf && word.Fold(g.alias(text)) == "fits"
	})
}

func (g *reading) headOf(col int32) *head {
	i, ok := slices.BinarySearchFunc(g.heads, col, func(h *head, col int32) int { return int(h.col - col) })
	if !ok {
		return nil
	}
	return g.heads[i]
}

func (g *reading) useOf(col int32) *use {
	for int(col) >= len(g.use) {
		g.use = append(g.use, use{})
	}
	return &g.use[col]
}

func (g *reading) sectionColumns() {
	for _, s := range g.sections {
		c := g.columnOf(s.row, s.level, elsewhere, "")
		g.about(c, "", 0)
		g.secs = append(g.secs, &current{section: s, column: c})
	}
}

// fixedColumns finds what holds for all rows: the name of the sheet, a cell of it, a text.
func (g *reading) fixedColumns() {
	for _, h := range g.is {
		switch h.what {
		case sheetName, aCell, aText:
			c := g.columnOf(h.row, h.levels0(), elsewhere, "")
			c.h = h
			g.about(c, "", 0)
			g.fixed = append(g.fixed, c)
		}
	}
}

func (h *holding) levels0() []target {
	if len(h.levels) == 0 {
		return nil
	}
	return h.levels[0]
}

// constants makes the values that hold for all rows.
func (g *reading) constants() {
	for _, c := range g.fixed {
		switch c.h.what {
		case sheetName:
			c.constant = g.values(c, &held{text(g.r.sheet.Name), cell.Pos{}})
		case aText:
			c.constant = g.values(c, &held{text(c.h.text), g.maker.Table().Elsewhere(c.row.WhereAt)})
		case aCell:
			v, ok := g.r.ahead.cells[c.h.pos]
			if !ok {
				g.r.report(&table.Fault{What: table.Unmatched, Cells: []cell.Place{c.row.WhereAt, {Sheet: g.r.sheet, Pos: c.h.pos}},
					Message: fmt.Sprintf("the cell %s of the sheet %q, which should say %s, is blank", c.h.pos, g.r.sheet.Name, c.row.As),
					Fix:     "fill it, or write the cell that says it"})
				continue
			}
			c.constant = g.values(c, &held{v, c.h.pos})
		}
	}
}

func (g *reading) skipColumns() {
	for _, s := range g.skips {
		if s.what != aHead && s.what != aColumn {
			continue
		}
		col, ok := g.find(s.row, s.place)
		if !ok {
			continue
		}
		u := g.useOf(col)
		if len(u.rowed) > 0 {
			g.r.report(&table.Fault{What: table.Contradicted, Cells: []cell.Place{s.row.WhereAt, u.rowed[0].row.WhereAt},
				Message: fmt.Sprintf("one row reads %s and another one leaves it out", word.Quote(s.text)), Fix: "delete one of the two rows"})
			continue
		}
		u.skip, u.cross = true, nil
		g.r.met[s.row] = true
	}
	g.cols = slices.DeleteFunc(g.cols, func(x *crossing) bool { return g.use[x.col].cross != x })
}

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

// unknownSubjects tells of rows that are about a head or a column which there is not.
func (g *reading) unknownSubjects() {
	check := func(r *Row, p place) {
		if p.what != aHead || len(g.called(p.text)) == 1 || g.columnNamed(p.text) {
			return
		}
		g.find(r, p)
	}
	for _, s := range g.says {
		check(s.row, s.place)
	}
	for _, s := range g.splits {
		check(s.row, s.place)
	}
	for _, d := range g.downs {
		check(d.row, d.place)
		if !slices.ContainsFunc(g.rowed, func(c *column) bool { return c.down == d }) && len(g.called(d.text)) == 1 {
			g.r.report(&table.Fault{What: table.Unmatched, Cells: []cell.Place{d.row.WhereAt, {Sheet: g.r.sheet, Pos: g.called(d.text)[0].at}},
				Message: fmt.Sprintf("no row is says what %s holds, so nothing is read down from it", word.Quote(d.text)), Fix: "write a row is about it, or delete the row down"})
		}
	}
}

// columnNamed tells whether a text is the name of a column that something holds.
func (g *reading) columnNamed(text string) bool {
	_, ok := g.index[word.Fold(g.alias(text))]
	return ok || g.flipping() || strings.EqualFold(text, "part") && g.partAt >= 0
}
