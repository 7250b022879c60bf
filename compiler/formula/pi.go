package formula

import (
	"math/big"

	"ferrule/compiler/measure"
)

// piDigits is π rounded to forty decimal places, which is off by less than 5 in the
// place after. It follows from Machin's formula, which the tests work out anew. A
// formula with pi is as exact as that, and all else is exact.
const piDigits = "3.1415926535897932384626433832795028841972"

// NewNames makes a list that holds the number pi.
func NewNames() *Names {
	r, ok := new(big.Rat).SetString(piDigits)
	if !ok {
		panic("formula: pi is no number")
	}
	pi := NewValue(r, r, measure.Count())
	n := &Names{by: map[string]entry{}}
	n.add(entry{Name: Name{Text: "pi", What: "the number pi"}, constant: &pi})
	return n
}
