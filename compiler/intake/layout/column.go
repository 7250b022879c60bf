package layout

import (
	"slices"

	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// column is what a row is of Layouts is about, or a part of it.
type column struct {
	h        *holding
	row      *Row
	by       cell.Place
	col      int32 // of the sheet
	level    []int // columns of the table; the part of the row is partOf
	years    []bool
	says     []*say
	splits   []*split
	down     *named
	last     *held // what stands above, where a blank is as above
	blank    *say
	constant [][]table.Field // of what holds for all rows
}

// partOf stands for the part that a mark means in place of a column.
const partOf = -1

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

// takes tells whether a column is that of the part which marks mean.
func (g *reading) takes(t target) bool {
	return len(g.across) > 0 && g.kind == schema.Fitment && (word.Fold(t.name) == "part" || word.Fold(t.name) == "fits")
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

func (g *reading) columnYears(i int) bool { return g.holdsYears(g.columns[i].Name) }

func (g *reading) headOf(col int32) *head {
	i, ok := slices.BinarySearchFunc(g.heads, col, func(h *head, col int32) int { return int(h.col - col) })
	if !ok {
		return nil
	}
	return g.heads[i]
}

// use says what a column of the sheet is for.
type use struct {
	rowed []*column
	cross *crossing
	skip  bool
}

func (g *reading) useOf(col int32) *use {
	for int(col) >= len(g.use) {
		g.use = append(g.use, use{})
	}
	return &g.use[col]
}
