package intake

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/layout"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/reason"
	"ferrule/schema"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// Fleet reads the workbooks of customers: one vehicle a row, on whatever sheet.
type Fleet struct {
	// Laid are rows of Layouts sheets of the catalogue that say how fleets are read.
	Laid []*layout.Row
	// Column tells whether a heading is a condition, or how many vehicles there are.
	Column func(heading string) bool
	// Begin takes each table as soon as its columns are known, and gives what takes its rows, each
	// good for that call alone. It may be called again for one sheet: what came before is void.
	Begin func(*table.Table) func(*table.Record)
	// Report is told of what is wrong with sheets and cells, as findings without a code of their own.
	Report func(*finding.Finding)
}

// Read reads a workbook; none gives the sheets in which no vehicles stand. The error is a sentence.
func (f *Fleet) Read(path string) (none []string, err error) {
	name := filepath.Base(path)
	book, err := sheets.Open(path)
	if err != nil {
		return nil, fmt.Errorf("%s cannot be read: %w", name, reason.Of(err))
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	set, err := f.plans(book, name)
	if err != nil {
		return nil, err
	}
	for i, info := range book.Sheets() {
		if strings.HasPrefix(info.Name, "_") && set.For(name, info.Name) == nil || layouts(info.Name) {
			continue
		}
		found, err := f.sheet(book, i, &cell.Sheet{File: name, Name: info.Name, Order: i}, set)
		if err != nil {
			return nil, fmt.Errorf("%s cannot be read whole: %w", name, reason.Of(err))
		}
		if !found {
			none = append(none, info.Name)
		}
	}
	return none, nil
}

func layouts(sheet string) bool {
	kind, _ := schema.KindOf(sheet)
	return kind == schema.Layouts
}

func (f *Fleet) report(fault *table.Fault) { f.Report(asFinding(fault)) }

// plans gathers the rows of the workbook's own Layouts sheets and of the catalogue's.
func (f *Fleet) plans(book *sheets.Book, name string) (*layout.Set, error) {
	var tables []*table.Table
	for i, info := range book.Sheets() {
		if !layouts(info.Name) {
			continue
		}
		t, err := table.Read(book, i, &cell.Sheet{File: name, Name: info.Name, Order: i}, table.LayoutOf(schema.Layouts), f.report)
		if err != nil {
			return nil, fmt.Errorf("%s cannot be read whole: %w", name, reason.Of(err))
		}
		tables = append(tables, t)
	}
	own, others := layout.Fleets(layout.Rows(tables))
	told := map[string]bool{}
	for _, r := range others {
		if !told[r.Sheet] {
			told[r.Sheet] = true
			f.report(&table.Fault{What: table.Unread, Cells: []cell.Place{r.SheetAt},
				Message: fmt.Sprintf("no row table about the sheet %q has Fleet under As, so these rows are not used", r.Sheet),
				Fix:     "write a row table with Fleet under As, or delete the rows"})
		}
	}
	return layout.New(slices.Concat(own, f.Laid), f.report), nil
}

// sheet reads one sheet by a layout, or else by the header that it has; false where it has none.
func (f *Fleet) sheet(book *sheets.Book, index int, sheet *cell.Sheet, set *layout.Set) (found bool, err error) {
	if plan := set.For(sheet.File, sheet.Name); plan != nil {
		tables, err := plan.Read(book, index, sheet, func(string) table.Layout { return table.LayoutOf(schema.Fleet) }, f.report)
		for _, t := range tables {
			take := f.Begin(t)
			for i := range t.Records {
				take(&t.Records[i])
			}
			t.Records = nil
		}
		return len(tables) > 0, err
	}
	heading := f.heading(glance(book, index))
	if heading == "" { // or it cannot be read
		_, err := book.Rows(index, func(*sheets.Row) error { return nil })
		return false, err
	}
	like := table.LayoutOf(schema.Fleet)
	like.Required = []string{heading}
	_, err = table.Stream(book, index, sheet, like, f.report, f.Begin)
	return true, err
}

// heading gives a condition's heading in the row that has most of them, "" where no row has any.
func (f *Fleet) heading(top [][]string) (first string) {
	most := 0
	for _, row := range top {
		n, is := 0, ""
		for _, text := range row {
			if name := table.Head(text); f.Column(name) {
				if n++; is == "" {
					is = name
				}
			}
		}
		if n > most {
			most, first = n, is
		}
	}
	return first
}
