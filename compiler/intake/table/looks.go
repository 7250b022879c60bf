package table

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/schema/word"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// looks watches how cells below the header are coloured. Nothing of it is read, so that a
// colour with a meaning is told; a column of one colour has none, nor have stripes by rows.
type looks struct {
	columns []tint // by column
	stripes stripes
}

// tint is the colours of one column.
type tint struct {
	cells int
	by    []shade
	off   shade // cells that are not coloured as most of their row is
}

// shade is cells of one look: the first few, and how many.
type shade struct {
	look  uint8
	first []cell.Pos
	cells int
}

// mostTinted is how many cells of a look are named.
const mostTinted = 20

func (s *shade) add(at cell.Pos) {
	if s.cells++; len(s.first) < mostTinted {
		s.first = append(s.first, at)
	}
}

// row takes the filled cells of a row below the header.
func (l *looks) row(number int32, cells []sheets.Cell) {
	usual, lead := uint8(0), 0 // of most of the row, by majority vote
	for i := range cells {
		if !filledIn(&cells[i].Value) {
			continue
		}
		switch look := cells[i].Look; {
		case lead == 0:
			usual, lead = look, 1
		case look == usual:
			lead++
		default:
			lead--
		}
	}
	l.stripes.row(usual)
	for i := range cells {
		c := &cells[i]
		if !filledIn(&c.Value) {
			continue
		}
		for int(c.Col) >= len(l.columns) {
			l.columns = append(l.columns, tint{})
		}
		t := &l.columns[c.Col]
		t.cells++
		at := cell.Pos{Row: number, Col: c.Col}
		if c.Look != usual {
			t.off.add(at)
		}
		t.add(c.Look, at)
	}
}

func (t *tint) add(look uint8, at cell.Pos) {
	i := slices.IndexFunc(t.by, func(s shade) bool { return s.look == look })
	if i < 0 {
		i = len(t.by)
		t.by = append(t.by, shade{look: look})
	}
	t.by[i].add(at)
}

// marked gives the cells that are coloured otherwise than most of their column; where rows
// are striped, those that break the stripes.
func (t *tint) marked(striped bool) shade {
	switch {
	case len(t.by) < 2:
		return shade{}
	case striped && t.off.cells < t.cells:
		return t.off
	case striped:
		return shade{}
	}
	usual := t.by[0]
	for _, s := range t.by {
		if s.cells > usual.cells || s.cells == usual.cells && s.look == 0 {
			usual = s
		}
	}
	var out shade
	for _, s := range t.by {
		if s.look != usual.look {
			out.cells += s.cells
			out.first = append(out.first, s.first...)
		}
	}
	slices.SortFunc(out.first, cell.ComparePos)
	return out
}

// stripes finds out whether rows are coloured by turns: two looks, each over as many rows
// as the other, time and again.
type stripes struct {
	looks  [2]uint8
	now    int // index of the look of this stretch
	length int // of this stretch
	each   int // of the first one
	turns  int // stretches that are done
	broken bool
}

func (s *stripes) row(look uint8) {
	switch {
	case s.length == 0:
		s.looks[0], s.length = look, 1
	case look == s.looks[s.now]:
		s.length++
		s.broken = s.broken || s.turns > 0 && s.length > s.each
	default:
		if s.turns == 0 {
			s.looks[1], s.each = look, s.length
		}
		s.broken = s.broken || s.length != s.each || look != s.looks[1-s.now]
		s.now, s.length, s.turns = 1-s.now, 1, s.turns+1
	}
}

// regular asks for two of each kind at the least: less may be a meaning.
func (s *stripes) regular() bool { return !s.broken && s.turns >= 3 }

// coloured notes the cells of a sheet whose colour may mean something.
func (r *reader) coloured() {
	if r.looks == nil {
		return
	}
	var at []cell.Pos
	var names []string
	n := 0
	for _, c := range r.table.Columns {
		if int(c.At.Col) >= len(r.looks.columns) {
			continue
		}
		if m := r.looks.columns[c.At.Col].marked(r.looks.stripes.regular()); m.cells > 0 {
			n += m.cells
			at = append(at, m.first...)
			names = append(names, c.Name)
		}
	}
	if n == 0 {
		return
	}
	slices.SortFunc(at, cell.ComparePos)
	// Of a row that is coloured as a whole its first cell is enough.
	at = slices.CompactFunc(at, func(a, b cell.Pos) bool { return a.Row == b.Row })
	r.report(&Fault{What: Coloured,
		Message: fmt.Sprintf("%s a colour, under %s, and others above or below %s have not; only texts are read, so the colour says nothing here",
			plural(n, "cell has", "cells have"), word.List(names, "and"), pronoun(n)),
		Constant: "a fill or a colour of type marks some cells under " + strings.Join(names, ", "),
		Cells:    r.places(at),
		Fix:      "write what the colour means into a column (Status, Note) or into the cells; if it means nothing, take it away"})
}

// commented notes the cells of a sheet that have a comment.
func (r *reader) commented(at []cell.Pos, n int) {
	if n == 0 {
		return
	}
	r.report(&Fault{What: Commented,
		Message:  fmt.Sprintf("%s a comment; only the texts of cells are read, so what it says counts for nothing here", plural(n, "cell has", "cells have")),
		Constant: "cells have comments, which are not read",
		Cells:    r.places(at),
		Fix:      "write an exception into the sheet: a row with conditions, a Note, or ask and what to find out"})
}

// places gives the first few positions as places.
func (r *reader) places(at []cell.Pos) []cell.Place {
	var out []cell.Place
	for _, p := range at[:min(len(at), mostTinted)] {
		out = append(out, cell.Place{Sheet: r.sheet, Pos: p})
	}
	return out
}

func pronoun(n int) string {
	if n == 1 {
		return "it"
	}
	return "them"
}
