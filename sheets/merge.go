package sheets

import (
	"slices"

	"ferrule/sheets/cell"
)

// overlap finds two ranges that share a cell, of which none is turned round: the first from
// above that lies over one that begins before it.
func overlap(ranges []cell.Range) (later, earlier cell.Range, found bool) {
	byRow := slices.Clone(ranges)
	slices.SortStableFunc(byRow, func(a, b cell.Range) int { return cell.ComparePos(a.From, b.From) })
	taken := &occupied{}
	for i, r := range byRow {
		if taken.until(r.From.Col, r.To.Col) < r.From.Row {
			taken.take(r.From.Col, r.To.Col, r.To.Row)
			continue
		}
		hit := slices.IndexFunc(byRow[:i], func(o cell.Range) bool {
			return o.To.Row >= r.From.Row && o.From.Col <= r.To.Col && o.To.Col >= r.From.Col
		})
		return r, byRow[hit], true
	}
	return cell.Range{}, cell.Range{}, false
}

// occupied tells down to which row columns are taken by the ranges seen so far. It is a
// tree over the columns, so that a range costs the same however wide it is and however many
// others reach its rows: node 1 stands for all, nodes 2n and 2n+1 for the halves of n.
type occupied struct {
	all  [2 * cell.MaxCol]int32 // down to where the whole of a node's columns are taken
	some [2 * cell.MaxCol]int32 // down to where any of them is
}

// until gives the last row that is taken in any of the columns, 0 for none.
func (o *occupied) until(from, to int32) int32 {
	return o.look(1, 1, cell.MaxCol, from, to)
}

func (o *occupied) look(node int, first, last, from, to int32) int32 {
	if from <= first && last <= to {
		return o.some[node]
	}
	most, middle := o.all[node], (first+last)/2
	if from <= middle {
		most = max(most, o.look(2*node, first, middle, from, to))
	}
	if to > middle {
		most = max(most, o.look(2*node+1, middle+1, last, from, to))
	}
	return most
}

// take says that columns are taken down to a row.
func (o *occupied) take(from, to, row int32) { o.put(1, 1, cell.MaxCol, from, to, row) }

func (o *occupied) put(node int, first, last, from, to, row int32) {
	o.some[node] = max(o.some[node], row)
	if from <= first && last <= to {
		o.all[node] = max(o.all[node], row)
		return
	}
	middle := (first + last) / 2
	if from <= middle {
		o.put(2*node, first, middle, from, to, row)
	}
	if to > middle {
		o.put(2*node+1, middle+1, last, from, to, row)
	}
}
