package space

import (
	"math/bits"
	"slices"
)

// paths are boxes side by side that together are some regions: each value of each level
// knows which of them do not have it, as bits. So what a box has of all of them is told in
// a few words, which grows dear only where there are thousands.
type paths struct {
	s     *Space
	n     int      // how many there are
	words int      // that hold a bit for each
	begin []int    // where the values of each level begin in lacks
	lacks []uint64 // a set of paths for each value
}

// pathsAtMost is how many paths are put side by side: of more of them nodes are quicker.
const pathsAtMost = 2048

// set puts the paths of some regions side by side, with room for more; false where they
// are too many.
func (p *paths) set(s *Space, room int, rs ...Region) bool {
	n := 0
	for _, r := range rs {
		s.memo.begin(len(s.nodes))
		if n += s.countPaths(r); n > pathsAtMost {
			return false
		}
	}
	p.s, p.n, p.words, p.begin = s, 0, (n+room+63)/64, p.begin[:0]
	size := 0
	for _, t := range s.order {
		p.begin = append(p.begin, size)
		size += s.sizes[t] * p.words
	}
	p.lacks = slices.Grow(p.lacks[:0], size)[:size]
	clear(p.lacks)
	for _, r := range rs {
		p.fill(r)
	}
	return true
}

// countPaths is how many paths lead through a region, or more than pathsAtMost.
func (s *Space) countPaths(r Region) int {
	if r < 2 {
		return int(r)
	}
	if s.memo.has(r) {
		return int(s.memo.result[r])
	}
	sum := 0
	for _, kid := range s.below(s.nodes[r]) {
		sum = min(sum+s.countPaths(kid), pathsAtMost+1)
	}
	s.walked++
	s.memo.put(r, Region(sum))
	return sum
}

func (p *paths) fill(r Region) {
	if r < 2 {
		p.n += int(r)
		return
	}
	n := p.s.nodes[r]
	w := p.s.words[n.level]
	for i := range int(n.n) {
		from := p.n
		p.fill(p.s.kids[int(n.kid)+i])
		for j, has := range p.s.set(n, i, w) {
			for open := p.s.whole[n.level][j] &^ has; open != 0; open &= open - 1 {
				raise(p.without(int(n.level), 64*j+bits.TrailingZeros64(open)), from, p.n)
			}
		}
	}
}

// put adds a box as a path; there must be room for it.
func (p *paths) put(b Box) {
	for t, set := range b {
		if set == nil {
			continue
		}
		for v := range p.s.sizes[t] {
			if !set.Has(v) {
				raise(p.without(p.s.level[t], v), p.n, p.n+1)
			}
		}
	}
	p.n++
}

// raise sets the bits from one up to below another.
func raise(set []uint64, from, to int) {
	for from < to {
		upto := min(to, from|63+1)
		set[from/64] |= (1<<(upto-from) - 1) << (from % 64)
		from = upto
	}
}

// without gives the paths that do not have a value.
func (p *paths) without(level, value int) []uint64 {
	at := p.begin[level] + value*p.words
	return p.lacks[at : at+p.words : at+p.words]
}

// apart puts into out which paths have none of some values; it has room for them. Values
// that do not exist are ignored.
func (p *paths) apart(out []uint64, level int, values Set) []uint64 {
	out = out[:p.words]
	for i := range out {
		out[i] = ^uint64(0)
	}
	for v := range values.Values() {
		if v >= p.s.sizes[p.s.order[level]] {
			break
		}
		for i, w := range p.without(level, v) {
			out[i] &= w
		}
	}
	return out
}

// all tells whether every path is in a or in b.
func (p *paths) all(a, b []uint64) bool {
	for i := range (p.n + 63) / 64 {
		if has := a[i] | b[i]; has != ^uint64(0) && has|^uint64(0)<<(p.n-64*i) != ^uint64(0) {
			return false
		}
	}
	return true
}

func merge(into, set []uint64) {
	for i, w := range set {
		into[i] |= w
	}
}

// first gives the first configuration in declared order; there must be one.
func (p *paths) first() []int {
	out := make([]int, len(p.s.order))
	gone := make([]uint64, p.words)
	for t, level := range p.s.level {
		for p.all(gone, p.without(level, out[t])) {
			out[t]++
		}
		merge(gone, p.without(level, out[t]))
	}
	p.s.walked += p.n
	return out
}

// pick gives some configuration.
func (p *paths) pick(r *dice) Box {
	b := make(Box, len(p.s.sizes))
	gone := make([]uint64, p.words)
	var values []int
	for _, t := range r.shuffled(len(b)) {
		level := p.s.level[t]
		values = values[:0]
		for v := range p.s.sizes[t] {
			if !p.all(gone, p.without(level, v)) {
				values = append(values, v)
			}
		}
		v := values[r.roll(len(values))]
		merge(gone, p.without(level, v))
		b[t] = SetOf(v)
	}
	p.s.walked += p.n
	return b
}
