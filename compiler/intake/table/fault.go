package table

import "ferrule/sheets/cell"

// What is a kind of fault. Who reads a sheet says how grave each is, and under which code
// it is told.
type What uint8

const (
	NoHeader       What = iota + 1 // no row holds all columns that the sheet must have
	HeaderTwice                    // two columns have one name
	HeaderBlank                    // a column has values and no header
	Covered                        // merged cells hide a value, or are too long to be read
	DateMangled                    // the cell holds a date, and something else was typed
	NumberMangled                  // the cell holds a number that reads otherwise than what was typed
	FormulaStale                   // a formula was never calculated
	Failed                         // the cell holds an error such as #N/A
	Lookalike                      // a text has letters that only look right
	ShownOtherwise                 // the cell shows another value than it holds
	TruthValue                     // a truth value stands where a name belongs
	Struck                         // a row, a cell or a part of one is struck through
	Commented                      // cells have comments
	Coloured                       // some cells of a column are coloured, and others are not
	Longer                         // a row of a text file has more cells than its header
	Hidden                         // the sheet, rows or columns of it are hidden

	// Of sheets that are read by a layout, and of the rows that say how.

	Unread       // a row of Layouts says something that cannot be read, or too little
	Contradicted // two rows of Layouts contradict each other
	Unmatched    // a row of Layouts names what is not there, or is there twice
	Idle         // a row of Layouts does nothing
	Unclaimed    // cells are used by no row of Layouts
	Barren       // the cells of a row are named, and nothing comes of them
	Undeclared   // a mark or a footnote sign that no row of Layouts declares
	Several      // several parts are marked at one place of one vehicle
)

// breaks tells whether what the cell holds cannot be used.
func (w What) breaks() bool {
	return w == DateMangled || w == NumberMangled || w == FormulaStale || w == Failed
}

// Fault is something that is wrong with a sheet, or that its reader must know.
type Fault struct {
	What     What
	Message  string // what is wrong, in the words of the sheet
	Constant string // Message without addresses, row numbers and counts; "" where it has none
	Fix      string // what to write instead, "" where the message says it
	Cells    []cell.Place
	Count    int      // of a layout: how many further cells have the fault
	Meant    []string // what may have been typed into the first of Cells; nil where nothing tells
	Notes    []string // what is said beside each of Cells, "" for nothing; nil: nothing beside any
}
