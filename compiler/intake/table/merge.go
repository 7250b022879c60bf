package table

import (
	"cmp"
	"slices"
	"sort"

	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// cover is a merged range below the header with the value of its first cell.
type cover struct {
	cell.Range
	value sheets.Value
	ok    bool // the first cell holds something
}

// covers gives the merged ranges below the header row, by first row. A range that
// begins in the header or above belongs to the header alone.
func (r *reader) covers(header int32) []cover {
	var out []cover
	for _, m := range r.merges {
		if m.From.Row > header {
			out = append(out, cover{Range: m})
		}
	}
	sort.Slice(out, func(i, j int) bool { return cell.ComparePos(out[i].From, out[j].From) < 0 })
	return out
}

// sweep goes down the sheet and knows which merged ranges reach over a row, and what they
// hold. Ranges do not overlap, so there are never more of them than columns.
type sweep struct {
	coming []cover
	open   []*cover // by column
	live   []*cover // those of them that hold something
	leaves int32    // the first row after which one of them is left; rows before cost nothing
	shown  int      // how many cells were given the value of another, see maxShown
	by     *cover   // the first range of the row in which that was so last
}

// down goes to a row, which must not be above the last one; cells are what it holds.
func (s *sweep) down(row int32, cells []sheets.Cell) []*cover {
	if len(s.open) == 0 && len(s.coming) == 0 {
		return nil
	}
	if len(s.open) > 0 && s.leaves < row {
		left := func(c *cover) bool { return c.To.Row < row }
		s.open, s.live = slices.DeleteFunc(s.open, left), slices.DeleteFunc(s.live, left)
		s.leaves = cell.MaxRow
		for _, c := range s.open {
			s.leaves = min(s.leaves, c.To.Row)
		}
	}
	for len(s.coming) > 0 && s.coming[0].From.Row <= row {
		c := &s.coming[0]
		if c.From.Row == row {
			c.value, c.ok = under(cells, c.From.Col)
		}
		if c.To.Row >= row {
			s.reach(c)
		}
		s.coming = s.coming[1:]
	}
	return s.open
}

// reach takes note of a range that reaches over the row.
func (s *sweep) reach(c *cover) {
	if len(s.open) == 0 {
		s.leaves = c.To.Row
	}
	s.leaves = min(s.leaves, c.To.Row)
	byColumn := func(a, b *cover) int { return cmp.Compare(a.From.Col, b.From.Col) }
	at, _ := slices.BinarySearchFunc(s.open, c, byColumn)
	s.open = slices.Insert(s.open, at, c)
	if c.ok {
		at, _ := slices.BinarySearchFunc(s.live, c, byColumn)
		s.live = slices.Insert(s.live, at, c)
	}
}

// record gives the fields of one row with merged ranges applied, good until the next.
func (r *reader) record(in row, active []*cover) Record {
	if len(active) > 0 {
		return r.mergedRecord(in, active)
	}
	cols := r.cols
	out := cols.out[:0]
	crossed := false
	for k := range in.cells {
		c := &in.cells[k]
		plain := r.plain(&c.Value)
		if !plain && !filledIn(&c.Value) {
			continue
		}
		i, headed := cols.at(c.Col)
		if !headed || i < 0 {
			r.outside(in.number, c, i, headed)
			continue
		}
		out = room(out)
		// Written one by one: a field that is made elsewhere and then moved is read back
		// wider than it was written, for which processors wait.
		f := &out[len(out)-1]
		f.Text, f.At.Row, f.At.Col, f.Shared, f.Column = c.Text, in.number, c.Col, c.Shared, int32(i)
		f.Kind, f.Broken, f.Plain, f.struck, f.partly = c.Kind, false, plain, c.Struck, c.Partly
		if !plain {
			r.judged(f, &c.Value)
		}
		if f.Kind == sheets.Text && r.table.Columns[i].counts {
			f.count()
		}
		crossed = crossed || c.Struck || c.Partly
	}
	cols.out = out
	rec := Record{in.number, out}
	if crossed {
		r.crossed(&rec)
	}
	return rec
}

// room adds a field, which must be written as a whole.
func room(fields []Field) []Field {
	if n := len(fields); n < cap(fields) {
		return fields[:n+1]
	}
	return append(fields, Field{})
}

// outside takes a cell that stands under no header, or under one that stood before, which
// is reported there.
func (r *reader) outside(row int32, c *sheets.Cell, i int, headed bool) {
	r.noticeText(&c.Value)
	at := cell.Pos{Row: row, Col: c.Col}
	if !headed {
		r.cols.unheaded(at)
		return
	}
	again := &r.table.Again[-1-i]
	again.Cells = append(again.Cells, Field{Text: c.Text, At: at, Kind: c.Kind})
}

// mergedRecord is record for a row that merged ranges reach over.
func (r *reader) mergedRecord(in row, active []*cover) Record {
	t, cols := r.table, r.cols
	cols.begin(len(t.Columns))
	for k := range in.cells {
		c := &in.cells[k]
		at := cell.Pos{Row: in.number, Col: c.Col}
		if m, hit := covering(active, at); hit && m.From != at {
			r.noticeText(&c.Value)
			r.underMerge(at, c, *m)
			continue
		}
		i, headed := cols.at(c.Col)
		if !headed || i < 0 {
			r.outside(in.number, c, i, headed)
			continue
		}
		cols.put(i, r.field(i, &c.Value, at))
	}
	for _, m := range r.merged.live {
		// Columns stand from left to right.
		i, _ := slices.BinarySearchFunc(t.Columns, m.From.Col, func(c Column, col int32) int { return cmp.Compare(c.At.Col, col) })
		for ; i < len(t.Columns) && t.Columns[i].At.Col <= m.To.Col; i++ {
			if at := (cell.Pos{Row: in.number, Col: t.Columns[i].At.Col}); at != m.From {
				cols.put(i, r.field(i, &m.value, m.From))
				r.merged.shown++
				r.merged.by = r.merged.live[0]
			}
		}
	}
	rec := Record{in.number, cols.end()}
	r.struck(&rec)
	return rec
}

// covering finds the range that lies over a cell of the row.
func covering(active []*cover, p cell.Pos) (*cover, bool) {
	i, same := slices.BinarySearchFunc(active, p.Col, func(c *cover, col int32) int { return cmp.Compare(c.From.Col, col) })
	if !same {
		i--
	}
	if i < 0 || !active[i].Contains(p) {
		return nil, false
	}
	return active[i], true
}

// underMerge reports a value that a merged range hides: a spreadsheet program shows
// only the first cell's. Nothing is lost where the two say the same.
func (r *reader) underMerge(at cell.Pos, c *sheets.Cell, m cover) {
	if m.ok && c.Kind == m.value.Kind && c.Text == m.value.Text {
		return
	}
	r.report(Hides(r.sheet, at, c.Text, m.Range))
}
