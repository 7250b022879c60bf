package intake

import (
	"errors"
	"fmt"
	"path"
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// stranger is a sheet whose name begins with no kind of sheet.
type stranger struct {
	book  Source
	index int
	sheet *cell.Sheet
	top   [][]string // what its first rows that hold something say, cell by cell
}

// How much of a sheet that is left alone is looked at.
const (
	topRows  = 20
	topCells = 256
)

// errEnough ends the reading of a sheet of which enough is known.
var errEnough = errors.New("enough rows")

// glance reads the first rows of a sheet that is none of the catalogue's. A fault in it
// matters to nobody.
func glance(book *sheets.Book, index int) (top [][]string) {
	_, err := book.Rows(index, func(in *sheets.Row) error {
		var row []string
		for _, c := range in.Cells[:min(len(in.Cells), topCells)] {
			if text := strings.TrimSpace(c.Text); text != "" {
				row = append(row, text)
			}
		}
		if len(row) > 0 {
			top = append(top, row)
		}
		if len(top) == topRows {
			return errEnough
		}
		return nil
	})
	if err != nil && !errors.Is(err, errEnough) {
		return nil
	}
	return top
}

// strangers reports the sheets of no kind: a note, or an error where one is probably a
// sheet of the catalogue. What that would say is read, for what follows from its absence.
func (r *Reader) strangers() []Aside {
	var out []Aside
	names := newVocabulary(r.Tables)
	for i := range r.strange {
		s := &r.strange[i]
		meant := names.meant(s)
		if len(meant) == 0 {
			r.report(r.ignored(s.sheet))
			continue
		}
		f := lostSheet(s.sheet, meant, r.namesBeside(s.sheet))
		r.report(f)
		if t := r.again(s, meant[0]); t != nil && t.Headed {
			out = append(out, Aside{Table: t, Cause: f})
		}
	}
	return out
}

// namesBeside gives the names of the other sheets of a sheet's workbook; of a text file, which is
// one sheet, those of the other text files.
func (r *Reader) namesBeside(sheet *cell.Sheet) []string {
	var out []string
	for i := range r.Read.Files {
		for _, s := range r.Read.Files[i].Sheets {
			if file := r.Read.Files[i].Name; s.Name != sheet.Name && (file == sheet.File || sheets.Separated(file) && sheets.Separated(sheet.File)) {
				out = append(out, s.Name)
			}
		}
	}
	return out
}

// again reads a stranger as a sheet of a kind, without a word; nil where that fails.
func (r *Reader) again(s *stranger, kind string) *table.Table {
	book, err := sheets.Open(s.book.File())
	if err != nil {
		return nil
	}
	defer book.Close() //nolint:errcheck // it was only read
	if s.index >= len(book.Sheets()) {
		return nil
	}
	t, err := table.Read(book, s.index, s.sheet, r.layouts[kind], func(*table.Fault) {})
	if err != nil {
		return nil
	}
	return t
}

// lostSheet says that a sheet which probably belongs to the catalogue is not read.
func lostSheet(sheet *cell.Sheet, meant, taken []string) *finding.Finding {
	titles, articled := make([]string, len(meant)), make([]string, len(meant))
	for i, kind := range meant {
		titles[i] = schema.Title(kind)
		articled[i] = "a " + titles[i]
		if strings.ContainsRune("aeiou", rune(kind[0])) {
			articled[i] = "an " + titles[i]
		}
	}
	f := &finding.Finding{Code: finding.SheetIgnored, Severity: finding.Error, Cells: finding.At(cell.Place{Sheet: sheet})}
	f.Message = fmt.Sprintf("the sheet %q is not read, as its name does not begin with a kind of sheet, and it looks like %s sheet",
		sheet.Name, strings.Join(articled, " or "))
	it, ending := "it", ""
	if sheets.Separated(sheet.File) {
		it, ending = "the file", path.Ext(sheet.File)
	}
	f.Fix = fmt.Sprintf("rename %s, to %s; or put _ before its name if it does not belong to the catalogue: %q",
		it, renamed(sheet.Name, titles, taken, ending), "_"+sheet.Name+ending)
	return f
}

// renamed gives the names under which a sheet would be read. One that another sheet of the
// workbook has is none: it gets a number, as names of sheets differ within a workbook. ending is
// that of a file which is renamed with its sheet.
func renamed(name string, titles, taken []string, ending string) string {
	out := make([]string, len(titles))
	for i, title := range titles {
		rest := strings.FieldsFunc(name, func(r rune) bool { return r == ' ' || r == '_' || r == '-' || r == '.' })
		rest = slices.DeleteFunc(rest, func(w string) bool {
			return strings.EqualFold(w, "of") || strings.EqualFold(w, title) || likeness(letters(w), strings.ToLower(title)) == alike
		})
		out[i] = fmt.Sprintf("%q", free(strings.TrimSpace(title+" "+strings.Join(rest, " ")), taken)+ending)
	}
	return strings.Join(out, " or ")
}

// free gives a name, with the first number from 2 behind it where others have it.
func free(name string, taken []string) string {
	has := func(s string) bool {
		return slices.ContainsFunc(taken, func(t string) bool { return strings.EqualFold(t, s) })
	}
	out := name
	for n := 2; has(out); n++ {
		out = fmt.Sprintf("%s %d", name, n)
	}
	return out
}
