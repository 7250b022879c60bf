// Package measure reads, compares and prints sizes and measured values as exact
// rationals: nothing is rounded until it is printed, so 1/2 in and 12.7 mm are one size,
// and 5/16 in and 8 mm are not.
//
// A Quantity is a number, or a range, of a Unit; a Unit has a Dimension, and only values
// of one Dimension can be compared. The trade writes lb for a mass and, in rates and
// torques (lb/in, lb·ft), for a force; a force alone is lbf.
//
// A Size names what is fitted to a line. A tube is named by its outside diameter and a hose by its inside diameter
// (49 CFR 571.106, S4), so that the two are never the same size.
package measure

import (
	"cmp"
	"math/big"
)

// LineKind says what a size is measured on.
type LineKind uint8

const (
	Tube LineKind = iota // outside diameter
	Hose                 // inside diameter
)

func (o LineKind) String() string {
	if o == Hose {
		return "hose"
	}
	return "tube"
}

// Size is a nominal size as a workbook states it. The zero Size is one that could
// not be read: it equals nothing, itself included.
type Size struct {
	Line LineKind
	Unit Unit
	Num  *big.Rat // the diameter, in Unit; more than 0
	Wall *big.Rat // of a tube, in Unit; nil where not stated
	Text string   // as written
}

// Known tells whether the size could be read.
func (s Size) Known() bool { return s.Num != nil && s.Unit != NoUnit }

// MM gives the diameter in millimetres, exactly; nil where the size is not known.
func (s Size) MM() *big.Rat { return s.In(Millimetre) }

// In gives the diameter in a unit, exactly; nil where the size is not known.
func (s Size) In(u Unit) *big.Rat {
	if !s.Known() {
		return nil
	}
	return Convert(s.Num, s.Unit, u)
}

// Equal tells whether two known sizes are the same diameter of the same thing. Walls
// count only where both are stated.
func (s Size) Equal(o Size) bool {
	if !s.Known() || !o.Known() || s.Compare(o) != 0 {
		return false
	}
	if s.Wall == nil || o.Wall == nil {
		return true
	}
	return Convert(s.Wall, s.Unit, Millimetre).Cmp(Convert(o.Wall, o.Unit, Millimetre)) == 0
}

// Key is the same for two known sizes exactly if they are equal apart from their
// walls, and "" for a size that is not known.
func (s Size) Key() string {
	if !s.Known() {
		return ""
	}
	return s.Line.String() + " " + s.MM().RatString()
}

// Compare orders sizes: those that are not known first, then tubes before hoses, then
// by diameter. It gives 0 exactly where the Keys are equal.
func (s Size) Compare(o Size) int {
	if !s.Known() || !o.Known() {
		return cmp.Compare(b2i(s.Known()), b2i(o.Known()))
	}
	return cmp.Or(cmp.Compare(s.Line, o.Line), s.MM().Cmp(o.MM()))
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}
