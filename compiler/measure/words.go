package measure

import (
	"math/big"
	"strings"
)

// String gives the value in its own unit and, in brackets, in the other system:
// `65 lb·ft (88 N·m)`. The first is exact for what was read, and ParseQuantity reads it
// back to an equal Quantity; the one in brackets is rounded, see places.
func (q Quantity) String() string { return q.Words(NoSystem) }

// Words is String with the unit of the given system first. A quantity that is not known
// prints as it was written.
func (q Quantity) Words(first System) string {
	if !q.Known() {
		return q.Text
	}
	other := q.Unit.Other()
	said := func(words string) string {
		if q.bound != Exactly {
			return q.bound.String() + " " + words
		}
		return words
	}
	switch {
	case other == NoUnit:
		return said(q.own())
	case first == NoSystem || first == q.Unit.System() || q.Unit.System() == NoSystem:
		return said(q.own() + " (" + q.converted(other) + ")")
	}
	return said(q.converted(other) + " (" + q.own() + ")")
}

// own is the value in its own unit: exactly what was read, and what was computed to
// five digits.
func (q Quantity) own() string {
	return q.statement(q.Unit, func(r *big.Rat, _ wording) string {
		exact := digits(r, q.Unit)
		ruled := q.Unit == Inch && rule(r.Denom())
		if q.computed() && !ruled && (len(exact) > maxComputed || strings.Contains(exact, "/")) {
			return significant(r, maxComputed-2)
		}
		return exact
	})
}

// maxComputed bounds the characters of a computed value that is shown exactly.
const maxComputed = 7

func (q Quantity) computed() bool { return q.low == wording{} && q.high == wording{} && q.Text == "" }

// converted is the value in another unit of its dimension, rounded. A tolerance is shown
// with as many decimals as its middle, and both with enough to show it at all.
func (q Quantity) converted(u Unit) string {
	if q.form == tolerance {
		middle, off := q.middle()
		exact := Convert(middle, q.Unit, u)
		off = difference(off, q.Unit, u)
		least := readable(exact, max(places(exact, u, middle, q.low), -magnitude(off)))
		return toleranced(Decimal(exact, least), Decimal(off, readable(off, least)), u)
	}
	return q.statement(u, func(r *big.Rat, w wording) string {
		exact := Convert(r, q.Unit, u)
		if u == Inch && rule(exact.Denom()) {
			return mixed(exact)
		}
		return Decimal(exact, places(exact, u, r, w))
	})
}

// Degrees writes a difference of two temperatures, which is given in kelvin, in a unit and
// the other system: 10 °C (18 °F).
func Degrees(kelvin *big.Rat, u Unit) string {
	own, other := new(big.Rat).Quo(kelvin, u.SI()), new(big.Rat).Quo(kelvin, u.Other().SI())
	return withUnit(Decimal(own, 2), u) + " (" + withUnit(Decimal(other, 1), u.Other()) + ")"
}

// middle gives the middle of both ends and how far they are from it.
func (q Quantity) middle() (middle, off *big.Rat) {
	middle = new(big.Rat).Add(q.Low, q.High)
	middle.Quo(middle, big.NewRat(2, 1))
	return middle, new(big.Rat).Sub(q.High, middle)
}

// statement writes both ends, or the middle and the tolerance, each by number.
func (q Quantity) statement(u Unit, number func(*big.Rat, wording) string) string {
	switch q.form {
	case span:
		low, high, join := number(q.Low, q.low), number(q.High, q.high), "–"
		if q.Low.Sign() != 0 && strings.Contains(low, "/") != strings.Contains(high, "/") {
			// A fraction to a whole number would read as a thread.
			low, high = undivided(low), undivided(high)
		}
		if strings.HasPrefix(low, "-") {
			join = " to "
		}
		return withUnit(low+join+high, u)
	case tolerance:
		middle, off := q.middle()
		return toleranced(number(middle, q.low), number(off, q.low), u)
	}
	return withUnit(number(q.Low, q.low), u)
}

// undivided writes a printed fraction of an inch as a decimal.
func undivided(text string) string {
	whole, part, mixed := strings.Cut(text, " ")
	if !mixed {
		whole, part = "0", text
	}
	w, ok1 := new(big.Rat).SetString(whole)
	r, ok2 := new(big.Rat).SetString(part)
	if !ok1 || !ok2 {
		panic("measure: a printed number is none: " + text)
	}
	if w.Sign() < 0 {
		r.Neg(r)
	}
	return digits(r.Add(r, w), One)
}

func toleranced(middle, off string, u Unit) string { return withUnit(middle+" ±"+off, u) }

// withUnit puts a unit behind a number.
func withUnit(text string, u Unit) string {
	switch u {
	case One:
		return text
	case Degree:
		return text + u.String() // NIST SP 811 (2008), 7.2: no space before the sign
	}
	return text + " " + u.String()
}

// places says with how many decimals a value is shown that was converted to u from
// another unit, where it stood as from.
//
// Lengths are shown like sizes, with three. Everything else follows figures, held back in
// two ways: never fewer than two digits and never a rounded whole part (8 bar is 116 psi,
// not 120), and no decimals for a whole number where three digits stand before the point
// (10 000 lb is 4536 kg).
func places(r *big.Rat, u Unit, from *big.Rat, w wording) int {
	switch {
	case u.Dimension() == Dimension{Length: 1}:
		return lengthPlaces(r)
	case u.zero() != nil:
		return degreePlaces(from, w)
	case w.whole && magnitude(r) >= 2:
		return 0
	}
	return decimals(r, figures(r, from, w.digits))
}

// degreePlaces gives a temperature the decimals that it was stated with, since a degree of
// the one scale is about one of the other; one where it was computed.
func degreePlaces(from *big.Rat, w wording) int {
	if w.digits == 0 {
		return 1
	}
	if w.whole {
		return 0
	}
	return readable(from, max(w.digits-1-magnitude(from), 1))
}

// figures says how many digits of a converted value count: as many as in the original, and
// one more where the first digit becomes smaller (NIST SP 1038 (2006), from memory). A
// fraction counts as three digits.
func figures(r, from *big.Rat, count int) int {
	if count == 0 {
		count = 3
	}
	if firstDigit(r) < firstDigit(from) {
		count++
	}
	return count
}

// significant writes a number with so many digits that count, at least two, and never
// rounds before the point.
func significant(r *big.Rat, count int) string { return Decimal(r, decimals(r, count)) }

// decimals says how many decimals it takes for so many digits that count, at least two.
func decimals(r *big.Rat, count int) int {
	return readable(r, max(count, 2)-1-magnitude(r))
}

// magnitude is the power of ten of the first digit that counts: 0 for 1 to 9; 0 for 0.
func magnitude(r *big.Rat) int {
	abs, m, ten := new(big.Rat).Abs(r), 0, big.NewRat(10, 1)
	if abs.Sign() == 0 {
		return 0
	}
	for ; abs.Cmp(ten) >= 0; m++ {
		abs.Quo(abs, ten)
	}
	for one := big.NewRat(1, 1); abs.Cmp(one) < 0; m-- {
		abs.Mul(abs, ten)
	}
	return m
}

// firstDigit is the first digit of a number that counts.
func firstDigit(r *big.Rat) int64 {
	abs, m := new(big.Rat).Abs(r), magnitude(r)
	scale := new(big.Rat).SetInt(power10(max(m, -m)))
	if m > 0 {
		abs.Quo(abs, scale)
	} else {
		abs.Mul(abs, scale)
	}
	return new(big.Int).Quo(abs.Num(), abs.Denom()).Int64()
}
