package table

import (
	"ferrule/compiler/intake/seal"
	"ferrule/schema"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// Marks counts what a marked copy has in a sheet that was put there by us, and is left alone.
type Marks struct{ Notes, Fills int }

// marks are those of one sheet, by cell.
type marks struct {
	book *sheets.Book
	own  map[cell.Pos]string // how each was filled before
	seen map[cell.Pos]bool   // those that are counted: a sheet may be gone through again
	Marks
}

// marksOf finds the marks on a sheet. Where no cell format has a fill of ours there are none, and
// nothing is read.
func marksOf(book *sheets.Book, index int) (*marks, error) {
	m := &marks{book: book, own: map[cell.Pos]string{}, seen: map[cell.Pos]bool{}}
	if !book.Filled(seal.Fills) {
		return m, nil
	}
	_, _, err := book.Commented(index, func(at cell.Pos, text string) bool {
		mark, ok := seal.Read(text)
		if ok {
			m.own[at] = mark.Own
		}
		return ok && ours(mark.Beside)
	})
	return m, err
}

// pass passes over notes that are ours and nothing else. Those that explain a column are not counted: they say
// nothing that is not known.
func (m *marks) pass(at cell.Pos, text string) bool {
	if schema.Explains(text) {
		return true
	}
	mark, ok := seal.Read(text)
	if !ok || !ours(mark.Beside) {
		return false
	}
	m.Notes++
	return true
}

// ours tells whether what else stands in a note is nothing, or explains the column.
func ours(beside string) bool { return beside == "" || schema.Explains(beside) }

// takeOff gives cells that carry a mark the look that they had without it.
func (m *marks) takeOff(in *sheets.Row) {
	if len(m.own) == 0 {
		return
	}
	for i := range in.Cells {
		c := &in.Cells[i]
		at := cell.Pos{Row: in.Number, Col: c.Col}
		own, marked := m.own[at]
		if marked && seal.Fills(m.book.FillOfLook(c.Look)) {
			m.seen[at] = true
			m.Fills = len(m.seen)
			c.Look = m.book.LookWith(c.Look, own)
		}
	}
}
