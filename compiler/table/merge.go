package table

import (
	"fmt"
	"slices"
	"sort"

	"ferrule/compiler/finding"
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
func (r *reader) covers(merges []cell.Range, header int32) []cover {
	var out []cover
	for _, m := range merges {
		if m.From.Row > header {
			v, ok := r.at(m.From)
			out = append(out, cover{m, v, ok})
		}
	}
	sort.Slice(out, func(i, j int) bool { return cell.ComparePos(out[i].From, out[j].From) < 0 })
	return out
}

// sweep goes down the sheet and knows which merged ranges reach over a row. Ranges do
// not overlap, so there are never more of them than columns.
type sweep struct {
	coming, open []cover
}

func (s *sweep) down(row int32) []cover {
	s.open = slices.DeleteFunc(s.open, func(c cover) bool { return c.To.Row < row })
	for len(s.coming) > 0 && s.coming[0].From.Row <= row {
		if s.coming[0].To.Row >= row {
			s.open = append(s.open, s.coming[0])
		}
		s.coming = s.coming[1:]
	}
	return s.open
}

// record gives the fields of one row with merged ranges applied.
func (r *reader) record(t *Table, in *row, cols *columns, active []cover) Record {
	rec := Record{Row: in.number}
	cols.begin(len(t.Columns))
	for _, c := range in.cells {
		at := cell.Pos{Row: in.number, Col: c.Col}
		if m, hit := covering(active, at); hit && m.From != at {
			r.underMerge(t, at, c, m)
			continue
		}
		i, headed := cols.index[c.Col]
		if !headed {
			cols.unheaded(at)
			continue
		}
		if i < 0 {
			continue // a duplicate column, reported at its header
		}
		cols.put(i, r.field(t, i, c.Value, at))
	}
	for _, m := range active {
		if !m.ok {
			continue
		}
		for i, col := range t.Columns {
			at := cell.Pos{Row: in.number, Col: col.At.Col}
			if m.Contains(at) && at != m.From {
				cols.put(i, r.field(t, i, m.value, m.From))
			}
		}
	}
	rec.Fields = cols.end()
	r.struck(t, &rec)
	return rec
}

func covering(covers []cover, p cell.Pos) (cover, bool) {
	for _, m := range covers {
		if m.Contains(p) {
			return m, true
		}
	}
	return cover{}, false
}

// underMerge reports a value that a merged range hides: a spreadsheet program shows
// only the first cell's. Nothing is lost where the two say the same.
func (r *reader) underMerge(t *Table, at cell.Pos, c sheets.Cell, m cover) {
	if m.ok && c.Kind == m.value.Kind && c.Text == m.value.Text {
		return
	}
	r.report(&finding.Finding{Code: CellCovered, Severity: finding.Warning,
		Message: fmt.Sprintf("%q is hidden under the merged cells %s and is not read", c.Text, m.Range),
		Gist:    fmt.Sprintf("%q is hidden under merged cells and is not read", c.Text),
		Cells:   finding.At(t.Place(at), t.Place(m.From)),
		Fix:     "unmerge the cells to see what is under them, and write what is meant into each"})
}
