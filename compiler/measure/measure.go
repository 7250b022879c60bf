// Package measure reads sizes as exact rationals and knows the nominal sizes of
// tubing and hose.
//
// A size is what a workbook states of a line or of a part for lines: a number with a
// unit, 1/2 in or 12.7 mm, and perhaps a wall. Nothing is rounded on the way in:
// 0.5 in, 1/2 in and 12.7 mm are one magnitude, since one inch is exactly 25.4 mm
// (NIST SP 811 (2008), Appendix B.8).
package measure

import (
	"math/big"
)

// Of says what a size is measured on. A plastic tubing size is a nominal outside
// diameter and a hose size a nominal inside diameter (49 CFR 571.106, S4), so the two
// are never equal.
type Of uint8

const (
	Tube Of = iota // outside diameter
	Hose           // inside diameter
)

// Unit of length as written.
type Unit uint8

const (
	NoUnit Unit = iota
	Inch
	Millimetre
)

// Size is a nominal size as a workbook states it. The zero Size equals nothing.
type Size struct {
	Of   Of
	Unit Unit
	Num  *big.Rat // in Unit; nil: no size could be read
	Wall *big.Rat // in Unit; nil where not stated
	Text string   // as written
}

// inch in millimetres: exact (NIST SP 811 (2008), Appendix B.8).
var inch = big.NewRat(254, 10)

// MM gives the magnitude in millimetres, nil where there is none.
func (s Size) MM() *big.Rat { return s.mm(s.Num) }

func (s Size) mm(n *big.Rat) *big.Rat {
	if n == nil {
		return nil
	}
	if s.Unit == Inch {
		return new(big.Rat).Mul(n, inch)
	}
	return new(big.Rat).Set(n)
}

// Equal tells whether two sizes match: the same magnitude, exactly, measured on the
// same thing. Walls only matter where both are stated.
func (s Size) Equal(o Size) bool {
	if s.Num == nil || o.Num == nil || s.Of != o.Of || s.MM().Cmp(o.MM()) != 0 {
		return false
	}
	return s.Wall == nil || o.Wall == nil || s.mm(s.Wall).Cmp(o.mm(o.Wall)) == 0
}

// Key is the same for sizes of the same magnitude on the same thing, whatever their
// walls.
func (s Size) Key() string {
	if s.Num == nil {
		return ""
	}
	if s.Of == Hose {
		return "hose " + s.MM().RatString()
	}
	return "tube " + s.MM().RatString()
}

// Compare orders sizes: tubes before hoses, then by magnitude. Sizes that could not be
// read come first.
func (s Size) Compare(o Size) int {
	switch {
	case s.Num == nil || o.Num == nil:
		return b2i(s.Num != nil) - b2i(o.Num != nil)
	case s.Of != o.Of:
		return int(s.Of) - int(o.Of)
	}
	return s.MM().Cmp(o.MM())
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}
