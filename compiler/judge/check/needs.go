package check

import (
	"cmp"
	"slices"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

// needs is what must stay of the fitment cells so that every vehicle keeps what is said
// of it: of each set of cells at least one. A cell is its place, since a merged range is
// emptied as a whole, whatever rows and positions it reaches over. Platforms and positions
// add their sets, and what may go is decided when all of them are known.
type needs struct {
	alone []cell.Place   // the sets of one; one may be there several times
	sets  [][]cell.Place // the others, sorted; one may be there several times
}

// one adds that of some cells, which may be named twice, one must stay.
func (n *needs) one(of ...cell.Place) {
	slices.SortFunc(of, cell.Compare)
	if of = slices.Compact(of); len(of) > 1 {
		n.sets = append(n.sets, of)
		return
	}
	n.alone = append(n.alone, of[0])
}

// keep adds that each of some cells must stay.
func (n *needs) keep(cells []*decide.Cell) {
	for _, c := range cells {
		n.alone = append(n.alone, c.At)
	}
}

// add adds what another needs.
func (n *needs) add(o *needs) {
	n.alone, n.sets = append(n.alone, o.alone...), append(n.sets, o.sets...)
}

// allNeeds is what all platforms need.
type allNeeds struct {
	alone cell.Set
	sets  [][]cell.Place
}

// add adds what one platform needs.
func (n *allNeeds) add(o *needs) {
	for _, at := range o.alone {
		n.alone.Add(at)
	}
	n.sets = append(n.sets, o.sets...)
}

// stay gives the cells that stay where those of some rows may go, those of the rows with
// the most conditions first, and all that can go together. It asks only once.
func (n *allNeeds) stay(rows []*model.Fitment, may func(*model.Fitment) bool) *cell.Set {
	out, sets := &n.alone, n.sets
	slices.SortFunc(sets, func(a, b []cell.Place) int { return slices.CompareFunc(a, b, cell.Compare) })
	sets = slices.CompactFunc(sets, func(a, b []cell.Place) bool { return slices.Equal(a, b) })
	sets = slices.DeleteFunc(sets, func(s []cell.Place) bool { return slices.ContainsFunc(s, out.Has) })
	in := map[cell.Place][]int{}
	left := make([]int, len(sets))
	for i, s := range sets {
		left[i] = len(s)
		for _, at := range s {
			in[at] = append(in[at], i)
		}
	}
	leaving := leaving(rows, func(f *model.Fitment, at cell.Place) bool { return in[at] != nil && may(f) })
	gone := map[cell.Place]bool{}
	for _, at := range leaving {
		if slices.ContainsFunc(in[at], func(i int) bool { return left[i] == 1 }) {
			continue
		}
		gone[at] = true
		for _, i := range in[at] {
			left[i]--
		}
	}
	for at := range in {
		if !gone[at] {
			out.Add(at)
		}
	}
	return out
}

// leaving gives the cells that may go, in the order in which they are tried: of cells that
// say the same, the one with the most conditions is least missed, and then the last.
func leaving(rows []*model.Fitment, may func(*model.Fitment, cell.Place) bool) []cell.Place {
	type leaver struct {
		at         cell.Place
		conditions int
	}
	index := map[cell.Place]int{}
	var all []leaver
	for _, f := range rows {
		for _, c := range f.Cells {
			if !may(f, c.At) {
				continue
			}
			i, ok := index[c.At]
			if !ok {
				i = len(all)
				index[c.At], all = i, append(all, leaver{at: c.At})
			}
			all[i].conditions = max(all[i].conditions, conditions(&f.When))
		}
	}
	slices.Reverse(all)
	slices.SortStableFunc(all, func(a, b leaver) int { return cmp.Compare(b.conditions, a.conditions) })
	out := make([]cell.Place, len(all))
	for i, l := range all {
		out[i] = l.at
	}
	return out
}

// conditions counts what a row restricts.
func conditions(w *model.When) int {
	n := len(w.Traits)
	if w.Years != nil {
		n++
	}
	if w.Platforms != nil {
		n++
	}
	return n
}
