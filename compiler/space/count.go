package space

import (
	"math/big"
	"math/bits"
)

// Count is the number of configurations in r.
func (s *Space) Count(r Region) *big.Int {
	s.load(nil)
	s.widths()
	s.count.grow(len(s.nodes))
	return s.total(&s.count, r)
}

// CountIn is the number of configurations of r that are in b.
func (s *Space) CountIn(r Region, b Box) *big.Int {
	if _, ok := s.load(b); !ok {
		return new(big.Int)
	}
	s.widths()
	s.part.forget()
	s.part.grow(len(s.nodes))
	return s.total(&s.part, r)
}

// tally remembers the number of configurations below nodes: those of the traits at
// the node's level and deeper. Where all configurations of the space are fewer than
// 2^128, so is every number, and small has them; big has them elsewhere.
type tally struct {
	visits
	huge  bool
	small []uint128
	big   []*big.Int
}

func (t *tally) reset(sizes []int) {
	t.forget()
	all := uint128{lo: 1}
	t.huge = false
	for _, n := range sizes {
		over := false
		all, over = all.times(uint64(n))
		t.huge = t.huge || over
	}
	if !t.huge {
		t.big = nil
	}
}

// grow makes room for n nodes and keeps what is known.
func (t *tally) grow(n int) {
	if len(t.stamp) < n {
		t.stamp = append(t.stamp, make([]uint32, n+n/2-len(t.stamp))...)
	}
	if t.huge && len(t.big) < len(t.stamp) {
		t.big = append(t.big, make([]*big.Int, len(t.stamp)-len(t.big))...)
	}
	if !t.huge && len(t.small) < len(t.stamp) {
		t.small = append(t.small, make([]uint128, len(t.stamp)-len(t.small))...)
	}
}

// cut forgets the nodes from n on.
func (t *tally) cut(n int) {
	if n < len(t.stamp) {
		clear(t.stamp[n:])
	}
}

// total counts r within s.look and s.wide.
func (s *Space) total(t *tally, r Region) *big.Int {
	if t.huge {
		n := s.bigBelow(t, r)
		return s.bigSpread(new(big.Int).Set(n), 0, s.at(r))
	}
	return s.spread(s.below128(t, r), 0, s.at(r)).big()
}

// spread multiplies n by the number of values at the levels from up to below to.
func (s *Space) spread(n uint128, from, to int32) uint128 {
	for l := from; l < to; l++ {
		n, _ = n.times(s.wide[l])
	}
	return n
}

// below128 counts the configurations of r at its level and deeper.
func (s *Space) below128(t *tally, r Region) uint128 {
	if r < 2 {
		return uint128{lo: uint64(r)}
	}
	if t.has(r) {
		return t.small[r]
	}
	s.walked++
	n := s.nodes[r]
	var sum uint128
	for i := range int(n.n) {
		if m := s.values(n, i); m > 0 {
			kid := s.kids[int(n.kid)+i]
			x, _ := s.spread(s.below128(t, kid), n.level+1, s.at(kid)).times(m)
			sum = sum.plus(x)
		}
	}
	t.add(r)
	t.small[r] = sum
	return sum
}

// values is the number of values of edge i of n that are in s.look.
func (s *Space) values(n node, i int) uint64 {
	set, w, count := s.look[n.level], s.words[n.level], 0
	for j, m := range s.set(n, i, w) {
		if set != nil {
			m &= set.word(j)
		}
		count += bits.OnesCount64(m)
	}
	return uint64(count)
}

func (s *Space) bigSpread(n *big.Int, from, to int32) *big.Int {
	var x big.Int
	for l := from; l < to; l++ {
		n.Mul(n, x.SetUint64(s.wide[l]))
	}
	return n
}

// bigBelow is below128 for numbers of any size. The result must not be changed.
func (s *Space) bigBelow(t *tally, r Region) *big.Int {
	if r < 2 {
		return big.NewInt(int64(r))
	}
	if t.has(r) {
		return t.big[r]
	}
	s.walked++
	n := s.nodes[r]
	sum, x := new(big.Int), new(big.Int)
	for i := range int(n.n) {
		if m := s.values(n, i); m > 0 {
			kid := s.kids[int(n.kid)+i]
			s.bigSpread(x.Set(s.bigBelow(t, kid)), n.level+1, s.at(kid))
			sum.Add(sum, x.Mul(x, new(big.Int).SetUint64(m)))
		}
	}
	t.add(r)
	t.big[r] = sum
	return sum
}

// uint128 is a natural number below 2^128.
type uint128 struct{ hi, lo uint64 }

func (a uint128) plus(b uint128) uint128 {
	lo, carry := bits.Add64(a.lo, b.lo, 0)
	hi, _ := bits.Add64(a.hi, b.hi, carry)
	return uint128{hi, lo}
}

// times multiplies and tells whether the product does not fit.
func (a uint128) times(n uint64) (product uint128, over bool) {
	carry, lo := bits.Mul64(a.lo, n)
	top, mid := bits.Mul64(a.hi, n)
	hi, c := bits.Add64(mid, carry, 0)
	return uint128{hi, lo}, top != 0 || c != 0
}

func (a uint128) minus(b uint128) uint128 {
	lo, borrow := bits.Sub64(a.lo, b.lo, 0)
	hi, _ := bits.Sub64(a.hi, b.hi, borrow)
	return uint128{hi, lo}
}

func (a uint128) less(b uint128) bool { return a.hi < b.hi || a.hi == b.hi && a.lo < b.lo }

// toUint128 is n, which must fit.
func toUint128(n *big.Int) uint128 {
	lo := new(big.Int).And(n, new(big.Int).SetUint64(1<<64-1))
	return uint128{new(big.Int).Rsh(n, 64).Uint64(), lo.Uint64()}
}

func (a uint128) big() *big.Int {
	n := new(big.Int).SetUint64(a.hi)
	return n.Lsh(n, 64).Or(n, new(big.Int).SetUint64(a.lo))
}
