package aid

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"ferrule/compiler/intake/seal"
	"ferrule/out/patch"
	"ferrule/sheets/cell"
)

// The hidden sheet of lists: what it is, its seal, the heads, and a list below each.
const (
	headRow  = 3
	listRow  = 4
	listInk  = "5B6770"
	listWide = 24
	listSays = "Names that other workbooks declare, for lists to pick from. Nothing here is read; ferrule new --from makes it anew."
)

// listed gives the range of a list in the hidden sheet.
func (w *work) listed(l *list) string {
	i := slices.Index(w.lists, l)
	if i < 0 {
		i = len(w.lists)
		w.lists = append(w.lists, l)
	}
	col := cell.Column(int32(i + 1))
	return fmt.Sprintf("'%s'!$%[2]s$%[3]d:$%[2]s$%[4]d", w.listSheet(), col, listRow, listRow+len(l.names)-1)
}

// listSheet is what the hidden sheet is called.
func (w *work) listSheet() string {
	taken := map[string]bool{}
	for _, s := range w.book.Sheets() {
		taken[strings.ToLower(s.Name)] = true
	}
	name := seal.Names
	for n := 2; taken[strings.ToLower(name)]; n++ {
		name = seal.Names + " " + strconv.Itoa(n)
	}
	return name
}

// hidden makes the sheet of the lists that were asked for, nil for none.
func (w *work) hidden() *patch.Sheet {
	if len(w.lists) == 0 {
		return nil
	}
	s := &patch.Sheet{Name: w.listSheet(), Hidden: true, Colour: listInk}
	s.Rows = [][]patch.Text{{{Text: listSays}}, {{Text: "?"}}, nil}
	for col, l := range w.lists {
		s.Widths = append(s.Widths, listWide)
		s.Rows[headRow-1] = append(s.Rows[headRow-1], patch.Text{Text: l.head, Role: patch.Head})
		for i, name := range l.names {
			for len(s.Rows) < listRow+i {
				s.Rows = append(s.Rows, make([]patch.Text, len(w.lists)))
			}
			s.Rows[listRow-1+i][col].Text = name
		}
	}
	s.Rows[seal.At.Row-1][seal.At.Col-1].Text = seal.List(func(yield func(cell.Pos, string)) {
		for r, row := range s.Rows {
			for c, t := range row {
				yield(cell.Pos{Row: int32(r + 1), Col: int32(c + 1)}, t.Text)
			}
		}
	})
	return s
}
