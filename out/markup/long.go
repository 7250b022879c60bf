package markup

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"unicode/utf16"

	"github.com/xuri/excelize/v2"

	"ferrule/sheets/cell"
)

// Long is a table that is written row by row, so that it is never in memory as a whole. Where it has
// more rows than a sheet it goes on in further ones, of which each has the header.
type Long struct {
	Name    string
	Columns []LongColumn
	// Rows gives the rows to yield, in their order: a text, a whole number (int64), or nil for
	// blank in each column. A row is good for that call alone. The error is yield's.
	Rows func(yield func([]any) error) error
}

// LongColumn is a column of a Long.
type LongColumn struct {
	Title string // each another one
	Width float64
}

// CreateLong writes tables as the sheets of a new workbook, their header frozen and with filters. A
// file that is there already is an error and stays as it is.
func CreateLong(path string, tables []Long) error { return createLong(path, tables, cell.MaxRow) }

// createLong is CreateLong with at most so many rows on a sheet.
func createLong(path string, tables []Long, most int) (err error) {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if os.IsExist(err) {
		return fmt.Errorf("%s is there already, and no workbook is ever written over: %w", path, fs.ErrExist)
	}
	if err != nil {
		return err
	}
	err = writeLong(f, filepath.Base(path), tables, most)
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err != nil {
		os.Remove(path)
	}
	return err
}

// long is a workbook of long tables while it is written.
type long struct {
	file                 *excelize.File
	header, text, number int // styles
	sheets, most         int // and how many rows each has at most
}

func writeLong(to *os.File, name string, tables []Long, most int) error {
	w := &long{file: excelize.NewFile(), most: most}
	defer w.file.Close() //nolint:errcheck // what it has on the disk is temporary
	w.file.Path = name
	err := w.file.SetDocProps(&excelize.DocProperties{Creator: "ferrule", LastModifiedBy: "ferrule", Created: made, Modified: made})
	if err != nil {
		return err
	}
	if err := w.styles(); err != nil {
		return err
	}
	for i := range tables {
		if err := w.table(&tables[i]); err != nil {
			return fmt.Errorf("%s: %w", tables[i].Name, err)
		}
	}
	w.file.SetActiveSheet(0)
	return w.file.Write(to)
}

func (w *long) styles() (err error) {
	top := &excelize.Alignment{Vertical: "top", WrapText: true}
	if w.header, err = w.file.NewStyle(&excelize.Style{Alignment: &excelize.Alignment{Vertical: "center", WrapText: true},
		Font: &excelize.Font{Bold: true, Color: white}, Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{slate}}}); err != nil {
		return err
	}
	text, number := textFormat, "#,##0"
	if w.text, err = w.file.NewStyle(&excelize.Style{Alignment: top, CustomNumFmt: &text}); err != nil {
		return err
	}
	w.number, err = w.file.NewStyle(&excelize.Style{Alignment: &excelize.Alignment{Vertical: "top"}, CustomNumFmt: &number})
	return err
}

// longSheet is one of the sheets of a long table.
type longSheet struct {
	stream *excelize.StreamWriter
	rows   int
	cells  []any
}

func (w *long) table(t *Long) error {
	n := 1
	s, err := w.begin(t, t.Name)
	if err != nil {
		return err
	}
	err = t.Rows(func(row []any) error {
		if s.rows == w.most {
			if err := w.end(t, s); err != nil {
				return err
			}
			n++
			if s, err = w.begin(t, fmt.Sprintf("%s %d", t.Name, n)); err != nil {
				return err
			}
		}
		return w.row(s, row)
	})
	if err != nil {
		return err
	}
	return w.end(t, s)
}

// begin makes a sheet with the header; the workbook comes with one, which the first takes over.
func (w *long) begin(t *Long, name string) (*longSheet, error) {
	var err error
	if w.sheets == 0 {
		err = w.file.SetSheetName(w.file.GetSheetName(0), name)
	} else {
		_, err = w.file.NewSheet(name)
	}
	if err != nil {
		return nil, err
	}
	w.sheets++
	s := &longSheet{cells: make([]any, len(t.Columns))}
	if s.stream, err = w.file.NewStreamWriter(name); err != nil {
		return nil, err
	}
	for i, c := range t.Columns {
		if err := s.stream.SetColWidth(i+1, i+1, c.Width); err != nil {
			return nil, err
		}
		s.cells[i] = excelize.Cell{StyleID: w.header, Value: c.Title}
	}
	err = s.stream.SetPanes(&excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"})
	if err != nil {
		return nil, err
	}
	s.rows = 1
	return s, s.stream.SetRow("A1", s.cells)
}

func (w *long) row(s *longSheet, row []any) error {
	for i, v := range row {
		switch v := v.(type) {
		case nil:
			s.cells[i] = nil
		case int64:
			s.cells[i] = excelize.Cell{StyleID: w.number, Value: v}
		case string:
			if len(v) > excelize.TotalCellChars && len(utf16.Encode([]rune(v))) > excelize.TotalCellChars {
				return fmt.Errorf("the text in row %d has more than %d characters, as many as a cell holds", s.rows+1, excelize.TotalCellChars)
			}
			s.cells[i] = excelize.Cell{StyleID: w.text, Value: v}
			if v == "" {
				s.cells[i] = nil
			}
		default:
			panic(fmt.Sprintf("markup: a long table has %T in a cell", v))
		}
	}
	s.rows++
	return s.stream.SetRow(cell.Pos{Row: int32(s.rows), Col: 1}.String(), s.cells)
}

// end closes a sheet. Its filters are those of a table, which needs a row.
func (w *long) end(t *Long, s *longSheet) error {
	if s.rows > 1 {
		area := cell.Range{From: cell.Pos{Row: 1, Col: 1}, To: cell.Pos{Row: int32(s.rows), Col: int32(len(t.Columns))}}
		err := s.stream.AddTable(&excelize.Table{Range: area.From.String() + ":" + area.To.String(), Name: fmt.Sprintf("Table_%d", w.sheets), StyleName: "TableStyleLight1"})
		if err != nil {
			return err
		}
	}
	return s.stream.Flush()
}
