package lexicon

import (
	"fmt"
	"math/big"
	"regexp"
	"strings"
)

// What a spreadsheet program stores of a number, and what it reads as one: 00417 and
// 12.50 lose zeros, 12E5 becomes 1200000.
var (
	storedNumber = regexp.MustCompile(`^\d{1,30}(?:\.\d{1,20})?$`)
	typedNumber  = regexp.MustCompile(`^(?:\d{1,30}(?:\.\d{0,20})?|\.\d{1,20})(?:[eE]\+?\d{1,2})?$`)
)

// asTyped finds the part number that becomes this one when a spreadsheet program reads
// it as a number: the first that is declared.
func (x *Lexicon) asTyped(number string) string {
	if !storedNumber.MatchString(number) {
		return ""
	}
	if x.numerals == nil {
		x.numerals = map[string]string{}
		for _, n := range x.numbers {
			if v, ok := new(big.Rat).SetString(n); typedNumber.MatchString(n) && ok && x.numerals[v.RatString()] == "" {
				x.numerals[v.RatString()] = n
			}
		}
	}
	v, ok := new(big.Rat).SetString(number)
	if !ok {
		panic("lexicon: asTyped: digits are no number")
	}
	return x.numerals[v.RatString()]
}

// Mangled says which part number a spreadsheet program has made this one of, that no part has.
func (x *Lexicon) Mangled(number string) (Fault, bool) {
	typed := x.asTyped(number)
	if typed == "" {
		return Fault{}, false
	}
	why := "makes it the number " + number
	if strings.TrimLeft(typed, "0") == number {
		why = "takes leading zeros off a number"
	}
	return Fault{Flaw: Mangled, Says: fmt.Sprintf("no part is called %q; %s is, and a spreadsheet program %s: set the cell's format to text and type %s", number, typed, why, typed)}, true
}
