package shape

import (
	"strings"

	"ferrule/schema/word"
)

// below is how many rows under a row are looked at to tell whether it is one of headings.
const below = 40

// headLike tells whether a row looks like headings of the rows under it: its cells are of another
// class than what stands below them, or usual headings, and few columns lack one.
func (s *Sheet) headLike(i int, known Known) bool {
	row := &s.Rows[i]
	if len(row.Cells) < 2 || len(row.Cells) == 2 && strings.HasSuffix(row.Cells[0].Text, ":") {
		return false // one cell alone, or a text and what it is called
	}
	under := s.under(i)
	if len(under) == 0 {
		return false
	}
	score, of, usual, told := 0.0, 0.0, 0, false
	covered := map[int32]bool{}
	for _, c := range row.Cells {
		first, last := s.span(row.Number, c.Col)
		for col := first; col <= min(last, first+1000); col++ {
			covered[col] = true
		}
		if known(c.Text) {
			usual++
		}
		points, strong := s.unlike(c, first, last, under, known)
		score, of, told = score+points, of+1, told || strong
	}
	if of == 0 || score/of < 0.5 || !told && usual == 0 {
		return false
	}
	return uncovered(under, covered)
}

// under gives the rows that stand below one, without those that hold a single cell, up to the next that
// has headings of it again.
func (s *Sheet) under(i int) []*Row {
	var out []*Row
	for j := i + 1; j < len(s.Rows) && len(out) < below; j++ {
		row := &s.Rows[j]
		if len(out) > 0 && row.Number > s.Rows[j-1].Number+1 && again(row, &s.Rows[i]) || len(out) > 0 && s.again(j, i) {
			break
		}
		if len(row.Cells) > 1 && !same(row, &s.Rows[i]) {
			out = append(out, row)
		}
	}
	return out
}

// again tells whether two rows say the same in at least half of their columns.
func again(row, heads *Row) bool {
	n := 0
	for _, c := range row.Cells {
		if word.Fold(heads.at(c.Col)) == word.Fold(c.Text) {
			n++
		}
	}
	return n >= 2 && n*2 >= len(heads.Cells)
}

// again tells whether a row has the headings of another again, below a row with a single cell.
func (s *Sheet) again(j, i int) bool {
	return len(s.Rows[j-1].Cells) == 1 && again(&s.Rows[j], &s.Rows[i])
}

// unlike tells how little a cell is like what stands below it, from -1 to 1, and whether that is of
// a class that no heading has.
func (s *Sheet) unlike(c Cell, first, last int32, under []*Row, known Known) (points float64, strong bool) {
	if ClassOf(c.Text) == Prose || ClassOf(c.Text) == Mark && !known(c.Text) {
		return -1, false
	}
	var counts [classes]int
	n, again := 0, false
	for _, r := range under {
		for col := first; col <= min(last, first+1000); col++ {
			if text := r.at(col); text != "" {
				base, _ := Sign(text)
				counts[ClassOf(base)]++
				n++
				again = again || word.Fold(text) == word.Fold(c.Text)
			}
		}
	}
	switch own := ClassOf(c.Text); {
	case again:
		return -1, false
	case known(c.Text):
		return 1, false
	case n == 0:
		return 0.5, false
	case own == Years && counts[Years]*2 > n, own == Code && (counts[Code]+counts[Codes])*2 > n, own == Number && counts[Number]*2 > n,
		own == Size && counts[Size]*2 > n, own == Codes:
		return -1, false
	case counts[Words]*10 < n*4 && own != Number:
		return 1, true
	}
	return 0.6, false
}

// uncovered tells whether at most a third of the columns that are filled below lack a heading.
func uncovered(under []*Row, covered map[int32]bool) bool {
	filled := map[int32]bool{}
	without := 0
	for _, r := range under {
		for _, c := range r.Cells {
			if !filled[c.Col] {
				filled[c.Col] = true
				if !covered[c.Col] {
					without++
				}
			}
		}
	}
	return without*3 <= len(filled)
}
