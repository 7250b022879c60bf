package intake

import (
	"fmt"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/seal"
	"ferrule/compiler/intake/table"
	"ferrule/schema/word"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// copied gathers what a workbook holds of ours because it is a marked copy: it is left alone, and told
// in one finding, so that nothing is passed over in silence whoever made it.
type copied struct {
	file  string
	lists []*cell.Sheet
	table.Marks
}

func (c *copied) add(m table.Marks) { c.Notes, c.Fills = c.Notes+m.Notes, c.Fills+m.Fills }

// maxListed bounds the texts of a sheet that may be a list of ours, in bytes.
const maxListed = 64 << 20

// list tells whether a sheet is a list of findings that we have put there, as we did.
func (c *copied) list(book *sheets.Book, index int, sheet *cell.Sheet) bool {
	if !strings.HasPrefix(sheet.Name, seal.Sheet) || !sealed(book, index) {
		return false
	}
	c.lists = append(c.lists, sheet)
	return true
}

// offers tells whether a sheet holds nothing but the names to pick from that we have put there: its name
// says that it is not read, and all that it holds is told elsewhere.
func offers(book *sheets.Book, index int) bool {
	return strings.HasPrefix(book.Sheets()[index].Name, seal.Names) && sealed(book, index)
}

// sealed tells whether a sheet is as we made it, with texts alone and no comments.
func sealed(book *sheets.Book, index int) bool {
	size, only := 0, true
	listed := seal.IsList(func(yield func(cell.Pos, string)) {
		_, err := book.Rows(index, func(r *sheets.Row) error {
			for i := range r.Cells {
				v := &r.Cells[i]
				only = only && (v.Kind == sheets.Text && v.Formula == "" || v.Kind == sheets.Blank && v.Formula == "")
				if size += len(v.Text); size > maxListed || !only {
					only = false
					return errEnough
				}
				yield(cell.Pos{Row: r.Number, Col: v.Col}, v.Text)
			}
			return nil
		})
		only = only && err == nil
	})
	if !listed || !only {
		return false
	}
	_, n, err := book.Commented(index, nil)
	return err == nil && n == 0
}

// tell says once what is left alone.
func (c *copied) tell(l *Loaded) {
	var parts []string
	for _, of := range []struct {
		n           int
		one, others string
	}{{c.Notes, "note", "notes"}, {c.Fills, "fill", "fills"}} {
		switch of.n {
		case 0:
		case 1:
			parts = append(parts, "1 "+of.one)
		default:
			parts = append(parts, fmt.Sprintf("%d %s", of.n, of.others))
		}
	}
	cells := finding.At(cell.Place{Sheet: &cell.Sheet{File: c.file}})
	for _, s := range c.lists {
		parts = append(parts, fmt.Sprintf("the sheet %q", s.Name))
		cells = append(cells, finding.Cell{Place: cell.Place{Sheet: s}})
	}
	if len(parts) == 0 {
		return
	}
	l.told = append(l.told, &finding.Finding{Code: finding.MarksIgnored, Severity: finding.Note,
		Message:  fmt.Sprintf("%s is a marked copy: %s that the command mark put there are left alone, and all else is read", c.file, word.List(parts, "and")),
		Constant: c.file + " is a marked copy, whose marks are left alone",
		Cells:    cells,
		Fix:      "carry what is mended in it over into the workbook that it was made from"})
}
