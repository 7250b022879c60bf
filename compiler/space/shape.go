package space

import "slices"

// support gives the levels that f depends on.
func (s *Space) support(f Region) Set {
	found := make(Set, (len(s.order)+63)/64)
	s.seen.begin(len(s.nodes))
	s.visit(f, func(n node) { found[n.level/64] |= 1 << (n.level % 64) })
	return found
}

// visit calls f with each node of r not in s.seen.
func (s *Space) visit(r Region, f func(n node)) {
	if r < 2 || s.seen.has(r) {
		return
	}
	s.seen.add(r)
	n := s.nodes[r]
	f(n)
	for i := range n.n {
		s.visit(s.kids[n.kid+uint32(i)], f)
	}
}

// shape tells the labels and the size of f.
func (p *planner) shape(f Region) shape {
	if f < 0 {
		return shape{labels: 1, class: int(-1 - f)}
	}
	if h, ok := p.shapes[f]; ok {
		return h
	}
	s, h := p.s, shape{}
	p.labels.begin(0)
	s.seen.begin(len(s.nodes))
	s.visit(f, func(n node) {
		h.nodes++
		for _, k := range s.below(n) {
			if k < 0 {
				if class := int(-1 - k); p.label(class) {
					h.labels++
					h.class = class
				}
			}
		}
	})
	p.effort -= h.nodes
	p.shapes[f] = h
	return h
}

// label tells whether class is met for the first time since labels.begin.
func (p *planner) label(class int) bool {
	for len(p.labels.stamp) <= class {
		p.labels.stamp = append(p.labels.stamp, 0)
	}
	if p.labels.has(Region(class)) {
		return false
	}
	p.labels.add(Region(class))
	return true
}

// alike gives the sets of values of a level that f does not tell apart, by least
// value.
func (s *Space) alike(f Region, level int32) []Set {
	sets := []Set{s.whole[level]}
	w := s.words[level]
	s.seen.begin(len(s.nodes))
	s.visit(f, func(n node) {
		if n.level != level {
			return
		}
		for i := range int(n.n) {
			edge := s.set(n, i, w)
			for j := range len(sets) {
				in, out := sets[j].And(edge), sets[j].Without(edge)
				if !in.IsEmpty() && !out.IsEmpty() {
					sets[j] = in
					sets = append(sets, out)
				}
			}
		}
	})
	slices.SortFunc(sets, func(a, b Set) int { return a.Min() - b.Min() })
	return sets
}

// compatible tells whether two functions agree wherever both are defined.
func (s *Space) compatible(a, b Region) bool {
	if a == b || a == Empty || b == Empty {
		return true
	}
	if a < 2 && b < 2 {
		return false
	}
	if a > b {
		a, b = b, a
	}
	if r, ok := s.cache.get(agree, a, b); ok {
		return r == Full
	}
	r := Full
	if !s.agreeBelow(a, b) {
		r = Empty
	}
	s.cache.put(agree, a, b, r, len(s.nodes))
	return r == Full
}

func (s *Space) agreeBelow(a, b Region) bool {
	if s.at(a) != s.at(b) {
		if s.at(a) > s.at(b) {
			a, b = b, a
		}
		return !slices.ContainsFunc(s.below(s.nodes[a]), func(k Region) bool { return !s.compatible(k, b) })
	}
	na, nb := s.nodes[a], s.nodes[b]
	w := s.words[na.level]
	for i := range int(na.n) {
		for j := range int(nb.n) {
			if s.set(na, i, w).Meets(s.set(nb, j, w)) && !s.compatible(s.kids[int(na.kid)+i], s.kids[int(nb.kid)+j]) {
				return false
			}
		}
	}
	return true
}
