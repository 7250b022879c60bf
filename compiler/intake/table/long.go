package table

import (
	"fmt"

	"ferrule/sheets/cell"
)

// longRows are the rows of a text file that have more cells than its header: a cell in them was
// split in two, or one is too many, and nobody can tell which.
type longRows struct {
	header int32 // how many cells the header has; 0 where the sheet is none of a text file
	cells  []cell.Place
	notes  []string
}

// surplus cuts the cells that stand behind the header's last one and gives the first that holds
// something, with how many cells the row has; 0 where there is none.
func (r *reader) surplus(in *row) int32 {
	if r.long.header == 0 || in.width <= r.long.header || !r.table.Headed {
		return 0
	}
	n := len(in.cells)
	for n > 0 && in.cells[n-1].Col > r.long.header {
		n--
	}
	if n == 0 || !holds(in.cells[n:]) {
		return 0
	}
	in.cells = in.cells[:n]
	return in.width
}

// note keeps a row that has more cells than its header, whose fields can then not be used.
func (l *longRows) note(in *row, rec *Record, width int32) {
	at := cell.Pos{Row: in.number, Col: in.cells[0].Col}
	if len(rec.Fields) > 0 {
		at = rec.Fields[0].At
	}
	for i := range rec.Fields {
		rec.Fields[i].Broken = true
	}
	l.cells = append(l.cells, cell.Place{Pos: at})
	l.notes = append(l.notes, fmt.Sprintf("%d cells", width))
}

// longer tells of them, once.
func (r *reader) longer() {
	l := &r.long
	if len(l.cells) == 0 {
		return
	}
	for i := range l.cells {
		l.cells[i].Sheet = r.sheet
	}
	what := "the row has " + l.notes[0] + " and its header"
	if n := len(l.cells); n > 1 {
		what = fmt.Sprintf("%d rows have more cells than their header, the first %s where the header has", n, l.notes[0])
	}
	r.report(&Fault{What: Longer,
		Message:  fmt.Sprintf("%s %d, so which cell belongs under which heading cannot be told; nothing in it is read", what, l.header),
		Constant: "a row has more cells than its header",
		Fix:      "put a cell that holds the sign that separates cells into quotation marks, as in \"front, left\"; or take out the cells that are too many",
		Cells:    l.cells, Notes: l.notes})
}
