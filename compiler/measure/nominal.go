package measure

import (
	"cmp"
	"math/big"
	"slices"
)

// nominal is one row of a table of sizes.
type nominal struct {
	of     Of
	unit   Unit
	num    *big.Rat
	source string
}

// Sources of the tables.
const (
	sourceInchTube   = "SAE J844, nominal outside diameters (from memory)"
	sourceMetricTube = "DIN 74324 and ISO 7628, outside diameters (from memory)"
	sourceHose       = "nominal inside diameters of air hose (common practice, no source)"
)

// table gives the nominal sizes. It is made anew for each caller, so that nobody can
// change it for others.
func table() []nominal {
	var out []nominal
	add := func(of Of, unit Unit, source string, sizes ...[2]int64) {
		for _, s := range sizes {
			out = append(out, nominal{of, unit, big.NewRat(s[0], s[1]), source})
		}
	}
	add(Tube, Inch, sourceInchTube, [2]int64{1, 8}, [2]int64{5, 32}, [2]int64{3, 16}, [2]int64{1, 4},
		[2]int64{5, 16}, [2]int64{3, 8}, [2]int64{1, 2}, [2]int64{5, 8}, [2]int64{3, 4})
	add(Tube, Millimetre, sourceMetricTube, [2]int64{4, 1}, [2]int64{6, 1}, [2]int64{8, 1}, [2]int64{10, 1},
		[2]int64{12, 1}, [2]int64{15, 1}, [2]int64{16, 1}, [2]int64{18, 1})
	add(Hose, Inch, sourceHose, [2]int64{3, 16}, [2]int64{1, 4}, [2]int64{5, 16}, [2]int64{3, 8}, [2]int64{13, 32},
		[2]int64{1, 2}, [2]int64{5, 8}, [2]int64{3, 4}, [2]int64{1, 1})
	add(Hose, Millimetre, sourceHose, [2]int64{6, 1}, [2]int64{8, 1}, [2]int64{10, 1}, [2]int64{11, 1},
		[2]int64{13, 1}, [2]int64{16, 1}, [2]int64{19, 1}, [2]int64{25, 1})
	return out
}

func (n nominal) size() Size { return Size{Of: n.of, Unit: n.unit, Num: n.num} }

// Nominal tells whether a table of nominal sizes holds the size.
func Nominal(s Size) bool {
	s.Wall = nil
	return slices.ContainsFunc(table(), func(n nominal) bool { return n.size().Equal(s) })
}

// near is how far apart sizes may be to be called near.
var near = big.NewRat(6, 100)

// Near gives the nominal sizes within 6 % of a size, the nearest first; of two equally
// near the smaller.
func Near(s Size) []Size {
	if s.Num == nil {
		return nil
	}
	type candidate struct {
		size Size
		off  *big.Rat
	}
	var found []candidate
	for _, n := range table() {
		if c := n.size(); c.Of == s.Of {
			if off := apart(c, s); off.Cmp(near) <= 0 {
				found = append(found, candidate{c, off})
			}
		}
	}
	slices.SortStableFunc(found, func(a, b candidate) int {
		return cmp.Or(a.off.Cmp(b.off), a.size.MM().Cmp(b.size.MM()))
	})
	out := make([]Size, len(found))
	for i, c := range found {
		out[i] = c.size
	}
	return out
}

// calliper is how far apart two sizes may be for a calliper not to tell them apart.
var calliper = big.NewRat(1, 100)

// NearMiss tells whether two sizes differ by less than 1 %: 5/16 in and 8 mm, 5/32 in
// and 4 mm, 5/8 in and 16 mm are 127 to 128.
func NearMiss(a, b Size) bool {
	return a.Num != nil && b.Num != nil && a.Of == b.Of && a.MM().Cmp(b.MM()) != 0 && apart(a, b).Cmp(calliper) < 0
}

// apart is the difference of two sizes as a part of the second.
func apart(a, b Size) *big.Rat {
	d := new(big.Rat).Sub(a.MM(), b.MM())
	return d.Abs(d).Quo(d, b.MM())
}
