package space

import "math/big"

// View is a region seen through some of its traits: each choice of their values that
// occurs, with the number of configurations behind it. It is valid as long as the
// regions made when it was.
type View struct {
	s      *Space
	traits []int
	root   Region // labels are numbers
}

// View forgets all traits of r but the listed ones, and counts.
func (s *Space) View(r Region, traits []int) *View {
	keep := make([]bool, len(s.order))
	for _, t := range traits {
		keep[s.level[t]] = true
	}
	v := viewer{s: s, keep: keep, below: map[Region]Region{}, grown: map[scaling]Region{}}
	root := v.scale(v.view(r), v.product(0, s.at(r)))
	return &View{s: s, traits: append([]int(nil), traits...), root: root}
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

// viewer makes one view.
type viewer struct {
	s     *Space
	keep  []bool // levels
	below map[Region]Region
	grown map[scaling]Region
}

type scaling struct {
	f, by Region // by: the label of a number
}

// view counts r at its level and deeper.
func (v *viewer) view(r Region) Region {
	s := v.s
	if r < 2 {
		if r == Empty {
			return Empty
		}
		return s.numberLabel(big.NewInt(1))
	}
	if done, ok := v.below[r]; ok {
		return done
	}
	n, out := s.nodes[r], Empty
	if v.keep[n.level] {
		out = s.rebuild(n, func(kid Region) Region { return v.scale(v.view(kid), v.product(n.level+1, s.at(kid))) })
	} else {
		for i := range int(n.n) {
			kid := s.kids[int(n.kid)+i]
			by := v.product(n.level+1, s.at(kid))
			by.Mul(by, big.NewInt(int64(s.set(n, i, s.words[n.level]).Len())))
			out = s.apply(plus, out, v.scale(v.view(kid), by))
		}
	}
	v.below[r] = out
	return out
}

// product is the number of values of the forgotten traits at the levels from up to
// below to.
func (v *viewer) product(from, to int32) *big.Int {
	n := big.NewInt(1)
	for l := from; l < to; l++ {
		if !v.keep[l] {
			n.Mul(n, big.NewInt(int64(v.s.sizes[v.s.order[l]])))
		}
	}
	return n
}

// scale multiplies all numbers of f.
func (v *viewer) scale(f Region, by *big.Int) Region {
	if f == Empty || by.IsInt64() && by.Int64() == 1 {
		return f
	}
	return v.multiply(f, v.s.numberLabel(by))
}

func (v *viewer) multiply(f, by Region) Region {
	if f < 0 {
		return v.s.numberLabel(new(big.Int).Mul(v.s.number(f), v.s.number(by)))
	}
	if f == Empty {
		return Empty
	}
	key := scaling{f, by}
	if done, ok := v.grown[key]; ok {
		return done
	}
	out := v.s.rebuild(v.s.nodes[f], func(kid Region) Region { return v.multiply(kid, by) })
	v.grown[key] = out
	return out
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
