package table

import (
	"fmt"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/schema/word"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// columns knows where a sheet's columns are.
type columns struct {
	index map[int32]int // sheet column to Table.Columns; -1: a name that stood before
	stray []cell.Pos    // the first value of each column without a header

	// The row at hand, by column; used again for every row.
	fields []Field
	filled []bool
	count  int
}

func (c *columns) begin(n int) {
	if len(c.fields) != n {
		c.fields, c.filled = make([]Field, n), make([]bool, n)
	}
	clear(c.filled)
	c.count = 0
}

func (c *columns) put(i int, f Field) {
	if !c.filled[i] {
		c.filled[i] = true
		c.count++
	}
	c.fields[i] = f
}

// end gives the filled fields in the order of the columns.
func (c *columns) end() []Field {
	if c.count == 0 {
		return nil
	}
	out := make([]Field, 0, c.count)
	for i, filled := range c.filled {
		if filled {
			out = append(out, c.fields[i])
		}
	}
	return out
}

func (c *columns) unheaded(at cell.Pos) {
	for _, p := range c.stray {
		if p.Col == at.Col {
			return
		}
	}
	c.stray = append(c.stray, at)
}

// columns reads the header into t.Columns. A name that stands twice counts once, the
// first time.
func (r *reader) columns(t *Table, merges []cell.Range, head int) *columns {
	known := map[string]string{}
	for _, k := range r.layout.Known {
		known[word.Fold(k)] = k
	}
	r.underHeading(t, merges, head)
	out := &columns{index: map[int32]int{}}
	seen := map[string]cell.Pos{}
	for _, c := range r.headerCells(head, merges) {
		at := cell.Pos{Row: r.rows[head].number, Col: c.Col}
		col := Column{At: at}
		col.Name, col.Unit = header(c.Text)
		r.heading(t, c.Value, col)
		key := word.Fold(col.Name)
		if first, twice := seen[key]; twice {
			r.report(&finding.Finding{Code: HeaderDuplicate, Severity: finding.Error,
				Message: fmt.Sprintf("the column %q stands twice, and %s is not read", col.Name, cell.Column(c.Col)),
				Gist:    fmt.Sprintf("the column %q stands twice", col.Name),
				Cells:   finding.At(t.Place(first), t.Place(at)),
				Fix:     "give one of the two another name, or move its values into the other"})
			out.index[c.Col] = -1
			continue
		}
		seen[key] = at
		if name, ok := known[key]; ok {
			col.Name, col.Known = name, true
		}
		out.index[c.Col] = len(t.Columns)
		t.Columns = append(t.Columns, col)
	}
	return out
}

// underHeading reports headers that a merged range hides.
func (r *reader) underHeading(t *Table, merges []cell.Range, head int) {
	for _, m := range merges {
		first, ok := r.at(m.From)
		for _, c := range r.rows[head].cells {
			at := cell.Pos{Row: r.rows[head].number, Col: c.Col}
			if ok && at != m.From && m.Contains(at) {
				r.underMerge(t, at, c, cover{m, first, ok})
			}
		}
	}
}

// heading reports a header that is not what was typed, or that someone crossed out.
func (r *reader) heading(t *Table, v sheets.Value, col Column) {
	f := Field{Value: v, At: col.At}
	j := judge{reader: r, field: &f, column: col, role: name, place: t.Place(col.At)}
	switch v.Kind {
	case sheets.Blank:
		j.stale()
	case sheets.Error:
		j.failed()
	case sheets.Date:
		j.date()
	case sheets.Text:
		j.letters(strings.TrimSpace(v.Text))
	}
	if v.Struck {
		j.say(CellStruck, finding.Warning,
			fmt.Sprintf("the header %q is struck through, and its column is read like the rest", short(v.Text)),
			"delete the column if it no longer holds, or take the line through its header away")
	}
}

// strays reports the columns that hold values under no header, so that none is lost
// in silence.
func (r *reader) strays(t *Table, cols *columns) {
	for _, at := range cols.stray {
		r.report(&finding.Finding{Code: HeaderBlank, Severity: finding.Warning,
			Message: fmt.Sprintf("column %s has values and no header, so they are not read", cell.Column(at.Col)),
			Gist:    "a column has values and no header, so they are not read",
			Cells:   finding.At(t.Place(at)),
			Fix:     "write a header above them, or move them to a sheet whose name starts with _"})
	}
}
