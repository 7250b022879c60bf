package space

import (
	"math/big"
	"slices"
)

// View is a region seen through some of its traits: each choice of their values that
// occurs, with the number of configurations behind it. It is valid as long as the
// regions made when it was.
type View struct {
	s      *Space
	traits []int
	root   Region // labels are numbers
}

// View forgets all traits of r but the listed ones, and counts.
func (s *Space) View(r Region, traits []int) *View { return s.weighed(r, traits, nil) }

// weighed is View where configurations count as a measure says.
func (s *Space) weighed(r Region, traits []int, m Measure) *View {
	drop := make(Set, (len(s.order)+63)/64)
	for l, t := range s.order {
		if !slices.Contains(traits, t) {
			drop[l/64] |= 1 << (l % 64)
		}
	}
	return &View{s: s, traits: slices.Clone(traits), root: s.sum(s.measured(r, m), drop)}
}

// Region is the choices of values that occur, with anything for the other traits: the
// same as Project.
func (v *View) Region() Region {
	v.s.memo.begin(len(v.s.nodes))
	return v.s.unlabel(v.root)
}

// Count is the number of configurations whose values of the view's traits are in b.
// It panics where b restricts another trait.
func (v *View) Count(b Box) *big.Int {
	s := v.s
	seen := make([]bool, len(s.sizes))
	for _, t := range v.traits {
		seen[t] = true
	}
	for t, set := range b {
		if set != nil && !seen[t] {
			panic("space: box restricts a trait that the view forgets")
		}
	}
	if _, ok := s.load(b); !ok {
		return new(big.Int)
	}
	s.widths()
	for l, t := range s.order {
		if !seen[t] {
			s.wide[l] = 1
		}
	}
	return s.weigh(v.root, 0, map[Region]*big.Int{})
}

// Each goes through the choices of values that occur, in the order of the view's
// traits as they were listed, each with the number of configurations behind it. The
// slice is the same at each call.
func (v *View) Each(yield func(values []int, n *big.Int) bool) {
	v.each(v.root, make([]int, len(v.traits)), 0, yield)
}

func (v *View) each(f Region, values []int, at int, yield func([]int, *big.Int) bool) bool {
	if f == Empty {
		return true
	}
	if at == len(v.traits) {
		return yield(values, v.s.number(f))
	}
	level := int32(v.s.level[v.traits[at]])
	for i := range v.s.sizes[v.traits[at]] {
		values[at] = i
		if !v.each(v.s.restrict(f, level, i), values, at+1, yield) {
			return false
		}
	}
	return true
}

// weigh sums the numbers of f within s.look and s.wide, for the levels from level on.
func (s *Space) weigh(f Region, level int32, memo map[Region]*big.Int) *big.Int {
	if f == Empty {
		return new(big.Int)
	}
	var sum *big.Int
	switch known, ok := memo[f]; {
	case f < 0:
		sum = new(big.Int).Set(s.number(f))
	case ok:
		sum = new(big.Int).Set(known)
	default:
		n := s.nodes[f]
		sum = new(big.Int)
		for i := range int(n.n) {
			if m := s.values(n, i); m > 0 {
				x := s.weigh(s.kids[int(n.kid)+i], n.level+1, memo)
				sum.Add(sum, x.Mul(x, new(big.Int).SetUint64(m)))
			}
		}
		memo[f] = new(big.Int).Set(sum)
	}
	return s.bigSpread(sum, level, s.at(f))
}
