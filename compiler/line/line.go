// Package line holds values that stand on a line: serial numbers and days.
//
// A serial number is up to eight letters and up to fifteen digits. Numbers with the same letters
// have an order; letters have none, so a line of serial numbers is as many lines as there are
// letters. Case, leading zeros, and spaces and hyphens between letters and digits make no
// difference. A day is a day of the Gregorian calendar, without an hour and so without a time
// zone. A month stands for its days.
//
// A Set is what a condition says of such values, in closed ranges; a Condition may have no end.
// Nothing here knows a catalogue.
package line

import (
	"cmp"
	"math/big"
)

// Kind is what stands on the line.
type Kind uint8

// The kinds.
const (
	Serial Kind = iota // numbers behind letters
	Date               // days
)

// Point is one value. N is the number behind the letters, or a day, counted from 1 January 1970.
type Point struct {
	Letters string // upper case; "" for days
	N       int64
}

// Ends gives the least and the greatest number of a kind: a serial number has fifteen digits at
// most, and a year four.
func (k Kind) Ends() (first, last int64) {
	if k == Date {
		return days(1, 1, 1), days(9999, 12, 31)
	}
	return 0, 999_999_999_999_999
}

// Compare orders points by letters, which is an order for the eye alone, and then by number.
func Compare(a, b Point) int {
	return cmp.Or(cmp.Compare(a.Letters, b.Letters), cmp.Compare(a.N, b.N))
}

// Range holds the points with the letters whose numbers lie between two, both included.
type Range struct {
	Letters  string
	From, To int64
}

// First gives the first point of the range.
func (r Range) First() Point { return Point{r.Letters, r.From} }

// End gives the last point of the range.
func (r Range) End() Point { return Point{r.Letters, r.To} }

// Len is how many points the range holds.
func (r Range) Len() int64 { return r.To - r.From + 1 }

// Has tells whether a point is in the range.
func (r Range) Has(p Point) bool { return r.Letters == p.Letters && r.From <= p.N && p.N <= r.To }

// Meets tells whether a point is in both.
func (r Range) Meets(o Range) bool { return r.Letters == o.Letters && r.From <= o.To && o.From <= r.To }

// In tells whether every point of r is in o.
func (r Range) In(o Range) bool { return r.Letters == o.Letters && o.From <= r.From && r.To <= o.To }

// One is the range of one point.
func One(p Point) Range { return Range{p.Letters, p.N, p.N} }

func compareRanges(a, b Range) int { return Compare(a.First(), b.First()) }

// Count is how many points there are in all of the ranges, none of which may meet another.
func (s Set) Count() *big.Int {
	n := new(big.Int)
	for _, r := range s {
		n.Add(n, big.NewInt(r.Len()))
	}
	return n
}
