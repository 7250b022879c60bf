package measure

import (
	"cmp"
	"math/big"
	"slices"
	"sync"
)

// nominal holds the nominal diameters, each with its text. It is made once; nothing
// changes it after.
var nominal = sync.OnceValue(func() []Size {
	var sizes []Size
	add := func(of Of, unit Unit, diameters ...*big.Rat) {
		for _, d := range diameters {
			s := Size{Of: of, Unit: unit, Num: d}
			s.Text = s.statement(unit)
			sizes = append(sizes, s)
		}
	}
	r := big.NewRat
	// SAE J844, outside diameters, from memory.
	add(Tube, Inch, r(1, 8), r(5, 32), r(3, 16), r(1, 4), r(5, 16), r(3, 8), r(1, 2), r(5, 8), r(3, 4))
	// DIN 74324 and ISO 7628, outside diameters, from memory.
	add(Tube, Millimetre, r(4, 1), r(6, 1), r(8, 1), r(10, 1), r(12, 1), r(15, 1), r(16, 1), r(18, 1))
	// Inside diameters of hoses: common practice, no source.
	add(Hose, Inch, r(1, 8), r(3, 16), r(1, 4), r(5, 16), r(3, 8), r(13, 32), r(1, 2), r(5, 8), r(3, 4), r(7, 8), r(1, 1))
	add(Hose, Millimetre, r(4, 1), r(5, 1), r(6, 1), r(8, 1), r(10, 1), r(11, 1), r(13, 1), r(16, 1), r(19, 1), r(25, 1))
	return sizes
})

// Nominal tells whether a table of nominal sizes has this diameter, whatever its wall.
func Nominal(s Size) bool {
	s.Wall = nil
	return slices.ContainsFunc(nominal(), s.Equal)
}

// nearPercent is how far off a nominal size may be to be called near: enough for
// every pair of inch and metric sizes that are taken for each other, of which 1/8 in
// and 3 mm, +5.83 %, are furthest apart.
const nearPercent = 6

// Near gives the nominal diameters within 6 % of a known size, of
// the same kind and of both systems, nearest first; the size's own is not among them.
func Near(s Size) []Size {
	if !s.Known() {
		return nil
	}
	var out []Size
	for _, n := range nominal() {
		if n.Of == s.Of && n.Compare(s) != 0 && within(n, s, nearPercent) {
			out = append(out, n)
		}
	}
	slices.SortStableFunc(out, func(a, b Size) int {
		return cmp.Or(gap(a, s).Cmp(gap(b, s)), cmp.Compare(a.Unit, b.Unit))
	})
	return out
}

// NearMiss tells whether two known sizes of one kind differ, but by no more than 1 %
// of the larger: too little for a calliper on a used tube. 5/32 in and 4 mm, 5/16 in
// and 8 mm, 5/8 in and 16 mm are such pairs, each 127/128.
func NearMiss(a, b Size) bool {
	if !a.Known() || !b.Known() || a.Of != b.Of || a.Compare(b) == 0 {
		return false
	}
	if a.Compare(b) < 0 {
		a, b = b, a
	}
	return within(b, a, 1)
}

// within tells whether n is within so many percent of s.
func within(n, s Size, percent int64) bool {
	return gap(n, s).Cmp(new(big.Rat).Mul(s.MM(), big.NewRat(percent, 100))) <= 0
}

// gap is the difference of two diameters in millimetres.
func gap(a, b Size) *big.Rat {
	d := new(big.Rat).Sub(a.MM(), b.MM())
	return d.Abs(d)
}
