package markup

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
)

// isoDay is a date as Cell.Text has it.
var isoDay = regexp.MustCompile(`^\d{4}-\d{2}-\d{2}$`)

// Table makes a sheet of a header and rows of text; a date becomes a cell of its kind.
func Table(name string, columns []string, rows [][]string) Sheet {
	s := Sheet{Name: name, Rows: [][]Cell{nil}}
	for _, c := range columns {
		s.Rows[0] = append(s.Rows[0], Words(c))
	}
	for _, r := range rows {
		var cells []Cell
		for _, text := range r {
			c := Words(text)
			if isoDay.MatchString(text) {
				c.Kind = Date
			}
			cells = append(cells, c)
		}
		s.Rows = append(s.Rows, cells)
	}
	return s
}

// Create writes a book as a new file, under its name in a folder. A file that is there
// already is an error and stays as it is.
func Create(path string, sheets ...Sheet) (err error) {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if os.IsExist(err) {
		return fmt.Errorf("%s is there already, and no workbook is ever written over: %w", path, fs.ErrExist)
	}
	if err != nil {
		return err
	}
	book := Book{Name: filepath.Base(path), Sheets: sheets}
	err = book.Write(f, Options{})
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err != nil {
		os.Remove(path)
	}
	return err
}
