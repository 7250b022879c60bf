// Package table turns the cells of a sheet into records: it finds the header row,
// applies merged ranges, and keeps with every field the cell it came from.
//
// It knows the layout of a sheet kind (which columns it must have) and of what the
// columns mean no more than tells a value from what a spreadsheet program made of it.
package table

import (
	"fmt"
	"slices"
	"sort"
	"strings"
	"unicode"

	"ferrule/compiler/finding"
	"ferrule/schema/word"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// headerRows is how far down a sheet its header may stand.
const headerRows = 20

// Layout is what a kind of sheet must look like.
type Layout struct {
	Kind     string   // as in the name of the sheet, lower case
	Required []string // columns that the header row must hold
	Known    []string // all columns that the kind defines
}

// Table is a sheet as records.
type Table struct {
	Kind    string
	Sheet   *cell.Sheet
	Columns []Column // left to right; those without a header are not here
	Records []Record
	Headed  bool // false: a required column is missing, and the records mean little
}

// Column is a header cell.
type Column struct {
	Name string // white space collapsed, without the unit; as the layout spells it where it knows it
	Unit string // what stands in square brackets at the end, "" for none
	At   cell.Pos
	// Known tells that the layout defines the column.
	Known bool
}

// Record is a row under the header with at least one value of its own.
type Record struct {
	Row    int32
	Fields []Field // in the order of the columns; blank ones are left out
}

// Field is a value under a column.
type Field struct {
	Column int // index into Table.Columns
	sheets.Value
	At     cell.Pos // where the value is written: the first cell of a merged range
	Broken bool     // the value cannot be used, and a finding says why
}

// Place gives the place of a position in the table's sheet.
func (t *Table) Place(p cell.Pos) cell.Place { return cell.Place{Sheet: t.Sheet, Pos: p} }

// First gives the place of the record's leftmost filled cell.
func (t *Table) First(r *Record) cell.Place { return t.Place(r.Fields[0].At) }

// reader gathers one sheet.
type reader struct {
	layout Layout
	sheet  *cell.Sheet
	report func(*finding.Finding)
	rows   []row

	said      map[saying]bool              // what has been said of which cell
	alphabets map[*unicode.RangeTable]bool // whether the sheet is written in them
	formats   map[string]bool              // number formats, and whether they are plain
}

type row struct {
	number int32
	hidden bool
	cells  []sheets.Cell
}

// Read reads one sheet of a book. The error is the book's: the sheet could not be
// read whole.
func Read(book *sheets.Book, index int, sheet *cell.Sheet, layout Layout, report func(*finding.Finding)) (*Table, error) {
	r := &reader{layout: layout, sheet: sheet, report: report}
	trailer, err := book.Rows(index, func(in *sheets.Row) error {
		if cells := filled(in.Cells); len(cells) > 0 {
			r.rows = append(r.rows, row{in.Number, in.Hidden, cells})
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	r.hidden(book.Sheets()[index], trailer)
	return r.table(trailer.Merges), nil
}

// filled copies the cells that hold something: white space alone is blank.
func filled(cells []sheets.Cell) []sheets.Cell {
	var out []sheets.Cell
	for _, c := range cells {
		if c.Kind != sheets.Text || strings.TrimSpace(c.Text) != "" {
			out = append(out, c)
		}
	}
	return out
}

func (r *reader) table(merges []cell.Range) *Table {
	t := &Table{Kind: r.layout.Kind, Sheet: r.sheet}
	head, headed := r.head(merges)
	t.Headed = headed
	if head < 0 {
		return t
	}
	merged := sweep{coming: r.covers(merges, r.rows[head].number)}
	cols := r.columns(t, merges, head)
	last := r.rows[head].number
	for i := head + 1; i < len(r.rows); i++ {
		in := &r.rows[i]
		r.between(t, last, in.number, cols, &merged)
		r.add(t, in, cols, merged.down(in.number))
		last, in.cells = in.number, nil // a record holds them now
	}
	r.between(t, last, cell.MaxRow+1, cols, &merged)
	r.strays(t, cols)
	return t
}

func (r *reader) add(t *Table, in *row, cols *columns, active []cover) {
	if rec := r.record(t, in, cols, active); len(rec.Fields) > 0 {
		t.Records = append(t.Records, rec)
	}
}

// maxUnder is how many rows without a cell of their own a stretch of merged ranges may
// make: no sheet that people keep has more, and a merged column would make a million.
const maxUnder = 10_000

// between adds the rows after one and before another that merged ranges alone reach
// over: their cells have the values of the ranges' first cells.
func (r *reader) between(t *Table, after, before int32, cols *columns, merged *sweep) {
	for n := after + 1; n < before; n++ {
		active := merged.down(n)
		if len(active) == 0 {
			if len(merged.coming) == 0 {
				return
			}
			n = min(merged.coming[0].From.Row, before) - 1
			continue
		}
		if n-after > maxUnder {
			m := active[0]
			r.report(&finding.Finding{Code: CellCovered, Severity: finding.Warning,
				Message: fmt.Sprintf("the merged cells %s reach over more than %d rows that hold nothing of their own; the rows from %d on are not read", m.Range, maxUnder, n),
				Gist:    fmt.Sprintf("merged cells reach over more than %d rows that hold nothing of their own", maxUnder),
				Cells:   finding.At(t.Place(m.From)),
				Fix:     "unmerge them, or end the merge where the table ends"})
			return
		}
		r.add(t, &row{number: n}, cols, active)
	}
}

// head finds the header row: the first of the first twenty that holds all required
// columns, otherwise the first that is not empty. -1 stands for an empty sheet.
func (r *reader) head(merges []cell.Range) (int, bool) {
	for i := range r.rows {
		if r.rows[i].number > headerRows {
			break
		}
		if len(r.missing(i, merges)) == 0 {
			return i, true
		}
	}
	if len(r.rows) == 0 {
		r.report(&finding.Finding{Code: ColumnMissing, Severity: finding.Error,
			Message: fmt.Sprintf("the sheet is empty; write a header with %s", quoted(r.layout.Required)),
			Cells:   finding.At(cell.Place{Sheet: r.sheet})})
		return -1, false
	}
	if i := r.below(merges); i >= 0 {
		r.report(&finding.Finding{Code: ColumnMissing, Severity: finding.Error,
			Message: fmt.Sprintf("the header stands in row %d, and it is looked for in the first %d rows", r.rows[i].number, headerRows),
			Gist:    fmt.Sprintf("the header does not stand in the first %d rows", headerRows),
			Cells:   finding.At(cell.Place{Sheet: r.sheet, Pos: cell.Pos{Row: r.rows[i].number, Col: r.rows[i].cells[0].Col}}),
			Fix:     "move what stands above it to a sheet whose name starts with _"})
		return 0, false
	}
	missing := r.missing(0, merges)
	r.report(&finding.Finding{Code: ColumnMissing, Severity: finding.Error,
		Message: fmt.Sprintf("no row among the first %d is a header of a %s sheet: the first row that is not empty has no column %s%s",
			headerRows, title(r.layout.Kind), quoted(missing), r.nearMiss(0, missing)),
		Gist:  fmt.Sprintf("no row is a header of a %s sheet: %s missing", title(r.layout.Kind), quoted(missing)),
		Cells: finding.At(cell.Place{Sheet: r.sheet, Pos: cell.Pos{Row: r.rows[0].number, Col: r.rows[0].cells[0].Col}}),
		Fix:   "write the column's name into the header row, as it stands here"})
	return 0, false
}

// below finds a header too far down to be taken for one, so that it can be named; -1
// where there is none.
func (r *reader) below(merges []cell.Range) int {
	for i := range r.rows {
		if r.rows[i].number > 10*headerRows {
			break
		}
		if len(r.missing(i, merges)) == 0 {
			return i
		}
	}
	return -1
}

func (r *reader) missing(i int, merges []cell.Range) []string {
	var out []string
	names := map[string]bool{}
	for _, c := range r.headerCells(i, merges) {
		name, _ := header(c.Text)
		names[word.Fold(name)] = true
	}
	for _, want := range r.layout.Required {
		if !names[word.Fold(want)] {
			out = append(out, want)
		}
	}
	return out
}

// nearMiss names a header that is probably a misspelt required column.
func (r *reader) nearMiss(i int, missing []string) string {
	for _, c := range r.rows[i].cells {
		name, _ := header(c.Text)
		if n := word.Nearest(name, missing); n != "" {
			at := cell.Pos{Row: r.rows[i].number, Col: c.Col}
			return fmt.Sprintf(" (%s says %q: did you mean %s?)", at, c.Text, n)
		}
	}
	return ""
}

// headerCells gives a row's cells with merged ranges applied.
func (r *reader) headerCells(i int, merges []cell.Range) []sheets.Cell {
	cells := slices.Clone(r.rows[i].cells)
	for _, m := range merges {
		n := r.rows[i].number
		if n < m.From.Row || n > m.To.Row {
			continue
		}
		first, ok := r.at(m.From)
		if !ok {
			continue
		}
		// Beyond the columns that the format knows, a merged title says nothing new.
		for col := m.From.Col; col <= min(m.To.Col, m.From.Col+256); col++ {
			at := sort.Search(len(cells), func(k int) bool { return cells[k].Col >= col })
			switch {
			case at == len(cells) || cells[at].Col != col:
				cells = slices.Insert(cells, at, sheets.Cell{Col: col, Value: first})
			default:
				cells[at].Value = first // what stands under the merge cannot be seen
			}
		}
	}
	return cells
}

// at gives the stored value of one cell.
func (r *reader) at(p cell.Pos) (sheets.Value, bool) {
	i := sort.Search(len(r.rows), func(k int) bool { return r.rows[k].number >= p.Row })
	if i == len(r.rows) || r.rows[i].number != p.Row {
		return sheets.Value{}, false
	}
	cells := r.rows[i].cells
	j := sort.Search(len(cells), func(k int) bool { return cells[k].Col >= p.Col })
	if j == len(cells) || cells[j].Col != p.Col {
		return sheets.Value{}, false
	}
	return cells[j].Value, true
}

// header splits a header cell into its name and the unit in square brackets.
func header(text string) (name, unit string) {
	name = strings.Join(strings.Fields(text), " ")
	if strings.HasSuffix(name, "]") {
		if i := strings.LastIndexByte(name, '['); i > 0 {
			return strings.TrimSpace(name[:i]), strings.TrimSpace(name[i+1 : len(name)-1])
		}
	}
	return name, ""
}

func quoted(names []string) string {
	q := make([]string, len(names))
	for i, n := range names {
		q[i] = fmt.Sprintf("%q", n)
	}
	return strings.Join(q, ", ")
}

func title(kind string) string {
	if kind == "" {
		return ""
	}
	return strings.ToUpper(kind[:1]) + kind[1:]
}
