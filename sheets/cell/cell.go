// Package cell names places in workbooks: columns, rows, ranges and the A1
// notation that spreadsheet programs show.
//
// Rows and columns count from 1, as people see them (column 1 is A). The last
// cell a workbook can have is XFD1048576.
package cell

import (
	"cmp"
	"fmt"
)

// Limits of a sheet (ECMA-376, as every spreadsheet program keeps them).
const (
	MaxRow = 1_048_576
	MaxCol = 16_384
)

// Pos is a position in a sheet. The zero Pos means no particular cell.
type Pos struct {
	Row, Col int32
}

// Range is a rectangle of cells, both corners included.
type Range struct {
	From, To Pos
}

// Sheet identifies one sheet of one workbook.
type Sheet struct {
	File  string // as people know it: relative to the catalogue
	Name  string
	Order int // files in name order, then sheets as the workbook shows them
}

// Place is a cell of a sheet. A Place whose Pos is zero is the sheet as a whole.
type Place struct {
	Sheet *Sheet
	Pos   Pos
}

// Column gives the letters of a column: 1 is "A", 28 is "AB".
func Column(col int32) string {
	if col < 1 {
		return "?"
	}
	var b [8]byte
	i := len(b)
	for ; col > 0; col = (col - 1) / 26 {
		i--
		b[i] = byte('A' + (col-1)%26)
	}
	return string(b[i:])
}

// String gives the A1 notation, or "" for the zero Pos.
func (p Pos) String() string {
	if p == (Pos{}) {
		return ""
	}
	return fmt.Sprintf("%s%d", Column(p.Col), p.Row)
}

// Parse reads A1 notation without dollar signs. It reports false for anything
// else, and for positions beyond the last cell of a sheet.
func Parse(s string) (Pos, bool) {
	var p Pos
	i := 0
	for ; i < len(s) && s[i] >= 'A' && s[i] <= 'Z'; i++ {
		if p.Col = p.Col*26 + int32(s[i]-'A') + 1; p.Col > MaxCol {
			return Pos{}, false
		}
	}
	if i == 0 || i == len(s) || s[i] == '0' {
		return Pos{}, false
	}
	for ; i < len(s); i++ {
		if s[i] < '0' || s[i] > '9' {
			return Pos{}, false
		}
		if p.Row = p.Row*10 + int32(s[i]-'0'); p.Row > MaxRow {
			return Pos{}, false
		}
	}
	return p, true
}

// ParseRange reads "A1:B2" or a single "A1". The corners may come in any order.
func ParseRange(s string) (Range, bool) {
	for i := range len(s) {
		if s[i] != ':' {
			continue
		}
		a, okA := Parse(s[:i])
		b, okB := Parse(s[i+1:])
		return Range{
			Pos{min(a.Row, b.Row), min(a.Col, b.Col)},
			Pos{max(a.Row, b.Row), max(a.Col, b.Col)},
		}, okA && okB
	}
	p, ok := Parse(s)
	return Range{p, p}, ok
}

// Contains tells whether p lies in the range.
func (r Range) Contains(p Pos) bool {
	return p.Row >= r.From.Row && p.Row <= r.To.Row && p.Col >= r.From.Col && p.Col <= r.To.Col
}

func (r Range) String() string { return r.From.String() + ":" + r.To.String() }

// ComparePos orders positions by row, then column.
func ComparePos(a, b Pos) int {
	return cmp.Or(cmp.Compare(a.Row, b.Row), cmp.Compare(a.Col, b.Col))
}

// Compare orders places by file, sheet, row and column. Places without a sheet
// come first.
func Compare(a, b Place) int {
	if a.Sheet != b.Sheet {
		switch {
		case a.Sheet == nil:
			return -1
		case b.Sheet == nil:
			return 1
		}
		if c := cmp.Or(cmp.Compare(a.Sheet.File, b.Sheet.File),
			cmp.Compare(a.Sheet.Order, b.Sheet.Order),
			cmp.Compare(a.Sheet.Name, b.Sheet.Name)); c != 0 {
			return c
		}
	}
	return ComparePos(a.Pos, b.Pos)
}

// String gives the place as messages print it: fitment.xlsx:Fitment H7!F14.
func (p Place) String() string {
	switch {
	case p.Sheet == nil:
		return ""
	case p.Sheet.Name == "":
		return p.Sheet.File
	case p.Pos == (Pos{}):
		return p.Sheet.File + ":" + p.Sheet.Name
	}
	return p.Sheet.File + ":" + p.Sheet.Name + "!" + p.Pos.String()
}

// Beside gives the place as a sentence names it that has named another one: the sheet where
// it is another, the workbook where that is.
func (p Place) Beside(other Place) string {
	switch {
	case p.Sheet == other.Sheet:
		return p.Pos.String()
	case p.Sheet == nil || other.Sheet == nil || p.Sheet.File != other.Sheet.File:
		return p.String()
	case p.Sheet.Name == other.Sheet.Name:
		return p.Pos.String()
	}
	return p.Sheet.Name + "!" + p.Pos.String()
}

// At gives the place of another cell of the same sheet.
func (p Place) At(pos Pos) Place { return Place{p.Sheet, pos} }
