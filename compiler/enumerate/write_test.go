package enumerate

import (
	"fmt"
	"os"
	"path/filepath"
	"time"

	"github.com/xuri/excelize/v2"
)

// write puts the catalogue into workbooks and notes where each row stands.
func (c *catalogue) write(dir string) error {
	for _, file := range c.files {
		if err := c.writeFile(dir, file); err != nil {
			return fmt.Errorf("%s: %w", file, err)
		}
	}
	// What spreadsheet programs leave beside an open workbook is not read.
	return os.WriteFile(filepath.Join(dir, "~$lock.xlsx"), []byte("lock"), 0o600)
}

func (c *catalogue) writeFile(dir, file string) error {
	book := excelize.NewFile()
	defer book.Close()
	first := true
	for _, s := range c.sheets {
		if s.file != file {
			continue
		}
		if err := addSheet(book, s.name, first); err != nil {
			return err
		}
		first = false
		if err := s.write(book); err != nil {
			return fmt.Errorf("%s: %w", s.name, err)
		}
	}
	return book.SaveAs(filepath.Join(dir, file))
}

func addSheet(book *excelize.File, name string, first bool) error {
	if first {
		return book.SetSheetName("Sheet1", name)
	}
	_, err := book.NewSheet(name)
	return err
}

func (s *sheet) write(book *excelize.File) error {
	line := 1
	for _, title := range s.lead {
		if err := s.set(book, 1, line, title); err != nil {
			return err
		}
		line++
	}
	s.heads = map[string]ref{}
	for i, col := range s.columns {
		if err := s.set(book, i+1, line, col.head); err != nil {
			return err
		}
		at, err := excelize.CoordinatesToCellName(i+1, line)
		if err != nil {
			return err
		}
		s.heads[col.name] = ref{s.file, s.name, at}
	}
	lines := map[*row]int{}
	for _, r := range s.rows {
		if r.gone {
			continue
		}
		line++
		lines[r] = line
		if err := s.writeRow(book, r, line); err != nil {
			return err
		}
		if s.skip[r] {
			line++
		}
	}
	for _, m := range s.merges {
		if err := s.writeMerge(book, m, lines); err != nil {
			return err
		}
	}
	return s.hide(book, lines)
}

func (s *sheet) set(book *excelize.File, column, line int, what any) error {
	if what == nil {
		return nil
	}
	cell, err := excelize.CoordinatesToCellName(column, line)
	if err != nil {
		return err
	}
	return book.SetCellValue(s.name, cell, what)
}

func (s *sheet) writeRow(book *excelize.File, r *row, line int) error {
	r.first, r.line = ref{}, line
	for i, col := range s.columns {
		what := r.cells[col.name]
		cell, err := excelize.CoordinatesToCellName(i+1, line)
		if err != nil {
			return err
		}
		r.at[col.name] = ref{s.file, s.name, cell}
		if what != nil && r.first == (ref{}) {
			r.first = r.at[col.name]
		}
		if err := s.set(book, i+1, line, what); err != nil {
			return err
		}
	}
	return nil
}

// writeMerge joins cells, if their rows are all still there and neighbours.
// All of them have the address of the first from then on.
func (s *sheet) writeMerge(book *excelize.File, m merge, lines map[*row]int) error {
	top := m.rows[0]
	for i, r := range m.rows {
		if r.gone || lines[r] != lines[top]+i {
			return nil
		}
	}
	if m.over != "" {
		return s.writeAcross(book, m)
	}
	last := m.rows[len(m.rows)-1]
	from, to := top.at[m.column], last.at[m.column]
	for _, r := range m.rows[1:] {
		if err := book.SetCellValue(s.name, r.at[m.column].Cell, nil); err != nil {
			return err
		}
		if r.first == r.at[m.column] {
			r.first = from
		}
		r.at[m.column] = from
	}
	return book.MergeCell(s.name, from.Cell, to.Cell)
}

// writeAcross joins two cells of a row.
func (s *sheet) writeAcross(book *excelize.File, m merge) error {
	r := m.rows[0]
	from, to := r.at[m.column], r.at[m.over]
	if err := book.SetCellValue(s.name, to.Cell, nil); err != nil {
		return err
	}
	r.at[m.over] = from
	return book.MergeCell(s.name, from.Cell, to.Cell)
}

func (s *sheet) hide(book *excelize.File, lines map[*row]int) error {
	if s.hideColumn > 0 {
		name, err := excelize.ColumnNumberToName(s.hideColumn)
		if err != nil {
			return err
		}
		if err := book.SetColVisible(s.name, name, false); err != nil {
			return err
		}
	}
	if s.hideRow != nil && lines[s.hideRow] > 0 {
		if err := book.SetRowVisible(s.name, lines[s.hideRow], false); err != nil {
			return err
		}
	}
	if s.hidden {
		return book.SetSheetVisible(s.name, false)
	}
	return nil
}

// day is a date cell without a time of day.
func day(year int, month time.Month, d int) time.Time {
	return time.Date(year, month, d, 0, 0, 0, 0, time.UTC)
}
