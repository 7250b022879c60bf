package shape

import (
	"strings"

	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// lines sorts the rows of a table: what stands above, values, sections, totals, repeated headings
// and what stands below.
func (t *Table) lines(s *Sheet, from, head, end, next int, within func(Cell) bool) {
	for i := from; i < head; i++ {
		t.Titles = append(t.Titles, s.linesOf(&s.Rows[i], within)...)
	}
	keys := keyColumns(s.Rows[end+1:next], within)
	var single []Line // that may be sections or stand below the table
	for i := end + 1; i < next; i++ {
		row := narrowed(&s.Rows[i], within)
		if len(row.Cells) == 0 {
			continue
		}
		line := Line{cell.Pos{Row: row.Number, Col: row.Cells[0].Col}, row.Cells[0].Text, s.Merged(row.Number, row.Cells[0].Col)}
		switch {
		case repeats(row, &s.Rows[head], &s.Rows[end], within):
			t.Repeats = append(t.Repeats, line)
		case total(row):
			t.Totals = append(t.Totals, line)
		case len(row.Cells) == 1 && !keys[keyOf(row.Cells[0])]:
			single = append(single, line)
		default:
			t.Sections, single = append(t.Sections, single...), nil
			t.rows = append(t.rows, row)
			continue
		}
	}
	t.Foot = single
	if n := len(t.rows); n > 0 {
		t.First, t.Last = t.rows[0].Number, t.rows[n-1].Number
		if len(t.Sections) > 0 {
			t.First = min(t.First, t.Sections[0].Pos.Row)
		}
	}
	t.settleFoot()
}

// settleFoot moves what explains a sign from sections to the foot: notes may stand between rows.
func (t *Table) settleFoot() {
	var sections []Line
	for _, l := range t.Sections {
		if _, _, ok := Footnote(l.Text); ok || ClassOf(l.Text) == Prose {
			t.Foot = append(t.Foot, l)
		} else {
			sections = append(sections, l)
		}
	}
	t.Sections = sections
}

// linesOf gives the texts of a row, each as a line.
func (s *Sheet) linesOf(r *Row, within func(Cell) bool) []Line {
	var out []Line
	for _, c := range r.Cells {
		if within(c) {
			out = append(out, Line{cell.Pos{Row: r.Number, Col: c.Col}, c.Text, s.Merged(r.Number, c.Col)})
		}
	}
	return out
}

// narrowed gives a row as far as it is within a table.
func narrowed(r *Row, within func(Cell) bool) *Row {
	out := &Row{Number: r.Number}
	for i, c := range r.Cells {
		if within(c) {
			if len(out.Cells) == 0 && len(r.Cells) > 0 && within(r.Cells[len(r.Cells)-1]) {
				out.Cells = r.Cells[i:]
				return out
			}
			out.Cells = append(out.Cells, c)
		}
	}
	return out
}

func repeats(row, first, last *Row, within func(Cell) bool) bool {
	return same(row, narrowed(first, within)) || same(row, narrowed(last, within))
}

// total tells rows that add others up by their first cell.
func total(r *Row) bool {
	first := strings.TrimRight(word.Fold(r.Cells[0].Text), " :")
	for _, w := range []string{"total", "sum", "subtotal", "sub-total", "grand total", "sum total"} {
		if first == w {
			return true
		}
	}
	return strings.HasPrefix(first, "total ") && len(r.Cells) > 1 && ClassOf(r.Cells[len(r.Cells)-1].Text) == Number
}

// key is a column with a class that nearly all of its cells have.
type key struct {
	col   int32
	class Class
}

func keyOf(c Cell) key {
	base, _ := Sign(c.Text)
	class := ClassOf(base)
	if class == Codes {
		class = Code
	}
	return key{c.Col, class}
}

// keyColumns tells which columns hold codes, so that a row that holds nothing but one is a row of
// values and no section.
func keyColumns(rows []Row, within func(Cell) bool) map[key]bool {
	counts, filled := map[key]int{}, map[int32]int{}
	for i := range rows {
		if len(rows[i].Cells) < 2 {
			continue
		}
		for _, c := range rows[i].Cells {
			if within(c) {
				counts[keyOf(c)]++
				filled[c.Col]++
			}
		}
	}
	out := map[key]bool{}
	for k, n := range counts {
		if k.class != Words && k.class != Prose && n*10 >= filled[k.col]*7 {
			out[k] = true
		}
	}
	return out
}
