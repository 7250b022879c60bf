package space

// Project gives the configurations that differ from one of r at most in traits not
// listed: it forgets all traits but the listed ones.
func (s *Space) Project(r Region, traits []int) Region {
	keep := make([]bool, len(s.order))
	last := int32(-1)
	for _, t := range traits {
		keep[s.level[t]] = true
		last = max(last, int32(s.level[t]))
	}
	s.memo.begin(len(s.nodes))
	return s.project(r, keep, last)
}

func (s *Space) project(r Region, keep []bool, last int32) Region {
	if r == Empty {
		return Empty
	}
	if s.at(r) > last {
		return Full
	}
	if s.memo.has(r) {
		return s.memo.result[r]
	}
	n := s.nodes[r]
	if !keep[n.level] {
		out := Empty
		for i := range int(n.n) {
			out = s.Union(out, s.project(s.kids[int(n.kid)+i], keep, last))
		}
		return s.memo.put(r, out)
	}
	return s.memo.put(r, s.rebuild(n, func(kid Region) Region { return s.project(kid, keep, last) }))
}

// rebuild gives the node n with the regions below it changed by f.
func (s *Space) rebuild(n node, f func(Region) Region) Region {
	kids, masks, w := len(s.frame.kids), len(s.frame.masks), s.words[n.level]
	for i := range int(n.n) {
		if r := f(s.kids[int(n.kid)+i]); r != Empty {
			dst := s.frame.slot(kids, masks, w, r)
			for j, m := range s.set(n, i, w) {
				dst[j] |= m
			}
		}
	}
	return s.seal(n.level, kids, masks)
}

// restrict gives r with the trait of a level fixed to value v and forgotten.
func (s *Space) restrict(r Region, level int32, v int) Region {
	s.memo.begin(len(s.nodes))
	return s.fix(r, level, v)
}

func (s *Space) fix(r Region, level int32, v int) Region {
	switch at := s.at(r); {
	case at > level:
		return r
	case at == level:
		return s.under(r, v)
	case s.memo.has(r):
		return s.memo.result[r]
	}
	return s.memo.put(r, s.rebuild(s.nodes[r], func(kid Region) Region { return s.fix(kid, level, v) }))
}
