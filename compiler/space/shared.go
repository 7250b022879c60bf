package space

import (
	"math/big"
	"slices"
)

// Shared remembers trees, so that positions whose vehicles are split alike, whatever fits
// them, cost one search. It is for one space between two calls of Reset, and for one list
// of weights.
type Shared struct{ found []*found }

// Searches is how many searches there were: of positions that are split alike, one.
func (s *Shared) Searches() int { return len(s.found) }

// found is what was found on a grid: labels by their first cells.
type found struct {
	axes         []axis
	labels       []int32
	weight       []uint128
	states, ends int

	best          *step
	known         map[some]*step
	cut           bool
	least, weighs *big.Int
}

// canon numbers the labels of a grid by their first cells, and the classes with them.
func (q *asker) canon(g *grid) {
	number, ends := map[int32]int32{}, [][]int(nil)
	for i, l := range g.labels {
		if l == nowhere {
			continue
		}
		n, ok := number[l]
		if !ok {
			n = int32(len(ends))
			number[l], ends = n, append(ends, q.ends[l])
		}
		g.labels[i] = n
	}
	q.ends = ends
}

// same tells whether f was found on a grid like g, with as much effort.
func (f *found) same(g *grid, states, ends int) bool {
	return f.states == states && f.ends == ends && slices.Equal(f.labels, g.labels) && slices.Equal(f.weight, g.weight) &&
		slices.EqualFunc(f.axes, g.axes, func(a, b axis) bool {
			return a.level == b.level && a.effort == b.effort && slices.Equal(a.values, b.values)
		})
}

// search looks for the best questions on a grid.
func (s *Space) search(g *grid, states, ends int) *found {
	k := &seeker{parts: s.parts.fit(g), states: states, ends: ends, known: map[some]*step{}}
	f := &found{axes: g.axes, labels: g.labels, weight: g.weight, states: states, ends: ends}
	f.best = k.seek(some{}, true)
	whole := len(k.mark) - 1
	f.known, f.cut = k.known, k.cut
	f.least, f.weighs = k.least[whole].big(), k.total[whole].big()
	return f
}

// of gives what was found on a grid like g, or searches.
func (s *Shared) of(in *Space, g *grid, states, ends int) *found {
	if s == nil {
		return in.search(g, states, ends)
	}
	for _, f := range s.found {
		if f.same(g, states, ends) {
			return f
		}
	}
	f := in.search(g, states, ends)
	s.found = append(s.found, f)
	return f
}
