package mistakes

import (
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"ferrule/out/markup"
	"ferrule/sheets/cell"
)

// origin is a catalogue that a mistake is made in.
type origin uint8

const (
	demo origin = iota
	starter
	spoken // testdata/spoken.txtar, published in three languages
)

// books are the workbooks of a catalogue, to be spoilt. What a mistake names must be there:
// a mistake that misses its aim fails the test.
type books struct {
	t     *testing.T
	all   []markup.Book
	after []func(dir string) // done to the workbooks once they are written
}

func open(t *testing.T, o origin) *books {
	if o == starter {
		return &books{t: t, all: markup.Starter()}
	}
	files, err := filepath.Glob(map[origin]string{demo: "../../testdata/demo/source/*.txtar", spoken: "testdata/spoken.txtar"}[o])
	require.NoError(t, err)
	require.NotEmpty(t, files)
	var all []markup.Book
	for _, f := range files {
		text, err := os.ReadFile(f)
		require.NoError(t, err)
		part, err := markup.Books(text)
		require.NoError(t, err)
		all = append(all, part...)
	}
	return &books{t: t, all: all}
}

// write puts the workbooks into a folder, with the demo's pictures beside them.
func (b *books) write(o origin) string {
	dir := b.t.TempDir()
	require.NoError(b.t, markup.WriteAll(dir, b.all, markup.Options{Plain: true}))
	if o == demo {
		require.NoError(b.t, os.CopyFS(filepath.Join(dir, "pictures"), os.DirFS("../../testdata/demo/pictures")))
	}
	for _, change := range b.after {
		change(dir)
	}
	return dir
}

// dress does to a sheet what our workbooks never have: comments and colours.
func (b *books) dress(sheet string, change func(f *excelize.File) error) {
	i, _ := b.find(sheet)
	name := b.all[i].Name
	b.after = append(b.after, func(dir string) {
		f, err := excelize.OpenFile(filepath.Join(dir, name))
		require.NoError(b.t, err)
		defer f.Close()
		require.NoError(b.t, change(f))
		require.NoError(b.t, f.Save())
	})
}

// comment puts a comment at a cell.
func (b *books) comment(sheet, at, text string) {
	b.find(sheet)
	b.dress(sheet, func(f *excelize.File) error {
		return f.AddComment(sheet, excelize.Comment{Cell: at, Author: "A. Person", Text: text})
	})
}

// paint fills cells with a colour.
func (b *books) paint(sheet, from, to, colour string) {
	b.dress(sheet, func(f *excelize.File) error {
		id, err := f.NewStyle(&excelize.Style{Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{colour}}})
		if err != nil {
			return err
		}
		return f.SetCellStyle(sheet, from, to, id)
	})
}

// find gives the place of a sheet among the workbooks.
func (b *books) find(name string) (book, sheet int) {
	for i := range b.all {
		for j := range b.all[i].Sheets {
			if b.all[i].Sheets[j].Name == name {
				return i, j
			}
		}
	}
	require.Fail(b.t, "no sheet "+name)
	return
}

func (b *books) sheet(name string) *sheet {
	i, j := b.find(name)
	return &sheet{b.t, &b.all[i].Sheets[j]}
}

// drop deletes a sheet.
func (b *books) drop(name string) {
	i, j := b.find(name)
	b.all[i].Sheets = slices.Delete(b.all[i].Sheets, j, j+1)
}

// twin copies a sheet behind the others of its workbook.
func (b *books) twin(name, as string) *sheet {
	i, j := b.find(name)
	twin := clone(b.all[i].Sheets[j])
	twin.Name = as
	b.all[i].Sheets = append(b.all[i].Sheets, twin)
	return b.sheet(as)
}

// add puts a new sheet behind the others of the workbook that holds another.
func (b *books) add(beside, name string, rows ...[]string) *sheet {
	i, _ := b.find(beside)
	s := markup.Sheet{Name: name}
	for _, r := range rows {
		s.Rows = append(s.Rows, cells(r))
	}
	b.all[i].Sheets = append(b.all[i].Sheets, s)
	return b.sheet(name)
}

// twinBook copies a whole workbook under another name; change may spoil the copy.
func (b *books) twinBook(name, as string, change func(*books)) {
	i := slices.IndexFunc(b.all, func(o markup.Book) bool { return o.Name == name })
	require.GreaterOrEqual(b.t, i, 0, name)
	twin := markup.Book{Name: as}
	for _, s := range b.all[i].Sheets {
		twin.Sheets = append(twin.Sheets, clone(s))
	}
	if change != nil {
		only := &books{t: b.t, all: []markup.Book{twin}}
		change(only)
		twin = only.all[0]
	}
	b.all = append(b.all, twin)
}

func clone(s markup.Sheet) markup.Sheet {
	s.Rows = slices.Clone(s.Rows)
	for i := range s.Rows {
		s.Rows[i] = slices.Clone(s.Rows[i])
	}
	s.Merges = slices.Clone(s.Merges)
	return s
}

