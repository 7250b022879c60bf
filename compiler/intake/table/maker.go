package table

import (
	"fmt"
	"strings"
	"unicode"

	"ferrule/schema/word"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// Maker makes records of values that do not stand under a header of their sheet's kind. What
// spreadsheet programs and hands have done to the values is reported as in other tables.
type Maker struct {
	r    *reader
	held []*Fault
	free []Field
	full [][]Record // all but the last piece of the records
	last []Record
	n    int
}

// NewMaker makes one for a table with these columns, of which Name, Unit and At are given.
// texts is the largest number of a text that cells of the workbook share.
func NewMaker(sheet *cell.Sheet, layout Layout, columns []Column, texts int) *Maker {
	m := &Maker{}
	m.r = newReader(sheet, layout, nil, nil, func(f *Fault) { m.held = append(m.held, f) })
	m.r.shared = make([]verdict, texts+1)
	m.r.table = &Table{Kind: layout.Kind, Sheet: sheet, Headed: true, Columns: columns, Texts: texts, Laid: &Laid{By: make([]cell.Place, len(columns))}}
	for i := range columns {
		c := &columns[i]
		for _, k := range layout.Known {
			if word.Fold(k) == word.Fold(c.Name) {
				c.Name, c.Known = k, true
			}
		}
		c.counts = c.Known && roleOf(layout.Kind, *c) == amount
	}
	return m
}

// Table gives the table as it is made.
func (m *Maker) Table() *Table { return m.r.table }

// Field makes a field of a value under one of the columns.
func (m *Maker) Field(column int, v *sheets.Value, at cell.Pos) Field {
	return m.r.field(column, v, at)
}

// Fields gives room for the fields of a record.
func (m *Maker) Fields(n int) []Field {
	if len(m.free) < n {
		m.free = make([]Field, max(n, shelfSize))
	}
	out := m.free[:n:n]
	m.free = m.free[n:]
	return out
}

// Len tells how many records there are.
func (m *Maker) Len() int { return m.n }

// most records in one piece: a sheet of many is not copied again and again.
const pieceSize = 1 << 15

// Add adds a record. Its fields are in the order of the columns.
func (m *Maker) Add(row int32, fields []Field) {
	if len(m.last) == pieceSize {
		m.full, m.last = append(m.full, m.last), make([]Record, 0, pieceSize)
	}
	m.last = append(m.last, Record{row, fields})
	m.n++
}

// Gather puts all records into the table, and gives it.
func (m *Maker) Gather() *Table {
	t := m.r.table
	if len(m.full) == 0 {
		t.Records, m.last = append(t.Records, m.last...), nil
		return t
	}
	all := append(make([]Record, 0, len(t.Records)+m.n), t.Records...)
	for _, p := range append(m.full, m.last) {
		all = append(all, p...)
	}
	t.Records, m.full, m.last = all, nil, nil
	return t
}

// End gives the table and what was found in its values.
func (m *Maker) End(report func(*Fault)) *Table {
	for _, f := range m.r.later {
		what, instead := f.judge.letters(f.text, func(a *unicode.RangeTable) bool { return m.r.natives[a] })
		f.judge.lookalike(f.text, what, instead)
	}
	for _, f := range m.r.gathered(m.held) {
		report(f)
	}
	return m.r.table
}

// Watch looks at the cells of a sheet that is read in its own shape for what they say beside
// their texts: what is hidden, struck through, coloured or has a comment.
type Watch struct{ r *reader }

// NewWatch makes one that reports to report.
func NewWatch(sheet *cell.Sheet, coloured bool, report func(*Fault)) *Watch {
	r := newReader(sheet, Layout{}, nil, nil, report)
	r.table = &Table{Sheet: sheet, Headed: true}
	if coloured {
		r.looks = &looks{}
	}
	return &Watch{r}
}

// Row takes a row of the sheet; body tells whether it belongs to a table and is no heading.
func (w *Watch) Row(in *sheets.Row, body bool) {
	if in.Hidden {
		w.r.unseen.add(in.Number)
	} else {
		w.r.unseen.end()
	}
	if !body {
		return
	}
	if w.r.looks != nil {
		w.r.looks.row(in.Number, in.Cells)
	}
	crossed := false
	for i := range in.Cells {
		crossed = crossed || in.Cells[i].Struck || in.Cells[i].Partly
	}
	if !crossed {
		return
	}
	rec := Record{Row: in.Number}
	for i := range in.Cells {
		if c := &in.Cells[i]; filledIn(&c.Value) {
			rec.Fields = append(rec.Fields, Field{Text: c.Text, At: cell.Pos{Row: in.Number, Col: c.Col}, struck: c.Struck, partly: c.Partly})
		}
	}
	w.r.crossed(&rec)
}

// End tells what the sheet says outside its rows. heads names its columns.
func (w *Watch) End(book *sheets.Book, index int, trailer *sheets.Trailer, heads []Column) error {
	var own marks
	at, n, err := book.Commented(index, own.pass)
	if err != nil {
		return err
	}
	w.r.table.Columns = heads
	w.r.hidden(book.Sheets()[index], trailer)
	w.r.coloured()
	w.r.commented(at, n)
	return nil
}

// Filled tells whether a cell holds something: white space alone is blank.
func Filled(v *sheets.Value) bool { return filledIn(v) }

// Hides gives the fault that a cell under a merged range holds something of its own.
func Hides(sheet *cell.Sheet, at cell.Pos, text string, m cell.Range) *Fault {
	return &Fault{What: Covered,
		Message:  fmt.Sprintf("%q is hidden under the merged cells %s and is not read", text, m),
		Constant: fmt.Sprintf("%q is hidden under merged cells and is not read", text),
		Cells:    []cell.Place{{Sheet: sheet, Pos: at}, {Sheet: sheet, Pos: m.From}},
		Fix:      "unmerge the cells to see what is under them, and write what is meant into each"}
}

// Short cuts a text that is quoted in a message.
func Short(text string) string { return short(strings.TrimSpace(text)) }
