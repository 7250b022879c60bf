package shape

import (
	"slices"

	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// Table is one table on a sheet.
type Table struct {
	Head, HeadEnd int32 // its rows of headings, both 0 where it has none
	First, Last   int32 // its rows below the headings, sections and totals included
	Columns       []Column
	Titles        []Line // above the headings
	Sections      []Line // rows that say one thing for the rows below
	Totals        []Line
	Repeats       []Line // rows that repeat the headings
	Foot          []Line // below the table
	rows          []*Row // of values
}

// Line is a text that stands alone in its row, or begins one that is no row of values.
type Line struct {
	Pos    cell.Pos
	Text   string
	Merged bool
}

// Rows is how many rows of values the table has.
func (t *Table) Rows() int { return len(t.rows) }

// Each gives the rows of values, in order.
func (t *Table) Each(yield func(r *Row) bool) {
	for _, r := range t.rows {
		if !yield(r) {
			return
		}
	}
}

// At gives what stands in a column of a row.
func (r *Row) At(col int32) string { return r.at(col) }

// Between gives the rows of values from one to another as a table of their own, under the same headings.
func (t *Table) Between(first, last int32) *Table {
	out := *t
	out.First, out.Last, out.rows, out.Columns = first, last, nil, nil
	for _, r := range t.rows {
		if r.Number >= first && r.Number <= last {
			out.rows = append(out.rows, r)
		}
	}
	for _, c := range t.Columns {
		out.Columns = append(out.Columns, Column{Col: c.Col, Heads: c.Heads})
	}
	out.count()
	return &out
}

// maxHead is how many rows of headings a table may have.
const maxHead = 3

// Known tells of a text whether it is a usual heading.
type Known func(text string) bool

// Tables finds the tables of a sheet, from the top down and from left to right.
func (s *Sheet) Tables(known Known) []*Table {
	var out []*Table
	for i := 0; i < len(s.Rows); {
		head := s.findHead(i, known)
		if head < 0 {
			break
		}
		end := s.headEnd(head, known)
		next := s.bodyEnd(head, end, known)
		out = append(out, s.cut(i, head, end, next, known)...)
		i = next
	}
	return out
}

// findHead gives the index of the first row from one on that looks like headings; -1 for none.
func (s *Sheet) findHead(from int, known Known) int {
	for i := from; i < len(s.Rows)-1; i++ {
		if s.headLike(i, known) {
			return i
		}
	}
	return -1
}

// headEnd gives the index of the last row of headings that begin in a row.
func (s *Sheet) headEnd(head int, known Known) int {
	end := head
	for end-head+1 < maxHead && end+2 < len(s.Rows) {
		this, next := &s.Rows[end], &s.Rows[end+1]
		if next.Number != this.Number+1 || !yearsHeads(next) && (!s.groups(this, next) || !s.headLike(end+1, known)) {
			break
		}
		end++
	}
	return end
}

// yearsHeads tells a row of nothing but years, which stands over columns and is no row of values.
func yearsHeads(row *Row) bool {
	for _, c := range row.Cells {
		if !IsYears(c.Text) {
			return false
		}
	}
	return len(row.Cells) > 1
}

// groups tells whether a row of headings has others below it: some reach over several columns, or it
// fills clearly fewer.
func (s *Sheet) groups(row, below *Row) bool {
	for _, c := range row.Cells {
		if s.Merged(row.Number, c.Col) || s.deep(row.Number, c.Col) > row.Number {
			return true
		}
	}
	return len(row.Cells) >= 2 && len(row.Cells)*3 <= len(below.Cells)*2
}

// bodyEnd gives the index of the first row that is none of the table's any more: one of other
// headings, or of what stands above them.
func (s *Sheet) bodyEnd(head, end int, known Known) int {
	heads := s.Rows[head]
	gap := len(s.Rows)
	for i := end + 1; i < len(s.Rows); i++ {
		row := &s.Rows[i]
		if row.Number > s.Rows[i-1].Number+1 || len(s.Rows[i-1].Cells) == 1 && gap == i-1 {
			gap = i // a title may stand above the next headings
			if len(s.Rows[i-1].Cells) == 1 && row.Number == s.Rows[i-1].Number+1 {
				gap = i - 1
			}
		}
		if gap > i || same(row, &heads) || len(row.Cells) < 2 || !s.headLike(i, known) {
			continue
		}
		return min(gap, i)
	}
	return len(s.Rows)
}

// same tells whether a row repeats headings.
func same(row, heads *Row) bool {
	if len(row.Cells) != len(heads.Cells) {
		return false
	}
	for i, c := range row.Cells {
		if c.Col != heads.Cells[i].Col || word.Fold(c.Text) != word.Fold(heads.Cells[i].Text) {
			return false
		}
	}
	return true
}

// cut makes the tables of a run of rows: several where columns that hold nothing part them.
func (s *Sheet) cut(from, head, end, next int, known Known) []*Table {
	var out []*Table
	runs := s.runs(head, end, next, known)
	for _, run := range runs {
		t := &Table{Head: s.Rows[head].Number, HeadEnd: s.Rows[end].Number}
		within := func(c Cell) bool { return c.Col >= run[0] && c.Col <= run[1] }
		t.lines(s, from, head, end, next, within)
		t.columns(s, run, head, end)
		if len(t.Columns) > 0 && len(t.rows) > 0 {
			out = append(out, t)
		}
	}
	return out
}

// runs gives the first and the last column of each table of a run of rows.
func (s *Sheet) runs(head, end, next int, known Known) [][2]int32 {
	filled := map[int32]bool{}
	for i := head; i < next; i++ {
		if len(s.Rows[i].Cells) > 1 {
			for _, c := range s.Rows[i].Cells {
				first, last := s.span(s.Rows[i].Number, c.Col)
				for col := first; col <= min(last, first+1000); col++ {
					filled[col] = true
				}
			}
		}
	}
	cols := make([]int32, 0, len(filled))
	for col := range filled {
		cols = append(cols, col)
	}
	slices.Sort(cols)
	var out [][2]int32
	for _, col := range cols {
		if n := len(out); n > 0 && out[n-1][1] == col-1 {
			out[n-1][1] = col
		} else {
			out = append(out, [2]int32{col, col})
		}
	}
	return s.joined(out, end, known)
}

// joined joins runs of columns that are no tables of their own: those of one column, and those of
// which no heading stands in another as well or is a usual one.
func (s *Sheet) joined(runs [][2]int32, end int, known Known) [][2]int32 {
	var out [][2]int32
	for _, run := range runs {
		alone := run[1] > run[0]
		usual := 0
		for col := run[0]; alone && col <= run[1]; col++ {
			if text := s.Rows[end].at(col); text != "" && known(text) {
				usual++
			}
		}
		if n := len(out); n > 0 && (!alone || usual == 0) {
			out[n-1][1] = run[1]
		} else {
			out = append(out, run)
		}
	}
	return out
}