// typed is what a spreadsheet program makes of what is typed: a number, or a text.
func typed(s string) markup.Cell {
	if f, err := strconv.ParseFloat(s, 64); err == nil && strconv.FormatFloat(f, 'f', -1, 64) == s {
		return markup.Cell{Kind: markup.Number, Text: s}
	}
	return markup.Words(s)
}

// dated is a date cell; "" as format is a date of the usual kind.
func dated(iso, format string) markup.Cell {
	return markup.Cell{Kind: markup.Date, Text: iso, Format: format}
}

// shown is a number with a number format.
func shown(number, format string) markup.Cell {
	return markup.Cell{Kind: markup.Number, Text: number, Format: format}
}

func cells(texts []string) []markup.Cell {
	out := make([]markup.Cell, len(texts))
	for i, t := range texts {
		out[i] = typed(t)
	}
	return out
}

// sheet is one sheet, to be spoilt.
type sheet struct {
	t *testing.T
	*markup.Sheet
}

// col gives the index of the column under a heading.
func (s *sheet) col(head string) int {
	for i, c := range s.Rows[max(s.Header, 1)-1] {
		if c.Text == head {
			return i
		}
	}
	require.Fail(s.t, s.Name+" has no column "+head)
	return -1
}

// at gives a cell's address: `C7`.
func (s *sheet) at(head string, row int) string {
	return cell.Pos{Row: int32(row), Col: int32(s.col(head) + 1)}.String()
}

// get gives the text of a cell.
func (s *sheet) get(head string, row int) string {
	if c := s.col(head); c < len(s.Rows[row-1]) {
		return s.Rows[row-1][c].Text
	}
	return ""
}

// put writes into a cell: a text as typed, or a markup.Cell as it is.
func (s *sheet) put(head string, row int, value any) { s.poke(row, s.col(head), value) }

// poke writes into a cell by row, counted from 1, and index of the column.
func (s *sheet) poke(row, col int, value any) {
	for len(s.Rows) < row {
		s.Rows = append(s.Rows, nil)
	}
	r := &s.Rows[row-1]
	for len(*r) <= col {
		*r = append(*r, markup.Cell{})
	}
	switch v := value.(type) {
	case string:
		(*r)[col] = typed(v)
	case markup.Cell:
		(*r)[col] = v
	default:
		require.Fail(s.t, "a text or a markup.Cell")
	}
}

// head renames a heading.
func (s *sheet) head(old, as string) { s.put(old, max(s.Header, 1), markup.Words(as)) }

// row finds the first row that has a text under a heading.
func (s *sheet) row(head, text string) int {
	for i := max(s.Header, 1); i < len(s.Rows); i++ {
		if s.get(head, i+1) == text {
			return i + 1
		}
	}
	require.Fail(s.t, s.Name+" has no "+text+" under "+head)
	return 0
}

// filled finds the first row with anything under a heading.
func (s *sheet) filled(head string) int {
	for i := max(s.Header, 1); i < len(s.Rows); i++ {
		if s.get(head, i+1) != "" {
			return i + 1
		}
	}
	require.Fail(s.t, s.Name+" has nothing under "+head)
	return 0
}

// insert puts a row of typed texts before a row; behind the last one with row len+1.
func (s *sheet) insert(row int, texts ...string) {
	s.Rows = slices.Insert(s.Rows, row-1, cells(texts))
}

// remove deletes a row.
func (s *sheet) remove(row int) { s.Rows = slices.Delete(s.Rows, row-1, row) }

// removeColumn deletes a column.
func (s *sheet) removeColumn(head string) {
	c := s.col(head)
	for i, r := range s.Rows {
		if c < len(r) {
			s.Rows[i] = slices.Delete(r, c, c+1)
		}
	}
}

// addColumn puts a column behind the last, with texts for the rows from the first one below the header.
func (s *sheet) addColumn(head string, texts ...string) {
	at := len(s.Rows[max(s.Header, 1)-1])
	s.poke(max(s.Header, 1), at, markup.Words(head))
	for i, t := range texts {
		s.poke(max(s.Header, 1)+1+i, at, t)
	}
}

// swap exchanges two headings and leaves what stands below them.
func (s *sheet) swap(a, b string) {
	i, j, row := s.col(a), s.col(b), s.Rows[max(s.Header, 1)-1]
	row[i], row[j] = row[j], row[i]
}

// sortColumn sorts the filled cells of one column alone, as a sort without its neighbours does:
// blanks come last.
func (s *sheet) sortColumn(head string) {
	c, first := s.col(head), max(s.Header, 1)
	var filled []markup.Cell
	for _, r := range s.Rows[first:] {
		if c < len(r) && r[c].Text != "" {
			filled = append(filled, r[c])
		}
	}
	slices.SortStableFunc(filled, func(a, b markup.Cell) int { return strings.Compare(a.Text, b.Text) })
	for i := first; i < len(s.Rows); i++ {
		v := markup.Cell{}
		if i-first < len(filled) {
			v = filled[i-first]
		}
		if c < len(s.Rows[i]) || v.Text != "" {
			s.poke(i+1, c, v)
		}
	}
}

// fill writes one value after another downwards from a row.
func (s *sheet) fill(head string, row int, values ...string) {
	for i, v := range values {
		s.put(head, row+i, v)
	}
}
