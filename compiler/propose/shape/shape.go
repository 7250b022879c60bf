// Package shape looks at how a sheet is laid out: where tables stand on it, how deep their
// headings are, what their columns mostly hold, which short texts are marks, and which lines are
// titles, sections, totals and footnotes. It knows nothing of catalogues and claims nothing: what
// to make of a shape is for whoever asks.
//
// A look is bounded: of a sheet with more than MaxCells filled cells only the rows before are
// looked at, and Sheet.Cut says so.
package shape

import (
	"cmp"
	"errors"
	"slices"
	"strings"

	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// MaxCells is how many filled cells of a sheet are looked at.
const MaxCells = 2_500_000

// Sheet is what a sheet holds, without blank cells and rows.
type Sheet struct {
	Name   string
	Hidden bool
	Rows   []Row // ascending
	Cut    int32 // the first row that was not looked at; 0 where all were

	merges map[cell.Pos]cell.Range
}

// Row is a row with at least one filled cell.
type Row struct {
	Number int32
	Cells  []Cell // ascending
}

// Cell is a filled cell.
type Cell struct {
	Col  int32
	Text string // without blanks around it, never ""
}

// errEnough ends the reading of a sheet of which enough is known.
var errEnough = errors.New("enough cells")

// Read reads a sheet for a look at it. The error is the one of its reading.
func Read(book *sheets.Book, index int) (*Sheet, error) {
	info := book.Sheets()[index]
	s := &Sheet{Name: info.Name, Hidden: info.Visibility != sheets.Visible, merges: map[cell.Pos]cell.Range{}}
	filled := 0
	trailer, err := book.Rows(index, func(in *sheets.Row) error {
		if filled > MaxCells {
			s.Cut = in.Number
			return errEnough
		}
		if row := take(in); len(row.Cells) > 0 {
			s.Rows = append(s.Rows, row)
			filled += len(row.Cells)
		}
		return nil
	})
	if err != nil && !errors.Is(err, errEnough) {
		return nil, err
	}
	if trailer != nil {
		for _, m := range trailer.Merges {
			s.merges[m.From] = m
		}
	}
	return s, nil
}

func take(in *sheets.Row) Row {
	row := Row{Number: in.Number}
	for _, c := range in.Cells {
		if text := strings.TrimSpace(c.Text); text != "" {
			row.Cells = append(row.Cells, Cell{c.Col, text})
		}
	}
	return row
}

// Filled is how many cells of the sheet hold something.
func (s *Sheet) Filled() int {
	n := 0
	for _, r := range s.Rows {
		n += len(r.Cells)
	}
	return n
}

func (r *Row) at(col int32) string {
	i, ok := slices.BinarySearchFunc(r.Cells, col, func(c Cell, n int32) int { return cmp.Compare(c.Col, n) })
	if !ok {
		return ""
	}
	return r.Cells[i].Text
}

// span gives the columns that a cell reaches over: more than its own where it is merged.
func (s *Sheet) span(row, col int32) (first, last int32) {
	if m, ok := s.merges[cell.Pos{Row: row, Col: col}]; ok {
		return col, m.To.Col
	}
	return col, col
}

// Merged tells whether a cell is merged with others of its row.
func (s *Sheet) Merged(row, col int32) bool {
	_, last := s.span(row, col)
	return last > col
}

// deep gives the last row that a cell reaches down to.
func (s *Sheet) deep(row, col int32) int32 {
	if m, ok := s.merges[cell.Pos{Row: row, Col: col}]; ok {
		return m.To.Row
	}
	return row
}
