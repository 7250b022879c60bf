package space

import "math/bits"

// Pairs calls emit with i < j for every two boxes that meet each other inside care,
// in order of i, then j, until emit returns false.
//
// For each trait and each different set of values that a row has there, it keeps
// which rows meet that set, as bits; the rows that meet a row are the intersection
// of these over the traits that the row restricts.
func (s *Space) Pairs(rows []Box, care Region, emit func(i, j int) bool) {
	var live []int // rows that hold something of care
	for i, b := range rows {
		if s.Meets(care, b) {
			live = append(live, i)
		}
	}
	x := newPairs(s, rows, live)
	for k, i := range live {
		x.meeting(k)
		for w := k / 64; w < len(x.found); w++ {
			for m := x.found[w]; m != 0; m &= m - 1 {
				j := live[64*w+bits.TrailingZeros64(m)]
				if care != Full && !s.Meets(care, x.joint(rows[i], rows[j])) {
					continue
				}
				if !emit(i, j) {
					return
				}
			}
		}
	}
}

// pairs is the index of Pairs. Rows are numbered as in live.
type pairs struct {
	s      *Space
	n      int      // rows
	found  []uint64 // the rows after the one in hand that meet it
	traits []column
	both   Box      // room for the intersection of two rows
	room   []Set    // memory for its sets
	spare  []uint64 // the rows of a set for which there is no memory
	left   int      // words that may still be kept
}

// column is one trait of the index.
type column struct {
	sets    []Set      // different sets of the rows
	id      []int32    // which of sets each row has; -1: does not restrict
	any     []uint64   // rows that do not restrict the trait
	holding [][]uint64 // rows whose set holds a value, by value
	meeting [][]uint64 // rows that meet a set, by number of the set; nil: not yet known
}

// pairsMemory is how many words the rows of sets may take; sets beyond that are
// worked out again for each row.
const pairsMemory = 1 << 24

func newPairs(s *Space, rows []Box, live []int) *pairs {
	n := (len(live) + 63) / 64
	x := &pairs{s: s, n: len(live), found: make([]uint64, n), traits: make([]column, len(s.sizes)), spare: make([]uint64, n), left: pairsMemory}
	x.both, x.room = make(Box, len(s.sizes)), make([]Set, len(s.sizes))
	for t, size := range s.sizes {
		x.room[t] = make(Set, (size+63)/64)
		x.traits[t] = newColumn(rows, live, t, size)
	}
	return x
}

func newColumn(rows []Box, live []int, t, size int) column {
	n := (len(live) + 63) / 64
	c := column{id: make([]int32, len(live)), any: make([]uint64, n), holding: make([][]uint64, size)}
	var known sets
	for k, i := range live {
		set := rows[i].At(t)
		if set == nil {
			c.id[k] = -1
			c.any[k/64] |= 1 << (k % 64)
			continue
		}
		c.id[k] = known.number(set)
		for v := range set.Values() {
			if v >= size {
				break
			}
			if c.holding[v] == nil {
				c.holding[v] = make([]uint64, n)
			}
			c.holding[v][k/64] |= 1 << (k % 64)
		}
	}
	c.sets = known.list
	c.meeting = make([][]uint64, len(c.sets))
	return c
}

// meeting fills x.found with the rows after k that meet row k.
func (x *pairs) meeting(k int) {
	from := k / 64
	found := x.found[from:]
	for i := range found {
		found[i] = ^uint64(0)
	}
	for t := range x.traits {
		if id := x.traits[t].id[k]; id >= 0 {
			for i, w := range x.rows(&x.traits[t], id, from)[from:] {
				found[i] &= w
			}
		}
	}
	found[0] &= ^uint64(0) << (k % 64) << 1
	found[len(found)-1] &= ^uint64(0) >> (64*len(x.found) - x.n)
}

// rows gives the rows of c that meet set number id; words before from may be wrong.
func (x *pairs) rows(c *column, id int32, from int) []uint64 {
	if c.meeting[id] != nil {
		return c.meeting[id]
	}
	out := x.spare
	if x.left >= len(out) {
		x.left -= len(out)
		out, from = make([]uint64, len(out)), 0
		c.meeting[id] = out
	}
	copy(out[from:], c.any[from:])
	for v := range c.sets[id].Values() {
		if v >= len(c.holding) || c.holding[v] == nil {
			continue
		}
		for i, w := range c.holding[v][from:] {
			out[from+i] |= w
		}
	}
	return out
}

// joint gives the intersection of two boxes in memory of its own.
func (x *pairs) joint(a, b Box) Box {
	for t := range x.both {
		p, q := a.At(t), b.At(t)
		switch {
		case p == nil:
			x.both[t] = q
		case q == nil:
			x.both[t] = p
		default:
			set := x.room[t]
			for i := range set {
				set[i] = p.word(i) & q.word(i)
			}
			x.both[t] = set
		}
	}
	return x.both
}

// sets numbers different sets, by an open-addressing table.
type sets struct {
	list  []Set
	table []int32 // number plus one; 0 is free
}

func (s *sets) number(set Set) int32 {
	if 2*len(s.list) >= len(s.table) {
		s.grow()
	}
	i := hashSet(set) & uint64(len(s.table)-1)
	for s.table[i] != 0 {
		if n := s.table[i] - 1; s.list[n].Equal(set) {
			return n
		}
		i = (i + 1) & uint64(len(s.table)-1)
	}
	s.list = append(s.list, set)
	s.table[i] = int32(len(s.list))
	return s.table[i] - 1
}

func (s *sets) grow() {
	s.table = make([]int32, max(64, 2*len(s.table)))
	for n, set := range s.list {
		i := hashSet(set) & uint64(len(s.table)-1)
		for s.table[i] != 0 {
			i = (i + 1) & uint64(len(s.table)-1)
		}
		s.table[i] = int32(n + 1)
	}
}

// hashSet gives equal numbers for equal sets, trailing zero words or not.
func hashSet(set Set) uint64 {
	h := uint64(1)
	for i, w := range set {
		if w != 0 {
			h = mix(h ^ w + uint64(i))
		}
	}
	return h
}
