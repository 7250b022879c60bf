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

// isRow understands a row is: one head, column, cell or text, and the columns that it holds.
func (a *author) isRow(p *piece, r *Row) {
	h := &holding{row: r, place: placeOf(r.Where)}
	switch {
	case r.Where == "":
		a.fail(r.WhereAt, "nothing stands under Where of a row is", `write a head as it stands in the sheet, column C, sheet name, cell B1, or a "text" that holds for all rows`)
		return
	case r.As == "":
		a.fail(r.AsAt, fmt.Sprintf("nothing stands under As of the row that says what %s is", said(r.Where)), "write the column that it holds: Platform, Years, Position, the name of a trait; Platform, Years where years stand behind the name")
		return
	case h.what == theHeads, h.what == theCells:
		a.fail(r.WhereAt, fmt.Sprintf("a row is is about one head, and %s are those of a row across", strings.ToLower(r.Where)), "write their column under As of the row across, or in a row cells")
		return
	}
	if word.Fold(r.As) == "heads" {
		h.labels = true
	} else {
		h.levels = [][]target{level(r.As)}
	}
	p.is = append(p.is, h)
}

// isColumns finds the columns that rows is name.
func (g *reading) isColumns() {
	for _, f := range g.foundColumns() {
		u := g.useOf(f.col)
		if f.h.labels {
			g.labels = &column{h: f.h, row: f.h.row, by: f.h.row.AsAt, col: f.col}
			u.rowed = append(u.rowed, g.labels)
			continue
		}
		c := g.isColumn(f)
		g.rowed, u.rowed = append(g.rowed, c), append(u.rowed, c)
	}
}

// found is a column of the sheet that a row is names.
type found struct {
	h   *holding
	col int32
}

// foundColumns finds the columns that rows is name, from left to right. The table cannot be read
// without one that says what fits.
func (g *reading) foundColumns() []found {
	var all []found
	for _, h := range g.is {
		if h.what != aHead && h.what != aColumn {
			continue
		}
		if col, ok := g.find(h.row, h.place); ok {
			all = append(all, found{h, col})
		} else if !g.prose(h) {
			g.fail()
		}
	}
	slices.SortStableFunc(all, func(a, b found) int { return cmp.Compare(a.col, b.col) })
	return all
}

// isColumn makes a column of the table of one of the sheet.
func (g *reading) isColumn(f found) *column {
	at, unit, text := cell.Pos{Col: f.col}, "", ""
	if h := g.headOf(f.col); h != nil {
		at, text = h.at, h.text
		at.Col = f.col
		_, unit = unitOf(h.lowest())
	} else {
		at.Row = max(g.extent.rows.From, 1)
	}
	c := g.columnOf(f.h.row, f.h.levels[0], at, unit)
	c.h = f.h
	g.about(c, text, f.col)
	return c
}

// prose tells whether what a row is names says nothing about what fits.
func (g *reading) prose(h *holding) bool {
	for _, t := range h.levels0() {
		if c, ok := schema.Find(g.kind, g.alias(t.name)); !ok || !c.Holds.Prose() {
			return false
		}
	}
	return len(h.levels) > 0
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
