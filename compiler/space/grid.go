package space

import (
	"cmp"
	"math/big"
	"slices"
)

// grid is a situation written out: a label and a weight for each choice of the values of
// its axes, so that looking at a part of it costs no region.
type grid struct {
	axes   []axis // the cheapest to ask first
	labels []int32
	weight []uint128
}

// axis is a trait that can be asked; its values are those that a function tells apart.
type axis struct {
	level  int32
	values []int // one of each that are alike
	effort uint64
	step   int // between neighbours in grid.labels
}

const (
	// nowhere is the label where there is no configuration, and mixed that of a part with
	// several labels.
	nowhere int32 = -1
	mixed   int32 = -2

	// gridParts is how many parts a grid may have: each axis is free or has one value.
	gridParts = 1 << 20
	// gridAxes is how many axes that is at most, since each has two values at least.
	gridAxes = 12
)

// grid writes a situation out; nil where it has too many parts or too large numbers.
func (q *asker) grid(at situation) *grid {
	g := &grid{}
	at, ok := q.lay(g, at)
	if !ok || q.heavy(at) {
		return nil
	}
	cells := 1
	for i := len(g.axes) - 1; i >= 0; i-- {
		g.axes[i].step = cells
		cells *= len(g.axes[i].values)
	}
	g.labels, g.weight = make([]int32, cells), make([]uint128, cells)
	for i := range g.labels {
		g.labels[i] = nowhere
	}
	deep := slices.Clone(g.axes)
	slices.SortFunc(deep, func(a, b axis) int { return cmp.Compare(a.level, b.level) })
	g.fill(q.s, at, deep, 0)
	return g
}

// lay finds the axes of a situation and gives what is left of it without those that have
// one value, which is known; false means that there are too many parts.
func (q *asker) lay(g *grid, at situation) (situation, bool) {
	s, parts := q.s, 1
	for level := range s.support(at.f).Values() {
		a := axis{level: int32(level), effort: uint64(q.effort[s.order[level]])}
		for v := range q.alike[level] {
			if s.restrict(at.f, a.level, v) != Empty {
				a.values = append(a.values, v)
			}
		}
		if len(a.values) == 1 {
			at = situation{s.restrict(at.f, a.level, a.values[0]), s.restrict(at.w, a.level, a.values[0])}
			continue
		}
		slices.Sort(a.values)
		if parts *= len(a.values) + 1; len(a.values) > 64 || parts > gridParts {
			return at, false
		}
		g.axes = append(g.axes, a)
	}
	slices.SortFunc(g.axes, func(a, b axis) int {
		return cmp.Or(cmp.Compare(a.effort, b.effort), cmp.Compare(s.order[a.level], s.order[b.level]))
	})
	return at, true
}

// heavy tells whether efforts may be beyond 128 bits.
func (q *asker) heavy(at situation) bool {
	all := new(big.Int)
	for _, e := range q.effort {
		all.Add(all, big.NewInt(int64(max(e, 0))))
	}
	return all.Mul(all, q.total(at)).BitLen() > 126
}

// fill writes what a situation says from a cell on, axis by axis of deep.
func (g *grid) fill(s *Space, at situation, deep []axis, cell int) {
	if at.f == Empty {
		return
	}
	if len(deep) == 0 {
		g.labels[cell], g.weight[cell] = int32(-1-at.f), toUint128(s.number(at.w))
		return
	}
	a := deep[0]
	for i, v := range a.values {
		g.fill(s, situation{s.top(at.f, a.level, v), s.top(at.w, a.level, v)}, deep[1:], cell+i*a.step)
	}
}

// top gives what is under a value of a level, above which r has no node.
func (s *Space) top(r Region, level int32, v int) Region {
	if s.at(r) == level {
		return s.under(r, v)
	}
	return r
}
