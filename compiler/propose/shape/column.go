package shape

import (
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// Column is a column of a table.
type Column struct {
	Col    int32
	Heads  []string // its headings from the top down, one for each row of them; "" for none
	Filled int      // cells of rows of values that hold something
	Values []Value  // what they say, each once, in order; at most MaxValues
	counts [classes]int
}

// Value is a text that cells of a column say.
type Value struct {
	Text string
	N    int      // how many cells say it
	At   cell.Pos // the first of them
}

// MaxValues is how many different texts of a column are kept.
const MaxValues = 20_000

// columns looks at the columns of a table.
func (t *Table) columns(s *Sheet, run [2]int32, head, end int) {
	heads := headings(s, run, head, end)
	for col := run[0]; col <= min(run[1], run[0]+16_384); col++ {
		if texts, ok := heads[col]; ok {
			t.Columns = append(t.Columns, Column{Col: col, Heads: texts})
		} else if t.filled(col) {
			t.Columns = append(t.Columns, Column{Col: col, Heads: make([]string, end-head+1)})
		}
	}
	t.count()
}

// count counts what stands in the columns.
func (t *Table) count() {
	at, seen := map[int32]int{}, make([]map[string]int, len(t.Columns))
	for i, c := range t.Columns {
		at[c.Col], seen[i] = i, map[string]int{}
	}
	for _, r := range t.rows {
		for _, c := range r.Cells {
			if i, ok := at[c.Col]; ok {
				t.Columns[i].take(c, cell.Pos{Row: r.Number, Col: c.Col}, seen[i])
			}
		}
	}
}

func (t *Table) filled(col int32) bool {
	for _, r := range t.rows {
		if r.at(col) != "" {
			return true
		}
	}
	return false
}

// take counts a cell.
func (c *Column) take(from Cell, at cell.Pos, seen map[string]int) {
	c.Filled++
	base, _ := Sign(from.Text)
	c.counts[ClassOf(base)]++
	folded := word.Fold(from.Text)
	if i, ok := seen[folded]; ok {
		c.Values[i].N++
		return
	}
	if len(c.Values) < MaxValues {
		seen[folded] = len(c.Values)
		c.Values = append(c.Values, Value{from.Text, 1, at})
	}
}

// headings gives the headings over each column, those of merged cells over all that they reach.
// Where there are several rows and none is merged, one reaches to the next beside it.
func headings(s *Sheet, run [2]int32, head, end int) map[int32][]string {
	out := map[int32][]string{}
	depth := end - head + 1
	put := func(col int32, level int, text string) {
		if col < run[0] || col > run[1] {
			return
		}
		if out[col] == nil {
			out[col] = make([]string, depth)
		}
		out[col][level] = text
	}
	for level := range depth {
		row := &s.Rows[head+level]
		for _, c := range row.Cells {
			first, last := s.span(row.Number, c.Col)
			for col := first; col <= min(last, first+16_384); col++ {
				put(col, level, c.Text)
			}
		}
	}
	reach(out, run, depth)
	return out
}

// reach lets a heading reach over the columns behind it that have none of its row, but one below it.
func reach(heads map[int32][]string, run [2]int32, depth int) {
	for level := range depth - 1 {
		last := ""
		for col := run[0]; col <= min(run[1], run[0]+16_384); col++ {
			switch texts := heads[col]; {
			case texts == nil:
				last = ""
			case texts[level] != "":
				if last = texts[level]; texts[depth-1] == "" {
					last = "" // it stands alone over its own column
				}
			case last != "" && texts[depth-1] != "":
				texts[level] = last
			}
		}
	}
}

// Share tells how much of what the column holds is of one of some classes, from 0 to 1.
func (c *Column) Share(of ...Class) float64 {
	if c.Filled == 0 {
		return 0
	}
	n := 0
	for _, class := range of {
		n += c.counts[class]
	}
	return float64(n) / float64(c.Filled)
}

// Head gives the lowest heading of the column, "" for none.
func (c *Column) Head() string {
	for i := len(c.Heads) - 1; i >= 0; i-- {
		if c.Heads[i] != "" {
			return c.Heads[i]
		}
	}
	return ""
}
