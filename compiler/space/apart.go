package space

import "slices"

// Apart gives the configurations of the classes that looking at the observable traits
// cannot tell from one of another class: everything else about them is the same to
// see. Empty means that the observable traits always tell the class. Classes are
// disjoint.
func (s *Space) Apart(classes []Region, observable []int) Region {
	seen, confused, all := Empty, Empty, Empty
	for _, r := range classes {
		look := s.Project(r, observable)
		confused = s.Union(confused, s.Intersect(look, seen))
		seen, all = s.Union(seen, look), s.Union(all, r)
	}
	return s.Intersect(all, confused)
}

// Twin gives the first configuration that looks like c in the observable traits and is
// in another class, with that class; -1 where there is none. c is in one of the
// classes.
func (s *Space) Twin(classes []Region, observable []int, c []int) (twin []int, class int) {
	b := make(Box, len(s.sizes))
	for _, t := range observable {
		b[t] = SetOf(c[t])
	}
	class = -1
	for k, r := range classes {
		if s.Contains(r, c) {
			continue
		}
		if other, ok := s.FirstIn(r, b); ok && (class < 0 || slices.Compare(other, twin) < 0) {
			twin, class = other, k
		}
	}
	return twin, class
}
