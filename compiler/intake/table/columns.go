package table

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"ferrule/schema/word"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// columns knows where a sheet's columns are.
type columns struct {
	index   map[int32]int  // sheet column to Table.Columns; -1 and less: a name that stood before, as an index into Table.Again
	near    []int          // the same for the first columns, as most sheets have no others; unheaded: none
	stray   []cell.Pos     // the first value of each column without a header
	strayed map[int32]bool // those columns

	// The row at hand, by column; used again for every row.
	fields  []Field
	filled  []bool
	touched []int // those that are filled
	out     []Field
}

// nearest is how many columns are found without a map.
const nearest = 64

// at gives the index of a sheet's column; -1 and less where its name stood before.
func (c *columns) at(col int32) (int, bool) {
	if int(col) >= len(c.near) {
		i, ok := c.index[col]
		return i, ok
	}
	i := c.near[col]
	return i, i != unheaded
}

// unheaded stands for a column without a header.
const unheaded = math.MinInt

// indexed readies what at looks into.
func (c *columns) indexed() *columns {
	c.near = make([]int, nearest)
	for col := range c.near {
		i, ok := c.index[int32(col)]
		if !ok {
			i = unheaded
		}
		c.near[col] = i
	}
	return c
}

func (c *columns) begin(n int) {
	if len(c.fields) != n {
		c.fields, c.filled, c.out = make([]Field, n), make([]bool, n), make([]Field, 0, n)
	}
	for _, i := range c.touched {
		c.filled[i] = false
	}
	c.touched = c.touched[:0]
}

func (c *columns) put(i int, f Field) {
	if !c.filled[i] {
		c.filled[i] = true
		c.touched = append(c.touched, i)
	}
	c.fields[i] = f
}

// end gives the filled fields in the order of the columns, good until the next begin.
func (c *columns) end() []Field {
	if len(c.touched) == len(c.fields) {
		return c.fields
	}
	slices.Sort(c.touched)
	c.out = c.out[:0]
	for _, i := range c.touched {
		c.out = append(c.out, c.fields[i])
	}
	return c.out
}

func (c *columns) unheaded(at cell.Pos) {
	if c.strayed[at.Col] {
		return
	}
	if c.strayed == nil {
		c.strayed = map[int32]bool{}
	}
	c.strayed[at.Col] = true
	c.stray = append(c.stray, at)
}

// columns reads the header into t.Columns. A name that stands twice counts once, the
// first time.
func (r *reader) columns(t *Table, head int) *columns {
	known := map[string]string{}
	for _, k := range r.layout.Known {
		known[word.Fold(k)] = k
	}
	r.underHeading(head)
	out := &columns{index: map[int32]int{}}
	seen := map[string]cell.Pos{}
	for _, c := range r.headerCells(head) {
		at := cell.Pos{Row: r.above[head].number, Col: c.Col}
		col := Column{At: at}
		col.Name, col.Unit = header(c.Text)
		r.heading(&c.Value, col)
		key := word.Fold(col.Name)
		if first, twice := seen[key]; twice {
			r.report(&Fault{What: HeaderTwice,
				Message:  fmt.Sprintf("the column %q stands twice, and %s is not read", col.Name, cell.Column(c.Col)),
				Constant: fmt.Sprintf("the column %q stands twice", col.Name),
				Cells:    []cell.Place{t.Place(first), t.Place(at)},
				Fix:      "give one of the two another name, or move its values into the other"})
			t.Again = append(t.Again, Again{Of: out.index[first.Col], At: at})
			out.index[c.Col] = -len(t.Again)
			continue
		}
		seen[key] = at
		if name, ok := known[key]; ok {
			col.Name, col.Known = name, true
			col.counts = roleOf(r.layout.Kind, col) == amount
		}
		out.index[c.Col] = len(t.Columns)
		t.Columns = append(t.Columns, col)
	}
	return out.indexed()
}

// underHeading reports headers that a merged range hides.
func (r *reader) underHeading(head int) {
	for _, m := range r.merges {
		first, ok := r.at(m.From)
		for k := range r.above[head].cells {
			c := &r.above[head].cells[k]
			at := cell.Pos{Row: r.above[head].number, Col: c.Col}
			if ok && at != m.From && m.Contains(at) {
				r.underMerge(at, c, cover{m, first, ok})
			}
		}
	}
}

// heading reports a header that is not what was typed, or that someone crossed out.
func (r *reader) heading(v *sheets.Value, col Column) {
	j := judge{reader: r, Value: v, at: cell.Place{Sheet: r.sheet, Pos: col.At}, column: col, role: name}
	switch v.Kind {
	case sheets.Blank:
		j.stale()
	case sheets.Error:
		j.failed()
	case sheets.Date:
		j.date()
	case sheets.Text:
		j.lookAt(strings.TrimSpace(v.Text))
	}
	if v.Struck {
		j.say(Struck,
			fmt.Sprintf("the header %q is struck through, and its column is read like the rest", short(v.Text)),
			"delete the column if it no longer holds, or take the line through its header away")
	}
}

// strays reports the columns that hold values under no header, so that none is lost
// in silence. Where no row is the header, that is told once for all of them.
func (r *reader) strays() {
	if !r.table.Headed {
		return
	}
	for _, at := range r.cols.stray {
		r.report(&Fault{What: HeaderBlank,
			Message:  fmt.Sprintf("column %s has values and no header, so they are not read", cell.Column(at.Col)),
			Constant: "a column has values and no header, so they are not read",
			Cells:    []cell.Place{r.table.Place(at)},
			Fix:      "write a header above them, or move them to a sheet whose name starts with _"})
	}
}
