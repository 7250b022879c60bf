// Package sheets reads XLSX workbooks: every cell, or an error that says why not.
//
// Open looks through the whole package (the zip directory, the relationships,
// styles and shared strings) before anything is given out; Rows then streams one
// sheet. Nothing is repaired and nothing skipped: a part that is truncated, out of
// order or does not agree with its checksum is a *Fault, and the rows given out
// before it must not be used.
package sheets

import (
	"ferrule/sheets/cell"
)

// Kind is the type of a cell's value.
type Kind uint8

const (
	Blank  Kind = iota // no value; only given out where Formula is set
	Text               // Value.Text
	Number             // Value.Number, Value.Text as the shortest decimal
	Date               // Value.Text as ISO 8601, elapsed time as 36:00:00; Value.Number the serial
	Bool               // Value.Text is TRUE or FALSE
	Error              // Value.Text is the error as shown: #N/A
)

// Value is what a cell holds. Text is never nil of meaning: it is how the value
// reads in words, for every kind.
type Value struct {
	Kind   Kind
	Struck bool // the whole cell is struck through
	Partly bool // a part of its text is
	// Look is the same for all cells of a Book with one fill and one colour of type; 0 where
	// both are the usual. Workbooks with more than 250 of them have the others in one.
	Look uint8
	// Shared is the same for all cells of a Book that share one stored text, 1 and up
	// to SharedTexts; 0 where a cell's text is its own. What was found out about the
	// text can be kept in a slice by it. Equal texts may be stored more than once.
	Shared int32
	Number float64 // Number and Date: the stored double; Bool: 1 or 0
	Text   string
	// Format is the number format's code ("0.00", "d-mmm", "# ?/?"), "" for
	// General, and only for numbers and dates.
	Format  string
	Formula string // the formula's text without "=", "" where there is none
}

// Cell is a value with its column, counted from 1.
type Cell struct {
	Col  int32
	Bold bool // the type of the whole cell is bold
	Value
}

// Row is one row that holds at least one cell. It and its Cells are only valid
// until the next row is read; the strings may be kept.
type Row struct {
	Number int32
	Hidden bool
	Cells  []Cell // columns ascend
}

// Visibility of a sheet.
type Visibility uint8

const (
	Visible Visibility = iota
	Hidden
	VeryHidden
)

// Info describes a sheet before it is read.
type Info struct {
	Name       string
	Visibility Visibility
	// Chart, macro and dialogue sheets have no cells and are not listed.
}

// Trailer is what a sheet says outside its rows.
type Trailer struct {
	Merges      []cell.Range
	HiddenCols  []cell.Range // rows 1 to MaxRow
	HiddenRows  int          // how many of the rows given out were hidden
	Filtered    bool         // an auto-filter hides rows
	LinkedCells int          // hyperlinks, which are never followed
}

// Fault says why a workbook cannot be read whole, and where.
type Fault struct {
	Sheet string   // "" where it is not about one sheet
	Pos   cell.Pos // zero where it is not about one cell
	Part  string   // the part inside the package, "" where it is about the file
	Why   string   // one lower-case sentence for a product manager, with what to do

	cause error // the operating system's error, if one is behind this
}

func (f *Fault) Error() string { return f.Why }
