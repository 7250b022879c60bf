package sheets

import (
	"cmp"
	"slices"

	"ferrule/sheets/cell"
)

// overlap finds two ranges that share a cell. It goes down the rows and keeps the
// ranges that reach the current one, by column: as long as none overlap, a new range
// only has to be compared with its neighbours.
func overlap(ranges []cell.Range) (later, earlier cell.Range, found bool) {
	byRow := slices.Clone(ranges)
	slices.SortStableFunc(byRow, func(a, b cell.Range) int { return cell.ComparePos(a.From, b.From) })
	var open []cell.Range
	row := int32(0)
	for _, r := range byRow {
		if r.From.Row > row {
			row = r.From.Row
			open = slices.DeleteFunc(open, func(o cell.Range) bool { return o.To.Row < row })
		}
		i, same := slices.BinarySearchFunc(open, r, func(a, b cell.Range) int { return cmp.Compare(a.From.Col, b.From.Col) })
		switch {
		case same, i < len(open) && open[i].From.Col <= r.To.Col:
			return r, open[i], true
		case i > 0 && open[i-1].To.Col >= r.From.Col:
			return r, open[i-1], true
		}
		open = slices.Insert(open, i, r)
	}
	return cell.Range{}, cell.Range{}, false
}
