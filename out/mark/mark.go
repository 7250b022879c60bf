// Package mark makes copies of workbooks in which findings are marked: cells filled by severity, with
// notes that say what is wrong and what to write, and a sheet that lists all findings of the workbook.
package mark

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/seal"
	"ferrule/out/patch"
	"ferrule/out/visible"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// Book is a workbook with what was found in it.
type Book struct {
	Name     string // as findings call it
	Findings []*finding.Finding
}

// Books gives the workbooks of those names in which something stands that nobody has accepted, in
// their order. What is about no workbook is listed with the first.
func Books(names []string, fs []*finding.Finding) []*Book {
	by := map[string]*Book{}
	for _, n := range names {
		by[n] = &Book{Name: n}
	}
	for _, f := range fs {
		if f.Accepted != nil || f.Known {
			continue
		}
		files := filesOf(f, by)
		if len(files) == 0 && len(names) > 0 {
			files = names[:1]
		}
		for _, n := range files {
			by[n].Findings = append(by[n].Findings, f)
		}
	}
	var out []*Book
	for _, n := range names {
		if len(by[n].Findings) > 0 {
			out = append(out, by[n])
		}
	}
	return out
}

// filesOf lists the workbooks of a finding's cells, each once.
func filesOf(f *finding.Finding, by map[string]*Book) []string {
	var out []string
	for _, c := range f.Cells {
		if c.Sheet != nil && by[c.Sheet.File] != nil && !slices.Contains(out, c.Sheet.File) {
			out = append(out, c.Sheet.File)
		}
	}
	return out
}

// Marked is a copy with what was done in it.
type Marked struct {
	*patch.Copy
	Cells  int // that are filled and have a note
	Listed int // findings in the sheet
	Left   int // findings beyond what a sheet lists
}

// How much is marked of one workbook: what is beyond is told.
const (
	mostCells = 10_000
	mostRows  = 20_000
)

// Markable tells whether files of its format can be marked.
func (b *Book) Markable() bool { return !sheets.Separated(b.Name) }

// Copy makes the copy. The error says why there is none.
func (b *Book) Copy(src []byte) (*Marked, error) {
	if slices.ContainsFunc(b.Findings, func(f *finding.Finding) bool { return f.Code == finding.MarksIgnored && b.first(f) != nil }) {
		return nil, &patch.Refusal{Why: "it is a marked copy already; mark the workbook that it was made from"}
	}
	if !b.Markable() {
		return nil, &patch.Refusal{Why: "a text file has no fills and no notes; ferrule check lists what was found in it"}
	}
	book, err := sheets.Read(bytes.NewReader(src), int64(len(src)))
	if err != nil {
		return nil, err
	}
	spots := b.spots(book)
	out := &Marked{Cells: len(spots), Listed: min(len(b.Findings), mostRows)}
	out.Left = len(b.Findings) - out.Listed
	c := patch.Change{Sheet: b.list(book)}
	for _, s := range spots {
		c.Cells = append(c.Cells, patch.Cell{Sheet: s.sheet, At: s.at, Fill: fillOf(s.worst), Note: s.note})
	}
	out.Copy, err = patch.Apply(src, c)
	if err != nil {
		return nil, err
	}
	return out, nil
}

func fillOf(s finding.Severity) string {
	switch s {
	case finding.Error:
		return seal.ErrorFill
	case finding.Warning:
		return seal.WarningFill
	}
	return seal.NoteFill
}

// spot is a cell with what is said of it.
type spot struct {
	sheet int
	at    cell.Pos
	worst finding.Severity
	said  []string
}

// spots gathers the cells of the workbook that findings name, those of the gravest first.
func (b *Book) spots(book *sheets.Book) []*spot {
	index := map[string]int{}
	for i, s := range book.Sheets() {
		index[s.Name] = i
	}
	type key struct {
		sheet int
		at    cell.Pos
	}
	by := map[key]*spot{}
	var out []*spot
	for _, f := range b.Findings {
		told := map[key]bool{}
		for i, c := range f.Cells {
			if c.Sheet == nil || c.Sheet.File != b.Name || c.Pos == (cell.Pos{}) {
				continue
			}
			sheet, ok := index[c.Sheet.Name]
			k := key{sheet, c.Pos}
			if !ok || told[k] {
				continue
			}
			told[k] = true
			s := by[k]
			if s == nil {
				if len(out) == mostCells {
					continue
				}
				s = &spot{sheet: sheet, at: c.Pos}
				by[k], out = s, append(out, s)
			}
			s.worst = max(s.worst, f.Severity)
			s.said = append(s.said, b.sentence(f, i))
		}
	}
	return out
}

// mostNote bounds a note, in characters, and mostText what a cell of the list says.
const (
	mostNote = 4_000
	mostText = 8_000
)

// note seals what is said of the cell.
func (s *spot) note(own string) string {
	text := seal.Opens
	for i, said := range s.said {
		if utf8.RuneCountInString(text)+utf8.RuneCountInString(said) > mostNote {
			text += fmt.Sprintf("\nand %d more, which the sheet %s lists", len(s.said)-i, seal.Sheet)
			break
		}
		text += "\n" + said
	}
	return seal.Note(text, line(own))
}

// sentence says of the cell of that index what a finding is about.
func (b *Book) sentence(f *finding.Finding, i int) string {
	c := f.Cells[i]
	said := strings.ToUpper(f.Severity.String()) + " " + string(f.Code) + ": "
	if first := b.first(f); i > 0 && first != nil && c.Place != *first {
		if c.Note != "" {
			said += c.Note + "; "
		}
		return line(said + "see " + first.Beside(c.Place) + ": " + f.Message)
	}
	if c.Note != "" {
		said += c.Note + "; "
	}
	said += f.Message
	if f.Fix != "" {
		said += ". What to do: " + f.Fix
	}
	return line(said)
}

// first gives the first cell of a finding in the workbook, nil for none.
func (b *Book) first(f *finding.Finding) *cell.Place {
	for i := range f.Cells {
		if p := &f.Cells[i].Place; p.Sheet != nil && p.Sheet.File == b.Name {
			return p
		}
	}
	return nil
}

// line gives a text on one line, with everything visible, cut where it is beyond reading.
func line(s string) string {
	s = visible.Text(strings.Join(strings.Fields(s), " "))
	if utf8.RuneCountInString(s) > mostText {
		s = string([]rune(s)[:mostText]) + " …"
	}
	return s
}
