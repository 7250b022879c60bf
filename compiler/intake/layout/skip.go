package layout

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"ferrule/compiler/intake/table"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// skipRow understands a row skip: what is left out on purpose.
func (a *author) skipRow(p *piece, r *Row) {
	n := &named{r, placeOf(r.Where)}
	if r.Where == "" || n.what == sheetName || n.what == aText || n.what == theHeads || n.what == theCells {
		a.fail(r.WhereAt, fmt.Sprintf("%s under Where of a row skip names nothing that can be left out", said(r.Where)), `write a head, or row "Total" for a row that begins with the text; column C, cell B1 and rows 1-2 are understood as well`)
		return
	}
	p.skips = append(p.skips, n)
}

// skipColumns finds the columns that are left out; one that another row reads is told.
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

// skipping tells whether a row leaves a column out.
func (g *reading) skipping(col int32) bool {
	return slices.ContainsFunc(g.skips, func(s *named) bool {
		if s.what == aColumn {
			return s.col == col
		}
		hits := g.called(s.text)
		return s.what == aHead && len(hits) == 1 && hits[0].col == col
	})
}

// skipped tells whether a row is left out on purpose; cells that are, are claimed.
func (r *reader) skipped(number int32, level []level8) bool {
	for _, s := range r.skips {
		switch s.what {
		case aCell:
			for i := range level {
				if at := (cell.Pos{Row: number, Col: r.items[i].col}); at == s.pos {
					level[i], r.met[s.row] = claimed, true
				}
			}
			continue
		case rowNumbers:
			if !s.rows.holds(number) {
				continue
			}
		case aRowText:
			if !begins(r.first(), s.text) {
				continue
			}
		}
		r.met[s.row] = true
		for i := range level {
			level[i] = claimed
		}
		return true
	}
	for i := range level {
		if _, wanted := r.ahead.cells[cell.Pos{Row: number, Col: r.items[i].col}]; wanted {
			level[i] = claimed
		}
	}
	return false
}

// begins tells whether a cell says a text, or begins with it and goes on with another word.
func begins(said, text string) bool {
	said, text = word.Fold(said), word.Fold(text)
	rest, ok := strings.CutPrefix(said, text)
	next, _ := utf8.DecodeRuneInString(rest)
	return ok && (rest == "" || !isAlnum(next))
}
