package measure

import (
	"cmp"
	"math/big"
	"slices"
	"sync"
)

// Row is one nominal size with the source that names it.
type Row struct {
	Size   Size
	Source string
}

const (
	fromJ844 = "SAE J844, from memory"
	fromDIN  = "DIN 74324 and ISO 7628, from memory"
	fromHose = "common practice, no source"
)

// nominal is parsed once; nothing changes it after.
var nominal = sync.OnceValue(func() []Row {
	var rows []Row
	add := func(source, suffix string, sizes ...string) {
		for _, text := range sizes {
			s, err := ParseSize(text+suffix, Options{})
			if err != nil {
				panic("measure: nominal table: " + err.Error())
			}
			rows = append(rows, Row{s, source})
		}
	}
	add(fromJ844, " in", "1/8", "5/32", "3/16", "1/4", "5/16", "3/8", "1/2", "5/8", "3/4")
	add(fromDIN, " mm", "4x1", "6x1", "8x1", "10x1", "10x1.5", "12x1.5", "15x1.5", "16x2", "18x2")
	add(fromHose, " in hose", "1/8", "3/16", "1/4", "5/16", "3/8", "13/32", "1/2", "5/8", "3/4", "7/8", "1")
	add(fromHose, " mm hose", "4", "5", "6", "8", "10", "11", "13", "16", "19", "25")
	return rows
})

// Table gives all nominal sizes: outside diameters of air tubing, then inside
// diameters of hoses, each with its source.
func Table() []Row { return slices.Clone(nominal()) }

// Nominal tells whether a table of nominal sizes has this one. Where a wall is stated
// and the table states walls, it must be one of them.
func Nominal(s Size) bool {
	return slices.ContainsFunc(nominal(), func(r Row) bool { return r.Size.Equal(s) })
}

// nearPercent is how far off a nominal size may be to be called near: enough for
// every pair of inch and metric sizes that are taken for each other, of which 1/8 in
// and 3 mm, +5.83 %, are furthest apart.
const nearPercent = 6

// Near gives the nominal diameters, walls left out, within 6 % of a known size, of
// the same kind and of both systems, nearest first; the size's own is not among them.
func Near(s Size) []Size {
	var out []Size
	for _, n := range others(s) {
		if within(n, s, nearPercent) {
			out = append(out, n)
		}
	}
	slices.SortStableFunc(out, func(a, b Size) int {
		return cmp.Or(gap(a, s).Cmp(gap(b, s)), cmp.Compare(a.Unit, b.Unit))
	})
	return out
}

// Around gives the next smaller and the next larger nominal diameter in each
// system, in the order of size: for a message where nothing is Near.
func Around(s Size) []Size {
	var out []Size
	for _, u := range []Unit{Inch, Millimetre} {
		sizes := slices.DeleteFunc(others(s), func(n Size) bool { return n.Unit != u })
		slices.SortFunc(sizes, Size.Compare)
		i := slices.IndexFunc(sizes, func(n Size) bool { return n.Compare(s) > 0 })
		if i < 0 {
			i = len(sizes)
		}
		out = append(out, sizes[max(0, i-1):min(len(sizes), i+1)]...)
	}
	slices.SortStableFunc(out, Size.Compare)
	return out
}

// others gives the nominal diameters of the kind of s, each once, without s itself.
func others(s Size) []Size {
	var out []Size
	if !s.Known() {
		return nil
	}
	for _, r := range nominal() {
		n := r.Size
		n.Wall = nil
		n.Text = n.statement(n.Unit)
		if n.Of == s.Of && n.Compare(s) != 0 && !slices.ContainsFunc(out, n.Equal) {
			out = append(out, n)
		}
	}
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
