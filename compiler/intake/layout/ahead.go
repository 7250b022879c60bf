package layout

import (
	"ferrule/compiler/intake/table"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// ahead is what a row needs to know of cells further down.
type ahead struct {
	cells   map[cell.Pos]sheets.Value
	legends map[string]legend // by sign
	merges  []cell.Range
	done    bool
}

// look goes through the sheet for what has to be known before its rows are read: cells that rows
// is name, and the texts below tables that marks mean.
func (p *Plan) look(book *sheets.Book, index int) (*ahead, error) {
	a := &ahead{cells: map[cell.Pos]sheets.Value{}, legends: map[string]legend{}}
	wanted, signs := p.wanted()
	if len(wanted) == 0 && len(signs) == 0 {
		return a, nil
	}
	trailer, err := book.Rows(index, func(in *sheets.Row) error {
		if lone := a.keep(in, wanted); lone != nil {
			a.explain(lone, in.Number, signs)
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	a.merges, a.done = trailer.Merges, true
	return a, nil
}

// wanted gives the cells that rows is name, and the signs that a text below a table explains.
func (p *Plan) wanted() (cells map[cell.Pos]bool, signs map[string]bool) {
	cells, signs = map[cell.Pos]bool{}, map[string]bool{}
	for _, piece := range p.pieces {
		for _, h := range piece.is {
			if h.what == aCell {
				cells[h.pos] = true
			}
		}
		for _, m := range piece.marks {
			if m.note {
				signs[m.sign] = true
			}
		}
	}
	return cells, signs
}

// keep keeps the cells of a row that are wanted; it gives its filled cell where that is the only one.
func (a *ahead) keep(in *sheets.Row, wanted map[cell.Pos]bool) *sheets.Cell {
	n, last := 0, 0
	for i := range in.Cells {
		c := &in.Cells[i]
		if !table.Filled(&c.Value) {
			continue
		}
		n, last = n+1, i
		if at := (cell.Pos{Row: in.Number, Col: c.Col}); wanted[at] {
			a.cells[at] = c.Value
		}
	}
	if n != 1 {
		return nil
	}
	return &in.Cells[last]
}

// explain keeps what a text says of signs; the first text that explains one counts.
func (a *ahead) explain(c *sheets.Cell, row int32, signs map[string]bool) {
	for sign := range signs {
		text, ok := legendOf(c.Text, sign)
		if _, twice := a.legends[sign]; ok && !twice {
			a.legends[sign] = legend{text, cell.Pos{Row: row, Col: c.Col}}
		}
	}
}
