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
	wanted, signs := map[cell.Pos]bool{}, map[string]bool{}
	for _, piece := range p.pieces {
		for _, h := range piece.is {
			if h.what == aCell {
				wanted[h.pos] = true
			}
		}
		for _, m := range piece.marks {
			if m.note {
				signs[m.sign] = true
			}
		}
	}
	if len(wanted) == 0 && len(signs) == 0 {
		return a, nil
	}
	trailer, err := book.Rows(index, func(in *sheets.Row) error {
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
		if n != 1 || len(signs) == 0 {
			return nil
		}
		for sign := range signs {
			text, ok := legendOf(in.Cells[last].Text, sign)
			if _, twice := a.legends[sign]; ok && !twice {
				a.legends[sign] = legend{text, cell.Pos{Row: in.Number, Col: in.Cells[last].Col}}
			}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	a.merges, a.done = trailer.Merges, true
	return a, nil
}
