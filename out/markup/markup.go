// Package markup writes the workbooks that the program itself makes: the starter
// catalogue, the sample catalogues and the workbooks of tests.
//
// A workbook is described by a Book, most easily as text (Books), and written by
// Write. The same Book gives the same bytes on every run. Options.Plain leaves out
// everything that only a person would miss, which is what tests want; otherwise the
// workbook is dressed as a careful keeper of it would: header styles, a header row
// that stays in sight and is repeated in print, filters, widths, rows as high as what
// they hold, and the number format Text wherever a spreadsheet program would turn what
// is typed into something else. Lists to pick from and notes are added by the package aid.
//
// # The text form
//
// The text is a txtar archive. A file named `parts.xlsx/Kits` is the sheet Kits of
// the workbook parts.xlsx; workbooks and sheets keep the order of their first file.
// A file whose name has no slash is not ours and is left to the caller.
//
// Each line is a row and a tab goes to the next column, so two tabs leave a cell
// blank. A cell is read as follows:
//
//	Front damper          text
//	12  -0.5              a number, where it is in its shortest form (1.50 and 007 are text)
//	2028-06-30            a date
//	TRUE  FALSE           a truth value
//	#N/A  #REF!           an error value (all seven of them)
//	=A2&"x"               a formula without a stored value
//	=A2&"x" => 12x        a formula with a stored value, which is any of the above
//	'12                   text, whatever follows the apostrophe
//	one\ntwo              \n is a line break, \t a tab, \\ a backslash
//
// Directives stand before the first row, one a line:
//
//	#header 3             the header is row 3, with a title above it (styled only; else 1)
//	#merge A2:A5          merges a range; what the text has under it is left out
//	#format B3:B9 d-mmm   gives cells a number format
//	#strike B3            strikes cells through
//	#hiderow 4            hides a row
//	#hidecol C            hides a column
//	#hidden               hides the sheet
//	#veryhidden           hides it so that only a macro can show it
package markup

import (
	"ferrule/sheets/cell"
)

// Book is one workbook.
type Book struct {
	Name   string // its file's name, which ends in .xlsx or .xlsm
	Sheets []Sheet
}

// Sheet is one sheet; Rows[0][0] is A1.
type Sheet struct {
	Name       string
	Header     int // the header's row, counted from 1; 0 is 1
	Rows       [][]Cell
	Merges     []cell.Range
	Visibility Visibility
	HiddenRows []int32
	HiddenCols []int32
}

// Visibility of a sheet in a spreadsheet program.
type Visibility uint8

const (
	Visible Visibility = iota
	Hidden
	VeryHidden // only a macro can show it
)

// Kind is the type of a cell's value.
type Kind uint8

const (
	Blank  Kind = iota // no value; with a Formula, no stored value
	Text               // Cell.Text
	Number             // Cell.Text as a decimal number
	Date               // Cell.Text as YYYY-MM-DD
	Bool               // Cell.Text is TRUE or FALSE
	Error              // Cell.Text is the error as shown: #N/A
)

// Cell is what one cell holds.
type Cell struct {
	Kind    Kind
	Text    string
	Formula string // without "="; "" where there is none
	Format  string // the number format's code, "" for the usual one
	Struck  bool   // struck through
}

// Words gives a cell that holds text, or a blank one for "".
func Words(s string) Cell {
	if s == "" {
		return Cell{}
	}
	return Cell{Kind: Text, Text: s}
}

// Options for writing.
type Options struct {
	Plain bool // no styles and no print set-up: fast, for tests
}

// header gives the index of the header in Rows.
func (s *Sheet) header() int { return max(s.Header, 1) - 1 }

// headings gives the header's cells as text, nil where the sheet has no such row.
func (s *Sheet) headings() []string {
	if s.header() >= len(s.Rows) {
		return nil
	}
	var out []string
	for _, c := range s.Rows[s.header()] {
		out = append(out, c.Text)
	}
	return out
}

// index gives the column under a heading, counted from 0, or -1.
func (s *Sheet) index(heading string) int {
	for i, h := range s.headings() {
		if fold(h) == fold(heading) {
			return i
		}
	}
	return -1
}

// column gives the texts under a heading, without blanks, each once.
func (s *Sheet) column(heading string) []string {
	var out []string
	seen := map[string]bool{"": true}
	col := s.index(heading)
	if col < 0 {
		return nil
	}
	for _, row := range s.Rows[s.header()+1:] {
		if col < len(row) && !seen[row[col].Text] {
			seen[row[col].Text] = true
			out = append(out, row[col].Text)
		}
	}
	return out
}
