package space

// Meets tells whether r holds a configuration of b. It does not allocate. A box
// with an empty set meets nothing.
func (s *Space) Meets(r Region, b Box) bool {
	last, ok := s.load(b)
	if !ok || r == Empty {
		return false
	}
	s.seen.begin(len(s.nodes))
	return s.alive(r, int32(last))
}

// alive tells whether r meets the box in s.look, which restricts nothing below the
// level last. Nodes in s.seen do not.
func (s *Space) alive(r Region, last int32) bool {
	if r < 2 {
		return r != Empty
	}
	n := s.nodes[r]
	if n.level > last {
		return true
	}
	if s.seen.has(r) {
		return false
	}
	s.walked++
	set, w := s.look[n.level], s.words[n.level]
	for i := range int(n.n) {
		if set == nil || w == 1 && set[0]&s.masks[int(n.mask)+i] != 0 || w > 1 && set.Meets(s.set(n, i, w)) {
			if s.alive(s.kids[int(n.kid)+i], last) {
				return true
			}
		}
	}
	s.seen.add(r)
	return false
}

// Values gives the values of a trait that occur in r.
func (s *Space) Values(r Region, trait int) Set { return s.ValuesIn(r, nil, trait) }

// ValuesIn gives the values of a trait that occur in those configurations of r that
// are in b.
func (s *Space) ValuesIn(r Region, b Box, trait int) Set {
	out := make(Set, s.words[s.level[trait]])
	s.addValues(r, b, trait, out)
	return out
}

// addValues is ValuesIn, added to out.
func (s *Space) addValues(r Region, b Box, trait int, out Set) {
	last, ok := s.load(b)
	if !ok {
		return
	}
	s.seen.begin(len(s.nodes))
	s.memo.begin(len(s.nodes))
	s.occur(r, int32(last), int32(s.level[trait]), out)
}

// occur adds to out the values at a level that occur in r within s.look, and tells
// whether there are any.
func (s *Space) occur(r Region, last, level int32, out Set) bool {
	if s.at(r) > level {
		if !s.alive(r, last) {
			return false
		}
		for i, w := range s.whole[level] {
			if set := s.look[level]; set != nil {
				w &= set.word(i)
			}
			out[i] |= w
		}
		return true
	}
	if s.memo.has(r) {
		return s.memo.result[r] == Full
	}
	s.walked++
	n, some := s.nodes[r], Empty
	set, w := s.look[n.level], s.words[n.level]
	for i := range int(n.n) {
		mask, kid := s.set(n, i, w), s.kids[int(n.kid)+i]
		if set != nil && !set.Meets(mask) {
			continue
		}
		if n.level < level {
			if s.occur(kid, last, level, out) {
				some = Full
			}
		} else if s.alive(kid, last) {
			some = Full
			for j, m := range mask {
				if set != nil {
					m &= set.word(j)
				}
				out[j] |= m
			}
		}
	}
	return s.memo.put(r, some) == Full
}

// First gives the first configuration of r in declared order (trait 0 first, each
// trait by ascending value); false where r is empty.
func (s *Space) First(r Region) ([]int, bool) { return s.FirstIn(r, nil) }

// FirstIn gives the first configuration of r that is in b, in declared order; false
// where there is none.
func (s *Space) FirstIn(r Region, b Box) ([]int, bool) {
	if !s.Meets(r, b) {
		return nil, false
	}
	at := make(Box, len(s.sizes))
	copy(at, b)
	c := make([]int, len(s.sizes))
	for t := range c {
		c[t] = s.ValuesIn(r, at, t).Min()
		at[t] = SetOf(c[t])
	}
	return c, true
}

// Contains tells whether one configuration, a value for every trait, is in r.
func (s *Space) Contains(r Region, c []int) bool {
	if len(c) != len(s.sizes) {
		return false
	}
	for t, v := range c {
		if v < 0 || v >= s.sizes[t] {
			return false
		}
	}
	for r > Full {
		r = s.under(r, c[s.order[s.nodes[r].level]])
	}
	return r == Full
}

// under gives the region below the node r for value v of its trait.
func (s *Space) under(r Region, v int) Region {
	n := s.nodes[r]
	w := s.words[n.level]
	for i := range int(n.n) {
		if s.masks[int(n.mask)+i*w+v/64]>>(v%64)&1 == 1 {
			return s.kids[int(n.kid)+i]
		}
	}
	return Empty
}
