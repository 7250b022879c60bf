package wire

import (
	"encoding/json"
	"math"
	"math/big"
	"strings"
)

// exactDigits is how many significant digits any decimal keeps on its way through a
// double and back (IEEE 754 binary64: DBL_DIG is 15).
const exactDigits = 15

// Decimal writes a rational as a JSON number: whole numbers and decimals that end
// within 15 digits exactly, others as the shortest decimal that reads back to the
// nearest double. It gives "" for nil.
func Decimal(r *big.Rat) json.Number {
	if r == nil {
		return ""
	}
	if r.IsInt() {
		return json.Number(r.Num().String())
	}
	if places, ends := r.FloatPrec(); ends && places <= 400 {
		if s := r.FloatString(places); significant(s) <= exactDigits {
			return json.Number(s)
		}
	}
	f, _ := r.Float64()
	if math.IsInf(f, 0) {
		return json.Number(r.FloatString(0))
	}
	b, err := json.Marshal(f)
	if err != nil {
		panic("data: a finite double has a JSON form: " + err.Error())
	}
	return json.Number(b)
}

// significant counts the digits of a decimal from the first that is not zero.
func significant(s string) int {
	s = strings.Replace(strings.TrimPrefix(s, "-"), ".", "", 1)
	return len(strings.TrimLeft(s, "0"))
}

// Whole reads a count that was never set as 0.
func Whole(n *big.Int) *big.Int {
	if n == nil {
		return new(big.Int)
	}
	return n
}

// Share reads a share that was never set as 0.
func Share(r *big.Rat) json.Number {
	if r == nil {
		return "0"
	}
	return Decimal(r)
}
