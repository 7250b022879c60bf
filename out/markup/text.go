package markup

import (
	"fmt"
	"path"
	"strconv"
	"strings"

	"golang.org/x/tools/txtar"

	"ferrule/sheets/cell"
)

// Books reads the text form. The error says which sheet and line cannot be read.
func Books(text []byte) ([]Book, error) {
	var books []Book
	for _, f := range txtar.Parse(text).Files {
		name, title, isSheet := strings.Cut(f.Name, "/")
		if !isSheet {
			continue
		}
		if ext := path.Ext(name); ext != ".xlsx" && ext != ".xlsm" {
			return nil, fmt.Errorf("%s: %q is not the name of a workbook, write parts.xlsx/Kits", f.Name, name)
		}
		sheet, err := parseSheet(title, string(f.Data))
		if err != nil {
			return nil, fmt.Errorf("%s: %w", f.Name, err)
		}
		if books, err = add(books, name, sheet); err != nil {
			return nil, err
		}
	}
	return books, nil
}

// add puts the sheet into its book, which is made where there is none yet.
func add(books []Book, name string, s Sheet) ([]Book, error) {
	for i := range books {
		if books[i].Name != name {
			continue
		}
		for _, other := range books[i].Sheets {
			if strings.EqualFold(other.Name, s.Name) {
				return nil, fmt.Errorf("%s/%s: the workbook has this sheet already", name, s.Name)
			}
		}
		books[i].Sheets = append(books[i].Sheets, s)
		return books, nil
	}
	return append(books, Book{Name: name, Sheets: []Sheet{s}}), nil
}

func parseSheet(name, text string) (Sheet, error) {
	s := Sheet{Name: name}
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	head := 0
	for head < len(lines) && isDirective(lines[head]) {
		head++
	}
	for i, line := range lines[head:] {
		row, err := parseRow(line)
		if err != nil {
			return s, fmt.Errorf("line %d: %w", head+i+1, err)
		}
		s.Rows = append(s.Rows, row)
	}
	for i, line := range lines[:head] {
		if err := s.direct(line); err != nil {
			return s, fmt.Errorf("line %d: %w", i+1, err)
		}
	}
	return s, nil
}

// isDirective tells a directive from a row that begins with an error value: those
// are in capitals.
func isDirective(line string) bool {
	return len(line) > 1 && line[0] == '#' && line[1] >= 'a' && line[1] <= 'z'
}

func parseRow(line string) ([]Cell, error) {
	if line == "" {
		return nil, nil
	}
	var row []Cell
	for _, text := range strings.Split(line, "\t") {
		c, err := parseCell(text)
		if err != nil {
			return nil, fmt.Errorf("column %s: %w", cell.Column(int32(len(row)+1)), err)
		}
		row = append(row, c)
	}
	return row, nil
}

// direct obeys one directive.
func (s *Sheet) direct(line string) error {
	name, arg, _ := strings.Cut(line[1:], " ")
	arg = strings.TrimSpace(arg)
	switch name {
	case "hidden":
		s.Visibility = Hidden
	case "veryhidden":
		s.Visibility = VeryHidden
	case "header", "hiderow":
		n, err := strconv.ParseInt(arg, 10, 32)
		if err != nil || n < 1 || n > cell.MaxRow {
			return fmt.Errorf("#%s wants the number of a row, not %q", name, arg)
		}
		if name == "header" {
			s.Header = int(n)
		} else {
			s.HiddenRows = append(s.HiddenRows, int32(n))
		}
	case "hidecol":
		p, ok := cell.Parse(arg + "1")
		if !ok {
			return fmt.Errorf("#hidecol wants the letters of a column, not %q", arg)
		}
		s.HiddenCols = append(s.HiddenCols, p.Col)
	case "merge", "strike", "format":
		return s.mark(name, arg)
	default:
		return fmt.Errorf("there is no directive #%s", name)
	}
	return nil
}

// mark obeys a directive about a range of cells.
func (s *Sheet) mark(name, arg string) error {
	where, code, _ := strings.Cut(arg, " ")
	r, ok := cell.ParseRange(where)
	if !ok {
		return fmt.Errorf("#%s wants a range such as A2:A5, not %q", name, where)
	}
	if (name == "format") != (code != "") {
		return fmt.Errorf("#%s %s: write #format B3:B9 d-mmm, or #merge and #strike with a range alone", name, arg)
	}
	if name == "merge" {
		s.Merges = append(s.Merges, r)
		return nil
	}
	for row := r.From.Row; row <= r.To.Row; row++ {
		for col := r.From.Col; col <= r.To.Col; col++ {
			if int(row) > len(s.Rows) || int(col) > len(s.Rows[row-1]) {
				return fmt.Errorf("#%s %s: the sheet has no cell %s", name, arg, cell.Pos{Row: row, Col: col})
			}
			c := &s.Rows[row-1][col-1]
			if name == "strike" {
				c.Struck = true
			} else {
				c.Format = code
			}
		}
	}
	return nil
}
