package measure

import (
	"cmp"
	"math/big"
	"slices"
)

// Row is a row of a table of nominal sizes: a tube, with its wall where the table gives
// it, or a hose.
type Row struct {
	System    string   // the family of sizes
	Size      Size     // by which it is named
	Tolerance *big.Rat // of the outside diameter, either way, in mm; nil where not stated
	Least     *big.Rat // the least inside diameter of a tube that has several walls, in mm; nil for none
	Source    string   // where the figures come from
	Mark      Mark
}

// Mark says how far the source of a built-in Row was at hand.
type Mark string

const (
	Read     Mark = "read"     // in the source, or in a public file that quotes it
	Memory   Mark = "memory"   // no copy was at hand
	Practice Mark = "practice" // a fact of the trade, common practice with no source
)

// Reference gives the source and, in words, how far it was at hand.
func (r Row) Reference() string {
	switch r.Mark {
	case Memory:
		return r.Source + ", from memory"
	case Practice:
		return r.Source + ", no source"
	}
	return r.Source
}

// Admits tells whether the row is about a tube or hose of this diameter and wall. A size
// without a wall may have any.
func (r Row) Admits(s Size) bool {
	switch {
	case r.Size.Compare(s) != 0:
		return false
	case s.Wall == nil:
		return true
	case r.Least != nil:
		return s.Inside().Cmp(r.Least) >= 0
	}
	return r.Size.Equal(s)
}

// Table holds nominal sizes: the built-in ones and those that a workbook adds. The zero
// Table holds the built-in ones.
type Table struct{ more []Row }

// NewTable adds rows to the built-in ones.
func NewTable(more ...Row) Table { return Table{more} }

// Rows gives all rows, the built-in ones first.
func (t Table) Rows() []Row { return slices.Concat(builtIn(), t.more) }

// Of gives the rows of a known size's diameter and kind, whatever their walls.
func (t Table) Of(s Size) []Row {
	var out []Row
	for _, r := range t.Rows() {
		if s.Known() && r.Size.Compare(s) == 0 {
			out = append(out, r)
		}
	}
	return out
}

// Has tells whether a row has the size's diameter, whatever its wall.
func (t Table) Has(s Size) bool { return len(t.Of(s)) > 0 }

// Admits tells whether a row has the size's diameter and, where the size states one, its
// wall.
func (t Table) Admits(s Size) bool {
	return slices.ContainsFunc(t.Of(s), func(r Row) bool { return r.Admits(s) })
}

// nearPercent is how far off a nominal size may be to be called near: enough for
// every pair of inch and metric sizes that are taken for each other, of which 1/8 in
// and 3 mm, +5.83 %, are furthest apart.
const nearPercent = 6

// Near gives the nominal diameters within 6 % of a known size, of the same kind and of
// both systems, nearest first and without their walls; the size's own is not among them.
func (t Table) Near(s Size) []Size {
	if !s.Known() {
		return nil
	}
	var out []Size
	for _, r := range t.Rows() {
		n := r.Size.Bare()
		if n.Line == s.Line && n.Compare(s) != 0 && within(n, s, nearPercent) && !slices.ContainsFunc(out, n.Equal) {
			out = append(out, n)
		}
	}
	slices.SortStableFunc(out, func(a, b Size) int {
		return cmp.Or(gap(a, s).Cmp(gap(b, s)), cmp.Compare(a.Unit, b.Unit))
	})
	return out
}

// missPercent is how far apart two sizes may be and still be a near miss. 5/32 in and
// 4 mm, 5/16 in and 8 mm, 5/8 in and 16 mm are 1/128 apart, 0.78 %.
const missPercent = 1

// NearMiss tells whether two known sizes of one kind differ too little for a calliper on
// a used tube: by no more than 1 % of the larger, or by no more than the tolerances that
// the tables allow the two.
func (t Table) NearMiss(a, b Size) bool {
	if !a.Known() || !b.Known() || a.Line != b.Line || a.Compare(b) == 0 {
		return false
	}
	if a.Compare(b) < 0 {
		a, b = b, a
	}
	return within(b, a, missPercent) || gap(a, b).Cmp(new(big.Rat).Add(t.tolerance(a), t.tolerance(b))) <= 0
}

// tolerance gives the greatest tolerance that a row allows a tube, in mm, 0 for none. A
// hose is named by its inside diameter, of which no row says how far it may be off.
func (t Table) tolerance(s Size) *big.Rat {
	most := new(big.Rat)
	for _, r := range t.Of(s) {
		if r.Tolerance != nil && s.Line == Tube && r.Tolerance.Cmp(most) > 0 {
			most = r.Tolerance
		}
	}
	return most
}

// Rounded gives the built-in nominal diameter of which a known size is a rounding and no
// size of its own: 0.312 in of 5/16 in. It reports false where there is none.
func Rounded(s Size) (Size, bool) {
	if Standard().Has(s) {
		return Size{}, false
	}
	for _, n := range Standard().Near(s) {
		if gap(n, s).Cmp(new(big.Rat).Mul(s.MM(), conversion())) <= 0 {
			return n, true
		}
	}
	return Size{}, false
}

// Standard gives the built-in tables alone.
func Standard() Table { return Table{} }

// within tells whether n is within so many percent of s.
func within(n, s Size, percent int64) bool {
	return gap(n, s).Cmp(new(big.Rat).Mul(s.MM(), big.NewRat(percent, 100))) <= 0
}

// gap is the difference of two diameters in millimetres.
func gap(a, b Size) *big.Rat {
	d := new(big.Rat).Sub(a.MM(), b.MM())
	return d.Abs(d)
}
