package bind

import (
	"math/big"
	"strings"

	"ferrule/compiler/measure"
)

// agrees tells whether both ends of what is stated and what is computed differ by no
// more than one in the last digit that is stated.
func agrees(stated, computed measure.Quantity) bool {
	last, in := lastDigit(stated), computed.In(stated.Unit)
	for _, d := range []*big.Rat{new(big.Rat).Sub(stated.Low, in.Low), new(big.Rat).Sub(stated.High, in.High)} {
		if d.Abs(d).Cmp(last) > 0 {
			return false
		}
	}
	return true
}

// keptDigits is how many digits a spreadsheet program keeps of a number that it has
// worked out: those after them say nothing.
const keptDigits = 15

// lastDigit gives what one in the last digit of a quantity's first number is worth, in
// the quantity's unit. A fraction is taken to be right to 1/64.
func lastDigit(q measure.Quantity) *big.Rat {
	text := strings.TrimLeft(strings.TrimSpace(q.Text), "+-−")
	whole := digits(text)
	rest := text[len(whole):]
	decimals := ""
	if strings.HasPrefix(rest, ".") || strings.HasPrefix(rest, ",") {
		decimals = digits(rest[1:])
	}
	if fraction(rest[len(decimals):]) {
		return big.NewRat(1, 64)
	}
	places := min(len(decimals), max(0, keptDigits-len(strings.TrimLeft(whole, "0"))))
	return new(big.Rat).SetFrac(big.NewInt(1), new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil))
}

func digits(s string) string {
	return s[:len(s)-len(strings.TrimLeft(s, "0123456789"))]
}

// fraction tells whether what follows the digits of a number makes a fraction of it.
func fraction(rest string) bool {
	rest = strings.TrimLeft(rest, "0123456789 -")
	return strings.HasPrefix(rest, "/") || strings.IndexFunc(rest, func(r rune) bool { return strings.ContainsRune("½¼¾⅛⅜⅝⅞⅓⅔⅕⅖⅗⅘⅙⅚", r) }) == 0
}

// maxFigures is how many digits a computed number is printed with where it takes more.
const maxFigures = 5

// number writes the number of a computed quantity, or both of a range: exactly where
// that takes few digits, else with five.
func number(q measure.Quantity) string {
	if q.Single() {
		return figuresOf(q.Low)
	}
	return figuresOf(q.Low) + " to " + figuresOf(q.High)
}

func figuresOf(r *big.Rat) string {
	for places := 0; ; places++ {
		text := measure.Decimal(r, places)
		count := len(strings.TrimLeft(strings.Replace(strings.TrimPrefix(text, "-"), ".", "", 1), "0"))
		back, ok := new(big.Rat).SetString(text)
		if ok && back.Cmp(r) == 0 || count >= maxFigures || places == 4*maxFigures {
			return text
		}
	}
}
