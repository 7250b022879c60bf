package markup

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"unicode/utf16"

	"github.com/xuri/excelize/v2"

	"ferrule/sheets/cell"
)

// made is the date that every workbook claims: a real one would make the bytes
// differ from run to run.
const made = "2026-01-01T00:00:00Z"

// WriteAll writes the books into dir, which exists, each under its name. Headings are known by what any of
// them declares.
func WriteAll(dir string, books []Book, o Options) error {
	names := gather(books)
	for i := range books {
		f, err := os.Create(filepath.Join(dir, books[i].Name))
		if err != nil {
			return err
		}
		err = books[i].write(f, o, names)
		if closed := f.Close(); err == nil {
			err = closed
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// Write writes the workbook. An error names the sheet and cell that cannot be
// written.
func (b *Book) Write(w io.Writer, o Options) error { return b.write(w, o, gather([]Book{*b})) }

func (b *Book) write(w io.Writer, o Options, n *names) error {
	if len(b.Sheets) == 0 {
		return fmt.Errorf("%s: a workbook needs a sheet", b.Name)
	}
	p := &writing{book: b, file: excelize.NewFile(), plain: o.Plain, styles: map[look]int{}, names: n}
	defer p.file.Close()
	if err := p.run(); err != nil {
		return fmt.Errorf("%s: %w", b.Name, err)
	}
	if err := p.file.Write(w); err != nil {
		return fmt.Errorf("%s: %w", b.Name, err)
	}
	return nil
}

// writing holds what is known while one workbook is written.
type writing struct {
	book   *Book
	file   *excelize.File
	plain  bool
	styles map[look]int
	names  *names
}

func (p *writing) run() error {
	p.file.Path = p.book.Name // tells excelize which kind of workbook it is
	p.file.SetZipWriter(newZip)
	err := p.file.SetDocProps(&excelize.DocProperties{
		Creator: "ferrule", LastModifiedBy: "ferrule", Created: made, Modified: made,
	})
	if err != nil {
		return err
	}
	first := true
	for i := range p.book.Sheets {
		s := &p.book.Sheets[i]
		if err := p.sheet(s, first); err != nil {
			return fmt.Errorf("%s: %w", s.Name, err)
		}
		first = false
	}
	return p.hide()
}

// sheet makes one sheet; the workbook comes with one, which the first takes over.
func (p *writing) sheet(s *Sheet, first bool) error {
	var err error
	if first {
		err = p.file.SetSheetName(p.file.GetSheetName(0), s.Name)
	} else {
		_, err = p.file.NewSheet(s.Name)
	}
	if err != nil {
		return err
	}
	if !p.plain {
		if err := p.dress(s); err != nil {
			return err
		}
	}
	for r, row := range s.Rows {
		for c := range row {
			at := cell.Pos{Row: int32(r + 1), Col: int32(c + 1)}
			if err := p.cell(s, at, &row[c]); err != nil {
				return fmt.Errorf("%s: %w", at, err)
			}
		}
	}
	if !p.plain {
		if err := p.heights(s); err != nil {
			return err
		}
	}
	for _, m := range s.Merges {
		if err := p.file.MergeCell(s.Name, m.From.String(), m.To.String()); err != nil {
			return err
		}
	}
	return p.hideParts(s)
}

func (p *writing) cell(s *Sheet, at cell.Pos, c *Cell) error {
	style, err := p.style(p.lookOf(s, at, c))
	if err == nil && style != 0 {
		err = p.file.SetCellStyle(s.Name, at.String(), at.String(), style)
	}
	if err != nil {
		return err
	}
	if c.Formula != "" || c.Kind == Error {
		text, err := disguise(c)
		if err != nil {
			return err
		}
		return p.file.SetCellDefault(s.Name, at.String(), text)
	}
	switch c.Kind {
	case Text:
		// excelize cuts longer texts without a word.
		if n := len(utf16.Encode([]rune(c.Text))); n > excelize.TotalCellChars {
			return fmt.Errorf("the text has %d characters, a cell holds %d", n, excelize.TotalCellChars)
		}
		return p.file.SetCellStr(s.Name, at.String(), c.Text)
	case Bool:
		return p.file.SetCellBool(s.Name, at.String(), c.Text == "TRUE")
	case Number, Date:
		v, err := c.stored()
		if err != nil {
			return err
		}
		return p.file.SetCellDefault(s.Name, at.String(), v)
	}
	return nil
}

// stored gives the value as the sheet's XML holds it.
func (c *Cell) stored() (string, error) {
	switch {
	case c.Kind == Date:
		n, err := serial(c.Text)
		return strconv.Itoa(n), err
	case c.Kind == Number && !isNumber(c.Text):
		return "", fmt.Errorf("%q is not a number in its shortest form", c.Text)
	case c.Kind == Error && !isError(c.Text):
		return "", fmt.Errorf("%q is not an error value", c.Text)
	case c.Kind == Bool && c.Text == "TRUE":
		return "1", nil
	case c.Kind == Bool:
		return "0", nil
	}
	return c.Text, nil
}

func (p *writing) hideParts(s *Sheet) error {
	for _, row := range s.HiddenRows {
		if err := p.file.SetRowVisible(s.Name, int(row), false); err != nil {
			return err
		}
	}
	for _, col := range s.HiddenCols {
		if err := p.file.SetColVisible(s.Name, cell.Column(col), false); err != nil {
			return err
		}
	}
	return nil
}

// hide opens the workbook at its first visible sheet and hides what is to be hidden.
// A workbook shows at least one sheet, so hiding all is an error.
func (p *writing) hide() error {
	shown := false
	for i := len(p.book.Sheets) - 1; i >= 0; i-- {
		if p.book.Sheets[i].Visibility == Visible {
			p.file.SetActiveSheet(i)
			shown = true
		}
	}
	if !shown {
		return fmt.Errorf("a workbook shows at least one sheet")
	}
	for _, s := range p.book.Sheets {
		if s.Visibility == Visible {
			continue
		}
		if err := p.file.SetSheetVisible(s.Name, false, s.Visibility == VeryHidden); err != nil {
			return err
		}
	}
	return nil
}
