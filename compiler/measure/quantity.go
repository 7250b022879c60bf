package measure

import "math/big"

// Quantity is a measured value: a number of a unit, the two ends of a range, or the most or
// least that something may be, see Bound. The zero
// Quantity is one that could not be read.
type Quantity struct {
	Low, High *big.Rat // in Unit; equal where it is one value; Low is never above High
	Unit      Unit
	Text      string // as written; "" for what was computed

	form      form
	bound     Bound
	low, high wording
}

// form says how a Quantity was written, which is how it is printed.
type form uint8

const (
	single form = iota
	span
	tolerance // around the middle of Low and High
)

// wording says how closely an end was written, which its conversion follows.
type wording struct {
	digits int  // that count; 0 for a fraction or a computed value
	whole  bool // without decimals
}

// New gives a computed value: low and high are in the unit, and equal for one value.
func New(low, high *big.Rat, unit Unit) Quantity {
	unit.must("measure.New")
	if low.Cmp(high) > 0 {
		panic("measure.New: low is above high")
	}
	q := Quantity{Low: low, High: high, Unit: unit}
	if low.Cmp(high) != 0 {
		q.form = span
	}
	return q
}

// FromSI gives a computed value in a unit; low and high are in coherent SI units of its
// dimension.
func FromSI(low, high *big.Rat, unit Unit) Quantity {
	unit.must("measure.FromSI")
	return New(unit.fromSI(low), unit.fromSI(high), unit)
}

// Known tells whether the value could be read.
func (q Quantity) Known() bool { return q.Low != nil && q.High != nil && q.Unit != NoUnit }

// Single tells whether a known quantity is one value rather than a range.
func (q Quantity) Single() bool { return q.Low.Cmp(q.High) == 0 }

// Dimension of a known quantity.
func (q Quantity) Dimension() Dimension { return q.Unit.Dimension() }

// SI gives both ends of a known quantity in coherent SI units, exactly (angles: to 60
// digits of π; temperatures in kelvin).
func (q Quantity) SI() (low, high *big.Rat) {
	return q.Unit.toSI(q.Low), q.Unit.toSI(q.High)
}

// In gives a known quantity in another unit of its dimension, as a computed value.
func (q Quantity) In(u Unit) Quantity {
	return New(Convert(q.Low, q.Unit, u), Convert(q.High, q.Unit, u), u)
}

// Equal tells whether two known quantities are of one dimension and have the same ends.
func (q Quantity) Equal(o Quantity) bool {
	if !q.Known() || !o.Known() || q.Dimension() != o.Dimension() {
		return false
	}
	low, high := q.SI()
	oLow, oHigh := o.SI()
	return low.Cmp(oLow) == 0 && high.Cmp(oHigh) == 0 && q.bound == o.bound
}
