package space

import "slices"

// fence is what no box may hold anything of, as paths; those that are no part of it are
// aside.
type fence struct {
	paths
	memory []uint64
	room   []uint64 // what of it nobody has taken
	aside  []uint64
	apart  [][]uint64 // by trait, the paths that are apart from the box in hand there
	after  [][]uint64 // by place in an order, those that are apart there or later
}

// enclose puts up a fence around some regions, with room for boxes; false where they have
// too many paths.
func (f *fence) enclose(s *Space, room int, bad ...Region) bool {
	if !f.set(s, room, bad...) {
		return false
	}
	n := len(s.sizes)
	f.memory = slices.Grow(f.memory[:0], (2*n+3)*f.words)[:(2*n+3)*f.words]
	f.room = f.memory
	f.apart, f.after = f.apart[:0], f.after[:0]
	for range n {
		f.apart, f.after = append(f.apart, f.take()), append(f.after, f.take())
	}
	f.after, f.aside = append(f.after, f.take()), f.take()
	clear(f.aside)
	return true
}

// take takes memory for a set of paths.
func (f *fence) take() []uint64 {
	out := f.room[:f.words:f.words]
	f.room = f.room[f.words:]
	return out
}

// grow is coverer.grow.
func (f *fence) grow(seed Box, order []int) Box {
	b := slices.Clone(seed)
	f.stand(seed, order)
	kept := f.room[:f.words] // apart in a trait that is not freed
	copy(kept, f.aside)
	for i, t := range order {
		if f.all(kept, f.after[i+1]) {
			b[t] = nil
		} else {
			merge(kept, f.apart[t])
		}
	}
	parted := false // the years are some ranges of several
	for _, t := range order {
		if b[t] == nil {
			continue
		}
		b[t] = f.widest(b, t)
		if t == 0 {
			run := runsAt(b[t], seed[t])
			parted = !run.Equal(b[t])
			b[t] = run
		}
		f.paths.apart(f.apart[t], f.s.level[t], b[t])
	}
	if parted {
		b[0] = f.widest(b, 0)
	}
	f.s.walked += f.n
	return b
}

// stand notes which paths are apart from a box.
func (f *fence) stand(b Box, order []int) {
	clear(f.after[len(order)])
	for i := len(order) - 1; i >= 0; i-- {
		t := order[i]
		f.paths.apart(f.apart[t], f.s.level[t], b[t])
		copy(f.after[i], f.after[i+1])
		merge(f.after[i], f.apart[t])
	}
}

// widest gives the values of a trait with which a box stays within the fence.
func (f *fence) widest(b Box, t int) Set {
	others := f.room[:f.words]
	copy(others, f.aside)
	for u, set := range b {
		if u != t && set != nil {
			merge(others, f.apart[u])
		}
	}
	level := f.s.level[t]
	out := make(Set, f.s.words[level])
	for v := range f.s.sizes[t] {
		if f.all(others, f.without(level, v)) {
			out[v/64] |= 1 << (v % 64)
		}
	}
	return out
}

// meets tells whether a box holds something of what it may not.
func (f *fence) meets(b Box) bool {
	f.s.walked += f.words
	apart := f.room[:f.words]
	copy(apart, f.aside)
	for t, set := range b {
		if set != nil {
			merge(apart, f.paths.apart(f.apart[t], f.s.level[t], set))
		}
	}
	return !f.all(apart, apart)
}
