package space

import "slices"

// UnionAll gives the configurations in any of rs. It joins neighbours first, so the
// number of nodes made stays near that of the result; the order of rs changes the
// speed and not the answer.
func (s *Space) UnionAll(rs []Region) Region {
	if len(rs) == 0 {
		return Empty
	}
	return s.fold(union, rs)
}

// fold joins rs, at least one, in a balanced tree.
func (s *Space) fold(o op, rs []Region) Region {
	if len(rs) == 1 {
		return rs[0]
	}
	half := len(rs) / 2
	return s.apply(o, s.fold(o, rs[:half]), s.fold(o, rs[half:]))
}

// UnionBoxes gives the configurations in any of bs. Boxes that are alike at the
// outer levels of the diagram are joined first.
func (s *Space) UnionBoxes(bs []Box) Region {
	sorted := slices.Clone(bs)
	slices.SortStableFunc(sorted, s.compare)
	rs := make([]Region, len(sorted))
	for i, b := range sorted {
		rs[i] = s.Box(b)
	}
	return s.UnionAll(rs)
}

// compare orders boxes by their sets, level by level; no restriction comes first.
func (s *Space) compare(a, b Box) int {
	for _, t := range s.order {
		x, y := a.At(t), b.At(t)
		switch {
		case x == nil && y == nil:
		case x == nil:
			return -1
		case y == nil:
			return 1
		default:
			if c := compareSets(x, y); c != 0 {
				return c
			}
		}
	}
	return 0
}

// compareSets orders sets by their words, from the last.
func compareSets(x, y Set) int {
	for i := max(len(x), len(y)) - 1; i >= 0; i-- {
		if a, b := x.word(i), y.word(i); a != b {
			if a < b {
				return -1
			}
			return 1
		}
	}
	return 0
}
