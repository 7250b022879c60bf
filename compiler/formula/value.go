package formula

import (
	"math/big"

	"ferrule/compiler/measure"
)

// Value is what a name or a formula is worth: a closed interval in coherent SI
// units, of which both ends are the same where it is a single number.
type Value struct {
	Low, High *big.Rat
	near      span
}

// NewValue makes a value of its ends, which are kept, and its dimension.
func NewValue(low, high *big.Rat, d measure.Dimension) Value {
	if low.Cmp(high) > 0 {
		panic("formula.NewValue: the low end is above the high end")
	}
	return Value{low, high, spanOf(low, high, d)}
}

// ValueOf gives what a known quantity is worth.
func ValueOf(q measure.Quantity) Value {
	low, high := q.SI()
	return NewValue(low, high, q.Dimension())
}

// Key is the same for two values exactly if they have the same ends.
func (v Value) Key() string { return v.Low.RatString() + " " + v.High.RatString() }

// Single tells whether the value is one number.
func (v Value) Single() bool { return v.Low.Cmp(v.High) == 0 }

// Hull gives a value that holds both. It has no ends of its own and is good for
// Certain alone.
func (v Value) Hull(w Value) Value {
	return Value{near: span{min(v.near.low, w.near.low), max(v.near.high, w.near.high)}}
}
