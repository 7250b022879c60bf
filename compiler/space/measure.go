package space

import "math/big"

// Measure says how much each value of a trait counts, by trait; values beyond the end count one, and
// so do all of a trait of which there is nothing. A configuration counts as the product.
type Measure [][]*big.Int

// at gives how much a value counts.
func (m Measure) at(trait, value int) *big.Int {
	if m.plain(trait) || value >= len(m[trait]) {
		return one
	}
	return m[trait][value]
}

func (m Measure) plain(trait int) bool { return trait >= len(m) || m[trait] == nil }

var one = big.NewInt(1)

// Weigh is CountIn where configurations count as a measure says.
func (s *Space) Weigh(r Region, b Box, m Measure) *big.Int {
	if _, ok := s.load(b); !ok {
		return new(big.Int)
	}
	w := weigher{s: s, wide: make([]*big.Int, len(s.order)), known: map[Region]*big.Int{}, measure: m}
	for l := range s.order {
		w.wide[l] = w.values(int32(l), s.whole[l])
	}
	return w.spread(new(big.Int).Set(w.below(r)), 0, s.at(r))
}

// weigher weighs what is in s.look.
type weigher struct {
	s       *Space
	measure Measure
	wide    []*big.Int // how much all values of a level count that are looked at
	known   map[Region]*big.Int
}

// values is how much the values of a set count that are looked at.
func (w *weigher) values(level int32, in Set) *big.Int {
	trait, sum := w.s.order[level], new(big.Int)
	if look := w.s.look[level]; look != nil {
		in = in.And(look)
	}
	if w.measure.plain(trait) {
		return sum.SetInt64(int64(in.Len()))
	}
	for v := range in.Values() {
		sum.Add(sum, w.measure.at(trait, v))
	}
	return sum
}

// spread multiplies n by how much the levels from up to below to count.
func (w *weigher) spread(n *big.Int, from, to int32) *big.Int {
	for l := from; l < to; l++ {
		n.Mul(n, w.wide[l])
	}
	return n
}

// below weighs r at its level and deeper. The result must not be changed.
func (w *weigher) below(r Region) *big.Int {
	if r < 2 {
		return big.NewInt(int64(r))
	}
	if known, ok := w.known[r]; ok {
		return known
	}
	w.s.walked++
	n, sum := w.s.nodes[r], new(big.Int)
	for i := range int(n.n) {
		m := w.values(n.level, Set(w.s.set(n, i, w.s.words[n.level])))
		if m.Sign() > 0 {
			kid := w.s.kids[int(n.kid)+i]
			sum.Add(sum, m.Mul(m, w.spread(new(big.Int).Set(w.below(kid)), n.level+1, w.s.at(kid))))
		}
	}
	w.known[r] = sum
	return sum
}

// measured gives a function whose labels are how much a configuration of r counts, of the
// traits that are measured alone.
func (s *Space) measured(r Region, m Measure) Region {
	s.memo.begin(len(s.nodes))
	out := s.relabel(r, s.numberLabel(one))
	for trait := range m {
		if !m.plain(trait) {
			out = s.apply(times, out, s.lengths(trait, m))
		}
	}
	return out
}

// lengths gives a function whose labels are how much each value of a trait counts.
func (s *Space) lengths(trait int, m Measure) Region {
	var like []*big.Int // values that count as much are one box
	var sets []Set
	for v := range s.sizes[trait] {
		k, n := 0, m.at(trait, v)
		for k < len(like) && like[k].Cmp(n) != 0 {
			k++
		}
		if k == len(like) {
			like, sets = append(like, n), append(sets, nil)
		}
		sets[k] = sets[k].Or(SetOf(v))
	}
	out := Empty
	for k, set := range sets {
		if like[k].Sign() > 0 {
			box := s.Box(Box{}.With(trait, set))
			s.memo.begin(len(s.nodes))
			out = s.apply(plus, out, s.relabel(box, s.numberLabel(like[k])))
		}
	}
	return out
}
