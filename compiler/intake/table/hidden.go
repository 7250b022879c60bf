package table

import (
	"fmt"
	"strings"

	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// hidden notes what a spreadsheet program does not show of a sheet that is read.
func (r *reader) hidden(info sheets.Info, trailer *sheets.Trailer) {
	var what, gist []string
	if info.Visibility != sheets.Visible {
		what, gist = append(what, "the sheet is hidden"), append(gist, "the sheet")
	}
	if n := trailer.HiddenRows; n > 0 {
		what = append(what, fmt.Sprintf("%s hidden%s%s", plural(n, "row is", "rows are"), filtered(trailer), r.unseen.which()))
		gist = append(gist, "rows"+filtered(trailer))
	}
	if n := len(trailer.HiddenCols); n > 0 {
		names := make([]string, n)
		for i, c := range trailer.HiddenCols {
			if names[i] = cell.Column(c.From.Col); c.To.Col > c.From.Col {
				names[i] += " to " + cell.Column(c.To.Col)
			}
		}
		what, gist = append(what, "hidden columns: "+strings.Join(names, ", ")), append(gist, "columns")
	}
	if len(what) == 0 {
		return
	}
	r.report(&Fault{What: Hidden,
		Message:  strings.Join(what, "; ") + "; all of it is read like the rest",
		Constant: "hidden, and read like the rest: " + strings.Join(gist, ", "),
		Cells:    []cell.Place{{Sheet: r.sheet}}})
}

// maxStretches is how many stretches of hidden rows a note names.
const maxStretches = 5

// stretches are the hidden rows that hold something, as stretches of rows that follow one
// another; the first of them by number.
type stretches struct {
	first []stretch
	more  int // rows of the others
	open  bool
}

type stretch struct{ from, to int32 }

func (s *stretches) add(row int32) {
	switch {
	case !s.open && len(s.first) < maxStretches:
		s.first = append(s.first, stretch{row, row})
	case s.open && s.more == 0:
		s.first[len(s.first)-1].to = row
	default:
		s.more++
	}
	s.open = true
}

// end says that a row that is shown has come.
func (s *stretches) end() { s.open = false }

// which names the hidden rows that hold something, in brackets.
func (s *stretches) which() string {
	var names []string
	for _, h := range s.first {
		if h.from == h.to {
			names = append(names, fmt.Sprint(h.from))
			continue
		}
		names = append(names, fmt.Sprintf("%d to %d", h.from, h.to))
	}
	more := s.more
	if more > 0 {
		names = append(names, fmt.Sprintf("%d more", more))
	}
	switch {
	case len(names) == 0:
		return ""
	case len(names) == 1 && !strings.Contains(names[0], " "):
		return " (row " + names[0] + ")"
	}
	return " (rows " + strings.Join(names, ", ") + ")"
}

func filtered(t *sheets.Trailer) string {
	if t.Filtered {
		return " by a filter"
	}
	return ""
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
