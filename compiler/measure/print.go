package measure

import (
	"math/big"
	"strings"
)

// String gives the size in its own unit and, in brackets, in the other:
// `1/2 in (12.7 mm)`, `8x1 mm (0.315 in)`, `1/2 in hose (12.7 mm)`. The first is
// exact and ParseSize reads it back to an equal size; the one in brackets may be
// rounded.
func (s Size) String() string { return s.Words(s.Unit) }

// Words is String with the given unit first; the wall stands with the unit in which
// it was stated. A size that is not known prints as it was written.
func (s Size) Words(first Unit) string {
	if !s.Known() {
		return s.Text
	}
	if first == NoUnit {
		first = s.Unit
	}
	out := s.statement(first)
	if s.Line == Hose {
		out += " hose"
	}
	return out + " (" + s.statement(first.Other()) + ")"
}

// statement is the size in one unit.
func (s Size) statement(u Unit) string {
	if u != s.Unit {
		return rounded(Convert(s.Num, s.Unit, u), u)
	}
	if s.Wall == nil {
		return plain(s.Num, u)
	}
	return digits(s.Num, u) + "x" + plain(s.Wall, u)
}

// plain is an exact length with its unit.
func plain(r *big.Rat, u Unit) string { return digits(r, u) + " " + u.String() }

// digits writes a number exactly: inches in fractions down to 64ths, else a decimal
// if it is short enough to be read back, else a fraction.
func digits(r *big.Rat, u Unit) string {
	if r.IsInt() || u == Inch && rule(r.Denom()) {
		return mixed(r)
	}
	for places := 1; places < maxDigits; places++ {
		if text := r.FloatString(places); same(text, r) && len(text) <= maxDigits+1 {
			return text
		}
	}
	return mixed(r)
}

func same(text string, r *big.Rat) bool {
	back, ok := new(big.Rat).SetString(text)
	return ok && back.Cmp(r) == 0
}

// rule tells whether rules have this part of an inch: a power of two up to 64.
func rule(d *big.Int) bool {
	n := d.Int64()
	return d.IsInt64() && n <= 64 && n&(n-1) == 0
}

// mixed writes `3`, `1/2` or `1 1/4`.
func mixed(r *big.Rat) string {
	if r.Sign() < 0 {
		return "-" + mixed(new(big.Rat).Neg(r))
	}
	whole, rest := new(big.Int).QuoRem(r.Num(), r.Denom(), new(big.Int))
	switch {
	case rest.Sign() == 0:
		return whole.String()
	case whole.Sign() == 0:
		return r.String()
	}
	return whole.String() + " " + rest.String() + "/" + r.Denom().String()
}

// rounded writes a length of the other system. A fraction of an inch stays one.
func rounded(r *big.Rat, u Unit) string {
	if u == Inch && rule(r.Denom()) {
		return plain(r, u)
	}
	return Decimal(r, lengthPlaces(r)) + " " + u.String()
}

// readable bounds the decimals of a rounded number, so that it can be read back.
func readable(r *big.Rat, places int) int {
	return max(min(places, maxDigits-2-max(magnitude(r), 0)), 0)
}

// lengthPlaces is three decimals, and more where fewer than three digits that count would
// be left.
func lengthPlaces(r *big.Rat) int {
	if r.Sign() == 0 {
		return 3
	}
	return readable(r, max(3, 2-magnitude(r)))
}

// Decimal writes a number with at most so many digits behind the point and without
// trailing zeros; an exact half goes to the even digit, as NIST SP 811 (2008) B.7.1
// shows.
func Decimal(r *big.Rat, places int) string {
	scale := power10(places)
	scaled := new(big.Rat).Mul(r, new(big.Rat).SetInt(scale))
	whole, rest := new(big.Int).DivMod(scaled.Num(), scaled.Denom(), new(big.Int))
	if c := rest.Lsh(rest, 1).Cmp(scaled.Denom()); c > 0 || c == 0 && whole.Bit(0) == 1 {
		whole.Add(whole, big.NewInt(1))
	}
	text := new(big.Rat).SetFrac(whole, scale).FloatString(places)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
}
