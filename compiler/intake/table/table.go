// Package table turns the cells of a sheet into records: it finds the header row,
// applies merged ranges, and keeps with every field the cell it came from.
//
// It knows the layout of a sheet kind (which columns it must have) and of what the
// columns mean no more than tells a value from what a spreadsheet program made of it.
//
// A sheet is gone through row by row, and nothing but its records is kept. Its merged
// ranges stand behind its rows, so a sheet that has any below its title is gone through
// again, now that they are known.
package table

import (
	"slices"
	"strconv"

	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// Table is a sheet as records.
type Table struct {
	Kind    string
	Sheet   *cell.Sheet
	Columns []Column // left to right; those without a header are not here
	Records []Record
	Headed  bool // false: a required column is missing, and the records mean little
	Texts   int  // the largest Field.Shared of the workbook
	Again   []Again
	Laid    *Laid // nil where the sheet has the shape of its kind
	Marks   Marks
}

// Again is a column whose name another column to its left has. Nothing under it is read: its
// cells are here so that what they might say is known.
type Again struct {
	Of    int      // index into Table.Columns
	At    cell.Pos // its heading
	Cells []Field  // from top to bottom, as they are stored
}

// Under finds the cell of a row.
func (a *Again) Under(row int32) (*Field, bool) {
	i, ok := slices.BinarySearchFunc(a.Cells, row, func(f Field, row int32) int { return int(f.At.Row - row) })
	if !ok {
		return nil, false
	}
	return &a.Cells[i], true
}

// Column is a header cell.
type Column struct {
	Name string // white space collapsed, without the unit; as the layout spells it where it knows it
	Unit string // what stands in square brackets at the end, "" for none
	At   cell.Pos
	// Known tells that the layout defines the column.
	Known bool
	// counts tells that the layout's column takes plain numbers.
	counts bool
}

// Record is a row under the header with at least one value of its own.
type Record struct {
	Row    int32
	Fields []Field // in the order of the columns; blank ones are left out
}

// Field is a value under a column. It is as small as it can be: a catalogue has millions.
type Field struct {
	Text   string   // how the value reads in words, for every kind; a number's shortest decimal
	At     cell.Pos // where the value is written: the first cell of a merged range
	Shared int32    // the same for all fields of a workbook that share one stored text; 0: its own
	Column int32    // index into Table.Columns
	Kind   sheets.Kind
	Broken bool // the value cannot be used, and a fault says why
	Plain  bool // Text is printable ASCII without white space around it
	// OnLine says of a broken value that it can be used where the column holds dates, or serial
	// numbers: Text then is what it says.
	OnLine bool
	struck bool
	partly bool
}

// Number gives the double that a cell with a number holds, and 0 for other cells.
func (f *Field) Number() float64 {
	if f.Kind != sheets.Number {
		return 0
	}
	n, err := strconv.ParseFloat(f.Text, 64)
	if err != nil {
		panic("table: Number: a number is no decimal: " + f.Text)
	}
	return n
}

// Place gives the place of a position of a field or a column.
func (t *Table) Place(p cell.Pos) cell.Place {
	if !Here(p) {
		return t.Laid.Elsewhere[-1-p.Row]
	}
	return cell.Place{Sheet: t.Sheet, Pos: p}
}

// First gives the place of the record's leftmost filled cell.
func (t *Table) First(r *Record) cell.Place { return t.Place(r.Fields[0].At) }

// Read reads one sheet of a book. The error is a *sheets.Fault: the sheet could not be
// read whole.
func Read(book *sheets.Book, index int, sheet *cell.Sheet, layout Layout, report func(*Fault)) (*Table, error) {
	var free []Field // what is left of the last piece of memory for fields
	return Stream(book, index, sheet, layout, report, func(t *Table) func(*Record) {
		t.Records = nil
		return func(rec *Record) {
			n := len(rec.Fields)
			if len(free) < n {
				free = make([]Field, max(n, shelfSize))
			}
			copy(free, rec.Fields)
			t.Records = append(t.Records, Record{rec.Row, free[:n:n]})
			free = free[n:]
		}
	})
}

// shelfSize is how many fields are made at once.
const shelfSize = 1024

// Stream is Read for a sheet that need not be kept: begin is called with the table once
// its header is known, and gives what takes its records, each good for that call alone.
// Where merged ranges make it necessary to go through the sheet again, begin is called
// again, and what came before is void. A table without a header has no records.
func Stream(book *sheets.Book, index int, sheet *cell.Sheet, layout Layout, report func(*Fault), begin func(*Table) func(*Record)) (*Table, error) {
	info := book.Sheets()[index]
	var merges []cell.Range
	marks, err := marksOf(book, index)
	if err != nil {
		return nil, err
	}
	for again := false; ; again = true {
		var held []*Fault
		r := newReader(sheet, layout, merges, begin, func(f *Fault) { held = append(held, f) })
		r.shared = make([]verdict, book.SharedTexts()+1)
		r.typed = book.Typed()
		if book.Coloured() {
			r.looks = &looks{}
		}
		trailer, err := book.Rows(index, func(in *sheets.Row) error { marks.takeOff(in); r.row(in); return r.whole() })
		if err != nil {
			return nil, err
		}
		if !again && r.touched(trailer.Merges) {
			merges = trailer.Merges
			continue
		}
		at, n, err := book.Commented(index, marks.pass)
		if err != nil {
			return nil, err
		}
		t := r.end(info, trailer)
		if err := r.whole(); err != nil {
			return nil, err
		}
		r.commented(at, n)
		t.Marks = marks.Marks
		t.Texts = book.SharedTexts()
		for _, f := range r.gathered(held) {
			report(f)
		}
		return t, nil
	}
}

// touched tells whether merged ranges may change what a pass without them has read: all
// do but those that lie in one row above the header, which add no name to any row.
func (r *reader) touched(merges []cell.Range) bool {
	return slices.ContainsFunc(merges, func(m cell.Range) bool {
		return r.table == nil || m.From.Row != m.To.Row || m.To.Row >= r.header
	})
}

// Extent counts records and their fields.
func Extent(tables []*Table) (rows, cells int) {
	for _, t := range tables {
		rows += len(t.Records)
		for i := range t.Records {
			cells += len(t.Records[i].Fields)
		}
	}
	return rows, cells
}
