// Package excerpt reads the rows around cells of workbooks, as they stand there, so that somebody
// who is told of a cell sees what it stands among.
package excerpt

import (
	"errors"
	"slices"

	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// How much is shown around a cell.
const (
	around  = 2  // rows above and below
	columns = 12 // at most, the cell's own among them
	letters = 200
)

// Excerpt is a piece of a sheet.
type Excerpt struct {
	At      cell.Place
	Columns []int32 // shown, ascending
	Rows    []Row   // ascending; the header comes first where it is known
}

// Row is a row of an excerpt.
type Row struct {
	Number int32
	Header bool
	Cells  []Cell // one for each column
}

// Cell is what stands in a cell.
type Cell struct {
	Text   string
	Marked bool // the one that the excerpt is about
}

// Want is a cell and the row of the header above it, 0 where that is not known.
type Want struct {
	At     cell.Place
	Header int32
}

// Book reads the excerpts of one workbook. A cell whose sheet is gone has none. The error says that the workbook
// cannot be read.
func Book(path string, wants []Want) (map[cell.Place]*Excerpt, error) {
	book, err := sheets.Open(path)
	if err != nil {
		return nil, err
	}
	defer book.Close() //nolint:errcheck // nothing was written
	out := map[cell.Place]*Excerpt{}
	for i, info := range book.Sheets() {
		var here []Want
		for _, w := range wants {
			if w.At.Sheet.Name == info.Name && w.At.Pos != (cell.Pos{}) {
				here = append(here, w)
			}
		}
		if len(here) == 0 {
			continue
		}
		if err := sheet(book, i, here, out); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// errEnough ends the reading of a sheet whose rows are all taken.
var errEnough = errors.New("excerpt: enough")

// sheet takes the rows that are wanted of one sheet.
func sheet(book *sheets.Book, index int, wants []Want, out map[cell.Place]*Excerpt) error {
	need, last := map[int32]bool{}, int32(0)
	for _, w := range wants {
		for n := w.At.Pos.Row - around; n <= w.At.Pos.Row+around; n++ {
			need[n] = true
		}
		need[w.Header] = true
		last = max(last, w.At.Pos.Row+around)
	}
	rows := map[int32][]sheets.Cell{}
	_, err := book.Rows(index, func(r *sheets.Row) error {
		if r.Number > last {
			return errEnough
		}
		if need[r.Number] {
			rows[r.Number] = slices.Clone(r.Cells)
		}
		return nil
	})
	if err != nil && !errors.Is(err, errEnough) {
		return err
	}
	for _, w := range wants {
		out[w.At] = excerpt(w, rows)
	}
	return nil
}

func excerpt(w Want, rows map[int32][]sheets.Cell) *Excerpt {
	e := &Excerpt{At: w.At}
	var numbers []int32
	if w.Header > 0 && w.Header < w.At.Pos.Row-around {
		numbers = append(numbers, w.Header)
	}
	for n := max(1, w.At.Pos.Row-around); n <= w.At.Pos.Row+around; n++ {
		if n == w.At.Pos.Row || len(rows[n]) > 0 {
			numbers = append(numbers, n)
		}
	}
	e.Columns = shown(w.At.Pos.Col, numbers, rows)
	for _, n := range numbers {
		e.Rows = append(e.Rows, row(n, n == w.Header, e, rows[n]))
	}
	return e
}

func row(number int32, header bool, e *Excerpt, cells []sheets.Cell) Row {
	r := Row{Number: number, Header: header, Cells: make([]Cell, len(e.Columns))}
	for i, col := range e.Columns {
		r.Cells[i].Marked = number == e.At.Pos.Row && col == e.At.Pos.Col
		at := slices.IndexFunc(cells, func(c sheets.Cell) bool { return c.Col == col })
		if at >= 0 {
			r.Cells[i].Text = short(cells[at].Text)
		}
	}
	return r
}

// shown chooses the columns: the first one, the cell's own, and those near it that hold something.
func shown(own int32, numbers []int32, rows map[int32][]sheets.Cell) []int32 {
	var filled []int32
	for _, n := range numbers {
		for _, c := range rows[n] {
			if c.Kind != sheets.Blank && !slices.Contains(filled, c.Col) {
				filled = append(filled, c.Col)
			}
		}
	}
	if !slices.Contains(filled, own) {
		filled = append(filled, own)
	}
	slices.Sort(filled)
	if len(filled) <= columns {
		return filled
	}
	at := slices.Index(filled, own)
	from := min(max(1, at-columns/2), len(filled)-columns+1)
	return append([]int32{filled[0]}, filled[from:from+columns-1]...)
}

func short(text string) string {
	if r := []rune(text); len(r) > letters {
		return string(r[:letters]) + "…"
	}
	return text
}

// Letters gives the names of the columns.
func (e *Excerpt) Letters() []string {
	out := make([]string, len(e.Columns))
	for i, col := range e.Columns {
		out[i] = cell.Column(col)
	}
	return out
}
