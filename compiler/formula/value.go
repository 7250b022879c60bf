package formula

import (
	"math"
	"math/big"

	"ferrule/compiler/measure"
)

// Value is what a name or a formula is worth: a closed interval in coherent SI
// units, of which both ends are the same where it is a single number.
type Value struct {
	Low, High *big.Rat
	near      span
}

// NewValue makes a value of its ends, which are kept.
func NewValue(low, high *big.Rat) Value {
	if low.Cmp(high) > 0 {
		panic("formula.NewValue: the low end is above the high end")
	}
	return Value{low, high, span{floor(low), ceiling(high)}}
}

// ValueOf gives what a known quantity is worth.
func ValueOf(q measure.Quantity) Value { return NewValue(q.SI()) }

// Key is the same for two values exactly if they have the same ends.
func (v Value) Key() string { return v.Low.RatString() + " " + v.High.RatString() }

// Single tells whether the value is one number.
func (v Value) Single() bool { return v.Low.Cmp(v.High) == 0 }

// Hull gives a value that holds both. It has no ends of its own and is good for
// Certain alone.
func (v Value) Hull(w Value) Value {
	return Value{near: span{min(v.near.low, w.near.low), max(v.near.high, w.near.high)}}
}

// span is an interval of floating-point numbers that is certain to hold a value. What
// it proves is proved; what it does not is worked out with rationals.
type span struct{ low, high float64 }

// unknown is the span of which nothing is proved.
func unknown() span { return span{math.Inf(-1), math.Inf(1)} }

func floor(r *big.Rat) float64 {
	f, exact := r.Float64()
	if exact {
		return f
	}
	return down(f)
}

func ceiling(r *big.Rat) float64 {
	f, exact := r.Float64()
	if exact {
		return f
	}
	return up(f)
}

func down(f float64) float64 { return math.Nextafter(f, math.Inf(-1)) }
func up(f float64) float64   { return math.Nextafter(f, math.Inf(1)) }

func (a span) plus(b span) span  { return span{down(a.low + b.low), up(a.high + b.high)} }
func (a span) minus(b span) span { return span{down(a.low - b.high), up(a.high - b.low)} }

func (a span) times(b span) span {
	w, x, y, z := a.low*b.low, a.low*b.high, a.high*b.low, a.high*b.high
	return span{down(min(w, x, y, z)), up(max(w, x, y, z))}
}

func (a span) over(b span) span {
	if b.low <= 0 && b.high >= 0 {
		return unknown()
	}
	w, x, y, z := a.low/b.low, a.low/b.high, a.high/b.low, a.high/b.high
	return span{down(min(w, x, y, z)), up(max(w, x, y, z))}
}
