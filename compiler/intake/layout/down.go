package layout

import (
	"fmt"

	"ferrule/sheets/cell"
)

// downRow understands a row down: the head of a column whose blanks say what stands above them.
func (a *author) downRow(p *piece, r *Row) {
	n := &named{r, placeOf(r.Where)}
	if r.Where == "" || n.what != aHead && n.what != aColumn {
		a.fail(r.WhereAt, fmt.Sprintf("%s under Where of a row down is no head", said(r.Where)), "write the head of the column in which a blank cell says what the one above it says")
		return
	}
	p.downs = append(p.downs, n)
}

// below gives what the row at hand says in a column: its cell, what stands above where a blank is
// as above, or what a blank means; nil for nothing.
func (g *reading) below(c *column) *held {
	for i := range g.r.items {
		if it := &g.r.items[i]; it.col == c.col {
			v := &held{*it.Value, it.at}
			if c.down != nil {
				c.last = v
			}
			return v
		}
	}
	switch {
	case c.down != nil && c.last != nil:
		g.r.met[c.down.row] = true
		return c.last
	case c.blank != nil:
		g.r.met[c.blank.row] = true
		return &held{text(c.blank.now), cell.Pos{Row: g.row32, Col: c.col}}
	}
	return nil
}
