package intake

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/layout"
	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// lay reads the sheets that rows of Layouts sheets are about, in place of what they were read as
// before. It is done once all workbooks are read, since the rows may stand in any of them.
func (r *Reader) lay(src *Sources) {
	report := func(f *table.Fault) { r.report(asFinding(f)) }
	fleets, rows := layout.Fleets(layout.Rows(r.Tables))
	r.Fleets = fleets
	set := layout.New(rows, report)
	if len(set.Plans) == 0 {
		return
	}
	var all []cell.Sheet
	for i := range r.Read.Files {
		file := &r.Read.Files[i]
		if file.Failed || r.doubled[file.Name] {
			continue
		}
		for k := range file.Sheets {
			all = append(all, cell.Sheet{File: file.Name, Name: file.Sheets[k].Name, Order: k})
		}
		if err := r.layBook(src, file, set, report); err != nil {
			r.Whole, file.Failed, file.Sheets = false, true, nil
			r.report(unreadable(file.Name, err))
		}
	}
	slices.SortStableFunc(r.Tables, func(a, b *table.Table) int {
		return cell.Compare(cell.Place{Sheet: a.Sheet}, cell.Place{Sheet: b.Sheet})
	})
	if r.Whole {
		set.Ended(all, func(name string) bool { _, known := schema.KindOf(name); return known }, report)
	}
}

// layBook reads the sheets of one workbook that rows of Layouts are about.
func (r *Reader) layBook(src *Sources, file *File, set *layout.Set, report func(*table.Fault)) (err error) {
	var book *sheets.Book
	defer func() {
		if book != nil {
			err = errors.Join(err, book.Close())
		}
	}()
	for k := range file.Sheets {
		plan := set.For(file.Name, file.Sheets[k].Name)
		if plan == nil {
			continue
		}
		if book == nil {
			if book, err = sheets.Open(src.path(file.Name)); err != nil {
				return err
			}
		}
		sheet := &cell.Sheet{File: file.Name, Name: file.Sheets[k].Name, Order: k}
		if k >= len(book.Sheets()) || book.Sheets()[k].Name != sheet.Name {
			return errChanged
		}
		tables, err := plan.Read(book, k, sheet, func(kind string) table.Layout { return r.layouts[kind] }, report)
		if err != nil {
			return err
		}
		r.replace(&file.Sheets[k], sheet, tables)
	}
	return nil
}

// errChanged says that a workbook was changed between its being read once and again.
var errChanged = errors.New("it was changed while it was read")

// replace puts the tables of a sheet in place of what it was read as.
func (r *Reader) replace(out *Sheet, sheet *cell.Sheet, tables []*table.Table) {
	same := func(s *cell.Sheet) bool { return s != nil && s.File == sheet.File && s.Name == sheet.Name }
	r.strange = slices.DeleteFunc(r.strange, func(s stranger) bool { return same(s.sheet) })
	native := map[*cell.Sheet]bool{}
	r.Tables = slices.DeleteFunc(r.Tables, func(t *table.Table) bool {
		if same(t.Sheet) {
			native[t.Sheet] = true
		}
		return native[t.Sheet]
	})
	r.found = slices.DeleteFunc(r.found, func(f *finding.Finding) bool { return len(f.Cells) > 0 && native[f.Cells[0].Sheet] })
	out.Kind, out.Rows = schema.Layouts, 0
	for _, t := range tables {
		out.Rows += len(t.Records)
		if r.laid == nil {
			r.laid = map[*cell.Sheet]*table.Table{}
		}
		r.laid[t.Sheet] = t
	}
	if len(tables) > 0 {
		out.Kind = tables[0].Kind
	}
	r.Tables = append(r.Tables, tables...)
}

// path gives the file of a workbook by its name in messages.
func (s *Sources) path(name string) string {
	for _, b := range s.Books {
		if b.Name == name {
			return b.Path
		}
	}
	panic("intake: path: no workbook " + name)
}

// Place brings a finding home to the sheet that people keep, where that was read by a layout: one
// about the number of a part that is marked stands at the number, and beside what cannot be read
// stands the row of Layouts that reads it. It gives nil where the same was told before, and what
// cannot be said of such sheets.
func (r *Reader) Place(f *finding.Finding) *finding.Finding {
	if len(r.laid) == 0 || len(f.Cells) == 0 {
		return f
	}
	t := r.laid[f.Cells[0].Sheet]
	if t == nil {
		return f
	}
	switch {
	case f.Code == finding.RowsMergeable:
		return nil // the rows are cells of a grid, which nobody can merge
	case !misread[f.Code]:
		return f
	}
	at := f.Cells[0].Pos
	by := t.Laid.Reader(at)
	if number, ok := t.Laid.Number(at); ok {
		f.Cells[0].Pos = number
		by = t.Laid.Reader(number)
	}
	if by.Sheet != nil && !slices.ContainsFunc(f.Cells, func(c finding.Cell) bool { return c.Place == by }) {
		f.Cells = slices.Insert(f.Cells, 1, finding.Cell{Place: by, Note: "the row of Layouts that reads it"})
	}
	key := strings.Join([]string{string(f.Code), f.Message, f.Cells[0].Place.String()}, "\x00")
	if r.placed[key] {
		return nil
	}
	if r.placed == nil {
		r.placed = map[string]bool{}
	}
	r.placed[key] = true
	return f
}

// misread are the codes of what a cell says and nobody understands: the cell may be wrong, or the
// row of Layouts that reads it.
var misread = map[finding.Code]bool{
	finding.ConditionMalformed: true, finding.FitmentMalformed: true, finding.PartUnknown: true, finding.ReferenceUnknown: true, finding.ValueInvalid: true,
	finding.ValueOutside: true, finding.HeaderUnknown: true, finding.ColumnMissing: true, finding.SizeMalformed: true, finding.SizeUnitless: true, finding.QuantityMalformed: true,
	finding.QuantityDisagrees: true, finding.FormulaMalformed: true, finding.UnitUnknown: true, finding.DeclaredTwice: true,
	finding.CellDateMangled: true, finding.CellNumberMangled: true, finding.CellError: true, finding.CellFormulaStale: true,
}

// maxUnlike is how many sheets are named that look like tables.
const maxUnlike = 5

// Unlike names sheets of no kind that look like tables, which a layout might read.
func (r *Reader) Unlike() []string {
	var out []string
	for _, s := range r.strange {
		wide := 0
		for _, row := range s.top {
			if len(row) > 1 {
				wide++
			}
		}
		if wide > 1 && len(out) < maxUnlike {
			out = append(out, fmt.Sprintf("%q", s.sheet.Name))
		}
	}
	return out
}
