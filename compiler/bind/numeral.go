package bind

import (
	"math/big"
	"regexp"
)

// What a spreadsheet program stores of a number, and what it reads as one: 00417 and
// 12.50 lose zeros, 12E5 becomes 1200000.
var (
	storedNumber = regexp.MustCompile(`^\d{1,30}(?:\.\d{1,20})?$`)
	typedNumber  = regexp.MustCompile(`^(?:\d{1,30}(?:\.\d{0,20})?|\.\d{1,20})(?:[eE]\+?\d{1,2})?$`)
)

// asTyped finds the part number that becomes this one when a spreadsheet program reads
// it as a number: the first that is declared.
func (b *binder) asTyped(number string) string {
	if !storedNumber.MatchString(number) {
		return ""
	}
	if b.numerals == nil {
		b.numerals = map[string]string{}
		for _, n := range b.partList {
			if v, ok := new(big.Rat).SetString(n); typedNumber.MatchString(n) && ok && b.numerals[v.RatString()] == "" {
				b.numerals[v.RatString()] = n
			}
		}
	}
	v, ok := new(big.Rat).SetString(number)
	if !ok {
		panic("bind: asTyped: digits are no number")
	}
	return b.numerals[v.RatString()]
}
