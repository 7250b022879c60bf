package formula

import (
	"math"
	"math/big"

	"ferrule/compiler/measure"
)

// span is an interval of floating-point numbers that is certain to hold a value. What
// it proves is proved; what it does not is worked out with rationals. That what is
// proved is proved quickly matters, since a limit is worked out for every part on every
// region of vehicles.
//
// Its unit is such that lengths and masses as they are written are whole numbers: a
// tenth of a micrometre, of which an inch has 254 000, and ten milligrams, of which a
// hundred million make a kilogram and 45 359 237 a pound. Sums and products of whole
// numbers are exact, so that it proves that 7100 kg are at least 7100 kg.
type span struct{ low, high float64 }

// Powers of ten by which SI units are divided.
const (
	lengthPower = 7
	massPower   = 8
)

func spanOf(low, high *big.Rat, d measure.Dimension) span {
	power := lengthPower*int(d.Length) + massPower*int(d.Mass)
	scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(max(power, -power))), nil)
	by := new(big.Rat).SetInt(scale)
	if power < 0 {
		by.Inv(by)
	}
	return span{floor(new(big.Rat).Mul(low, by)), ceiling(new(big.Rat).Mul(high, by))}
}

// unknown is the span of which nothing is proved.
func unknown() span { return span{math.Inf(-1), math.Inf(1)} }

// floor gives the greatest number that is not above r, or one further down where that is
// beyond all numbers.
func floor(r *big.Rat) float64 {
	f, exact := r.Float64()
	if exact || !math.IsInf(f, 0) && new(big.Rat).SetFloat64(f).Cmp(r) < 0 {
		return f
	}
	return down(f)
}

func ceiling(r *big.Rat) float64 { return -floor(new(big.Rat).Neg(r)) }

func down(f float64) float64 { return math.Nextafter(f, math.Inf(-1)) }
func up(f float64) float64   { return math.Nextafter(f, math.Inf(1)) }

// rounded gives a number that is certain to be no more, and one that is certain to be no
// less, than f and an error that is known by its sign.
func rounded(f, off float64) span {
	switch {
	case off == 0:
		return span{f, f}
	case off > 0:
		return span{f, up(f)}
	case off < 0:
		return span{down(f), f}
	}
	return span{down(f), up(f)} // beyond what numbers can be
}

// sum adds two numbers. The error of a sum is itself a number (D. E. Knuth, The Art of
// Computer Programming, volume 2, section 4.2.2, from memory).
func sum(a, b float64) span {
	s := a + b
	t := s - a
	return rounded(s, (a-(s-t))+(b-t))
}

func (a span) plus(b span) span  { return span{sum(a.low, b.low).low, sum(a.high, b.high).high} }
func (a span) minus(b span) span { return span{sum(a.low, -b.high).low, sum(a.high, -b.low).high} }

// tiny is a number whose error may be smaller than any number.
const tiny = 1e-280

func product(a, b float64) span {
	p := a * b
	if math.Abs(p) < tiny && a != 0 && b != 0 {
		return span{down(p), up(p)}
	}
	return rounded(p, math.FMA(a, b, -p))
}

// quotient divides by a number that is not 0.
func quotient(a, b float64) span {
	q := a / b
	if (math.Abs(q) < tiny || math.Abs(a) < tiny) && a != 0 {
		return span{down(q), up(q)}
	}
	return rounded(q, math.FMA(-q, b, a)*math.Copysign(1, b))
}

func (a span) times(b span) span { return a.ends(b, product) }

func (a span) over(b span) span {
	if !(b.low > 0 || b.high < 0) {
		return unknown()
	}
	return a.ends(b, quotient)
}

// ends gives the least and the greatest of what four pairs of ends give.
func (a span) ends(b span, of func(x, y float64) span) span {
	out := of(a.low, b.low)
	if a.low == a.high && b.low == b.high {
		return out
	}
	for _, p := range [...]span{of(a.low, b.high), of(a.high, b.low), of(a.high, b.high)} {
		out = span{min(out.low, p.low), max(out.high, p.high)}
	}
	return out
}
