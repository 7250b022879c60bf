package layout

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// acrossRow understands a row across: a stretch or a list of heads, and the columns that they are values of.
func (a *author) acrossRow(p *piece, r *Row) {
	h := &holding{row: r}
	if r.Where == "" || r.As == "" {
		at, what := r.WhereAt, "Where"
		if r.Where != "" {
			at, what = r.AsAt, "As"
		}
		a.fail(at, "nothing stands under "+what+" of a row across", "write the heads under Where (H7 … H12), and under As the column that they are values of (Platform)")
		return
	}
	h.place, h.to, h.far = stretchOf(r.Where)
	if !h.far {
		h.place = place{what: aHead, text: r.Where}
	}
	for _, part := range strings.Split(r.As, " / ") {
		h.levels = append(h.levels, level(strings.TrimSpace(part)))
	}
	p.across = append(p.across, h)
}

// crossing is a column of a grid.
type crossing struct {
	h        *holding
	col      int32
	head     *head
	variants []variant // what its heads say
}

// acrossColumns finds the columns of the grid.
func (g *reading) acrossColumns() {
	for _, h := range g.across {
		if g.extent.header.From == 0 {
			g.r.report(&table.Fault{What: table.Unread, Cells: []cell.Place{h.row.WordAt, g.top.WhereAt},
				Message: "a row across reads heads, and the table has no header", Fix: "write header and its row under Where of the row table"})
			g.fail()
			continue
		}
		rows := int(g.extent.header.To - g.extent.header.From + 1)
		if len(h.levels) > rows {
			g.r.report(&table.Fault{What: table.Unread, Cells: []cell.Place{h.row.AsAt, g.top.WhereAt},
				Message: fmt.Sprintf("%s names %d columns, and the heads have %d rows", said(h.row.As), len(h.levels), rows), Fix: "write a column for each row of heads, or the rows of the header that there are: header 2-3"})
			g.fail()
			continue
		}
		stretch := g.stretch(h)
		if len(stretch) == 0 {
			g.fail()
		}
		for _, x := range stretch {
			g.cross(h, x)
		}
	}
	slices.SortFunc(g.cols, func(a, b *crossing) int { return int(a.col - b.col) })
	g.acrossTargets()
}

// cross adds a column to the grid, unless another row reads it.
func (g *reading) cross(h *holding, x *head) {
	u := g.useOf(x.col)
	switch {
	case len(u.rowed) > 0 && !h.far:
		g.r.report(&table.Fault{What: table.Contradicted, Cells: []cell.Place{h.row.WhereAt, u.rowed[0].row.WhereAt},
			Message: fmt.Sprintf("two rows read the column %s, one by is and one by across", word.Quote(x.text)), Fix: "keep one of the two"})
	case len(u.rowed) > 0 || g.skipping(x.col):
	case u.cross != nil && u.cross.h != h:
		g.r.report(&table.Fault{What: table.Contradicted, Cells: []cell.Place{h.row.WhereAt, u.cross.h.row.WhereAt},
			Message: fmt.Sprintf("two rows across read the column %s", word.Quote(x.text)), Fix: "end the one where the other begins"})
	case u.cross != nil:
	default:
		u.cross = &crossing{h: h, col: x.col, head: x}
		g.cols = append(g.cols, u.cross)
	}
}

// acrossTargets makes the columns of the table that heads are values of.
func (g *reading) acrossTargets() {
	for _, h := range g.across {
		at := elsewhere
		for n, level := range h.levels {
			for _, x := range g.cols {
				if x.h == h {
					at = x.head.at
					at.Row = g.extent.header.From + int32(n)
					break
				}
			}
			for _, t := range level {
				if !g.takes(t) {
					t.name = g.alias(t.name)
					g.add(t, at, h.row.AsAt)
				}
			}
		}
	}
}
