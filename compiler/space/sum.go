package space

import "math/big"

// summer sums a function whose labels are numbers over some levels.
type summer struct {
	s    *Space
	drop Set
	memo map[Region]Region
}

// sum sums f over the levels of drop, all of whose values count.
func (s *Space) sum(f Region, drop Set) Region {
	x := summer{s, drop, map[Region]Region{}}
	return x.times(x.sum(f), 0, s.at(f))
}

func (x *summer) sum(f Region) Region {
	if f < 2 {
		return f
	}
	if done, ok := x.memo[f]; ok {
		return done
	}
	s, n, out := x.s, x.s.nodes[f], Empty
	if x.drop.Has(int(n.level)) {
		for i := range int(n.n) {
			kid := s.kids[int(n.kid)+i]
			part := x.times(x.sum(kid), n.level+1, s.at(kid))
			out = s.apply(plus, out, s.scale(part, s.set(n, i, s.words[n.level]).Len()))
		}
	} else {
		out = s.rebuild(n, func(kid Region) Region { return x.times(x.sum(kid), n.level+1, s.at(kid)) })
	}
	x.memo[f] = out
	return out
}

// times multiplies f by the values at the levels of drop from one level to below
// another, on which f does not depend.
func (x *summer) times(f Region, from, to int32) Region {
	for l := from; l < to; l++ {
		if x.drop.Has(int(l)) {
			f = x.s.scale(f, x.s.sizes[x.s.order[l]])
		}
	}
	return f
}

// scale multiplies all numbers of f.
func (s *Space) scale(f Region, by int) Region {
	if by == 1 {
		return f
	}
	return s.apply(times, f, s.numberLabel(big.NewInt(int64(by))))
}

// numbers gives labels to numbers, equal ones to equal numbers.
type numbers struct {
	list  []*big.Int
	label map[string]Region
}

func (s *Space) number(label Region) *big.Int { return s.numbers.list[-1-label] }

func (s *Space) numberLabel(n *big.Int) Region {
	key := string(n.Bytes())
	if label, ok := s.numbers.label[key]; ok {
		return label
	}
	if s.numbers.label == nil {
		s.numbers.label = map[string]Region{}
	}
	s.numbers.list = append(s.numbers.list, n)
	label := Region(-len(s.numbers.list))
	s.numbers.label[key] = label
	return label
}

// unlabel gives where a function with labels is defined; s.memo must have begun.
func (s *Space) unlabel(f Region) Region {
	switch {
	case f == Empty:
		return Empty
	case f < 0:
		return Full
	case s.memo.has(f):
		return s.memo.result[f]
	}
	return s.memo.put(f, s.rebuild(s.nodes[f], s.unlabel))
}
