// Package aid makes copies of a catalogue's workbooks that help to fill them in: lists to pick from, notes that
// explain each column on its heading, headers that stay in sight, filters, widths and a page set-up for print.
//
// Lists follow the sheet that declares their names where it is in the same workbook, so that they grow with
// it. Of other workbooks a spreadsheet program takes no names: these stand in a hidden sheet `_Lists`, or in
// the list itself while it is short, as they are when the copy is made.
//
// Whatever a sheet has already is somebody's, and stays: nothing is written over. Copies are made by the
// patcher, so all else in them is as it was.
package aid

import (
	"bytes"
	"cmp"
	"errors"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake"
	"ferrule/compiler/intake/seal"
	"ferrule/compiler/intake/table"
	"ferrule/out/patch"
	"ferrule/sheets"
)

// Book is a workbook with what was added to its copy.
type Book struct {
	Name   string // as findings call it
	Bytes  []byte // the copy; the workbook itself where there is nothing to add
	Signed bool   // it was signed, which holds no more
	Sheets []Sheet
	Err    error // there is no copy, and why
}

// Sheet says what was added to a sheet, and what was not.
type Sheet struct {
	Name  string
	Added []string
	Kept  []string // that was there already
	Left  string   // why the sheet, or more of it, is left alone; "" where it is not
}

// Copies makes a copy of each workbook. content gives the bytes of one by its name.
func Copies(src *intake.Sources, content func(name string) ([]byte, error)) []Book {
	r := intake.NewReader()
	for _, b := range src.Books {
		r.Book(b)
	}
	why := map[string]string{}
	r.Finish(src, func(f *finding.Finding) {
		if f.Code == finding.WorkbookUnreadable {
			name := f.Cells[0].Sheet.File
			why[name] = strings.TrimPrefix(f.Message, name+" ")
		}
	})
	tables := map[string][]*table.Table{}
	for _, t := range r.Tables {
		tables[t.Sheet.File] = append(tables[t.Sheet.File], t)
	}
	n := gather(r.Tables)
	var out []Book
	for i := range r.Read.Files {
		f := &r.Read.Files[i]
		b := Book{Name: f.Name}
		if f.Failed {
			b.Err = errors.New("it " + cmp.Or(why[f.Name], "cannot be read whole"))
		} else {
			b.Err = b.copy(n, f, tables[f.Name], content)
		}
		out = append(out, b)
	}
	return out
}

// copy makes the copy of one workbook.
func (b *Book) copy(n *names, f *intake.File, tables []*table.Table, content func(string) ([]byte, error)) error {
	data, err := content(b.Name)
	if err != nil {
		return err
	}
	b.Bytes = data
	if sheets.Separated(b.Name) {
		b.Sheets = []Sheet{{Name: f.Sheets[0].Name, Left: "a text file has no lists and no notes"}}
		return nil
	}
	book, err := sheets.Read(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return err
	}
	if len(book.Sheets()) != len(f.Sheets) {
		return errors.New("it has changed meanwhile; run this again")
	}
	w := &work{names: n, book: book, file: b.Name, grown: map[*list]string{}}
	if w.states, err = patch.States(book); err != nil {
		return err
	}
	for i := range f.Sheets {
		b.Sheets = append(b.Sheets, w.sheet(i, f.Sheets[i].Name, of(tables, i)))
	}
	change := w.changed()
	if len(change.Aids) == 0 && len(change.Cells) == 0 {
		return nil
	}
	c, err := patch.Apply(data, change)
	if err != nil {
		return err
	}
	if change.Sheet != nil && c.Sheet != change.Sheet.Name {
		return errors.New("a sheet without cells is called " + seal.Names + ", and the lists would stand there; give it another name")
	}
	b.Bytes, b.Signed = c.Bytes, c.Signed
	return nil
}

// of gives the table of a sheet, nil for none. A sheet that is read by a layout has several.
func of(tables []*table.Table, sheet int) *table.Table {
	for _, t := range tables {
		if t.Sheet.Order == sheet {
			return t
		}
	}
	return nil
}
