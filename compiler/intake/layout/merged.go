package layout

import (
	"fmt"
	"slices"

	"ferrule/compiler/intake/table"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// merged gives the cells of rows the values of merged ranges.
type merged struct {
	coming []cell.Range // by first row
	open   []cover
	number int32 // the row at hand
	shown  int
}

// cover is a merged range that reaches over the row at hand.
type cover struct {
	cell.Range
	value  sheets.Value
	bold   bool
	filled bool
}

func newMerged(ranges []cell.Range) merged {
	m := merged{coming: slices.Clone(ranges)}
	slices.SortFunc(m.coming, func(a, b cell.Range) int { return cell.ComparePos(a.From, b.From) })
	return m
}

// What merged ranges may stand for, and how many columns of one are looked at.
const (
	maxShown   = 1 << 20
	shownRatio = 4
	maxWide    = 4096
)

// row appends the filled cells of a row.
func (m *merged) row(in *sheets.Row, to []item, r *reader) []item {
	m.number = in.Number
	m.open = slices.DeleteFunc(m.open, func(c cover) bool { return c.To.Row < in.Number })
	for len(m.coming) > 0 && m.coming[0].From.Row <= in.Number {
		if c := (cover{Range: m.coming[0]}); c.To.Row >= in.Number {
			m.open = append(m.open, c)
		}
		m.coming = m.coming[1:]
	}
	own := false
	for i := range in.Cells {
		c := &in.Cells[i]
		if !table.Filled(&c.Value) {
			continue
		}
		at := cell.Pos{Row: in.Number, Col: c.Col}
		if len(m.open) > 0 {
			if k := slices.IndexFunc(m.open, func(o cover) bool { return o.Contains(at) }); k >= 0 {
				o := &m.open[k]
				if at != o.From {
					if !o.filled || o.value.Text != c.Text {
						r.report(table.Hides(r.sheet, at, c.Text, o.Range))
					}
					continue
				}
				o.value, o.bold, o.filled = c.Value, c.Bold, true
				own = true
				continue
			}
		}
		own = true
		to = append(to, item{Value: &c.Value, col: c.Col, at: at, bold: c.Bold})
	}
	if len(m.open) == 0 {
		return to
	}
	return m.cover(to, own, r)
}

// cover adds the cells that merged ranges give their values. A row without a cell of its own
// is none: nothing stands in it.
func (m *merged) cover(to []item, own bool, r *reader) []item {
	if !own {
		return to
	}
	for i := range m.open {
		o := &m.open[i]
		if !o.filled {
			continue
		}
		for col := o.From.Col; col <= min(o.To.Col, o.From.Col+maxWide); col++ {
			to = append(to, item{Value: &o.value, col: col, at: o.From, bold: o.bold, wide: o.To.Col > o.From.Col})
			m.shown++
		}
	}
	if r.over == nil && m.shown > maxShown+shownRatio*r.stored {
		r.over = &sheets.Fault{Sheet: r.sheet.Name, Pos: m.open[0].From,
			Why: fmt.Sprintf("sheet %q, cell %s: the merged cells %s and others like them stand for more than %d cells; unmerge them, or end them where the table ends",
				r.sheet.Name, m.open[0].From, m.open[0].Range, maxShown)}
	}
	slices.SortFunc(to, func(a, b item) int { return int(a.col - b.col) })
	return to
}
