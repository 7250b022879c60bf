// Package shown works out how a spreadsheet program shows a number under a number
// format, so that a reader of the stored value can tell where the two differ.
//
// It knows the formats of plain numbers, percentages, powers of ten and fractions
// (ECMA-376 Part 1, 18.8.31) and owns up to those that it does not know.
package shown

import (
	"math/big"
	"slices"
	"strings"
	"unicode"
)

// Look is how a number is shown.
type Look struct {
	Text     string   // without the spaces that only align it
	Value    *big.Rat // what the digits in Text say; nil where it has none
	Zeros    bool     // the format put zeros before the number's own digits
	Words    bool     // the format put letters or quotation marks beside the digits
	Parted   bool     // the format put signs between the digits that are no thousands separators
	Percent  bool
	Scaled   bool     // the format divides by a thousand, once or more
	Beside   []string // the texts that stand before, between and behind the digits
	Power    bool     // a power of ten
	Fraction bool
}

// Number gives the look of a finite number, written as a decimal, under the code of a
// number format other than General. It reports false for a format that it does not
// know: dates, conditions, and what is no format at all.
func Number(decimal, code string) (Look, bool) {
	value, ok := new(big.Rat).SetString(decimal)
	if !ok {
		return Look{}, false
	}
	sections, ok := split(code)
	if !ok || strings.TrimSpace(code) == "" {
		return Look{}, false
	}
	section, minus, ok := choose(sections, value)
	if !ok {
		return Look{}, false
	}
	var l Look
	if len(section) == 0 {
		return l, true // an empty section shows nothing
	}
	l, ok = render(section, value.Abs(value))
	if l.Text = strings.TrimSpace(l.Text); minus && ok && (l.Value == nil || l.Value.Sign() != 0) {
		l.Text = "-" + l.Text
		if l.Value != nil {
			l.Value.Neg(l.Value)
		}
	}
	return l, ok
}

// Plain tells whether a number format shows the digits of every number, rounded at most,
// with signs beside them and nothing else: no words, marks of units, percentages, fractions
// or powers of ten, and nothing divided by a thousand.
func Plain(code string) bool {
	sections, ok := split(code)
	if !ok || len(sections[0]) == 0 {
		return false
	}
	for i, section := range sections {
		if _, _, thousands := commas(section); thousands > 0 {
			return false
		}
		for _, p := range section {
			if p.kind != sign && p.kind != digit && p.kind != point && p.kind != comma {
				return false
			}
			if p.kind == sign && strings.ContainsFunc(p.text, unicode.IsLetter) {
				return false // a currency, or a unit in its place: 0[$ mm]
			}
		}
		if i < 2 && count(section) == 0 {
			return false
		}
	}
	return true
}

// render lays a number that is not negative out in a section.
func render(section []piece, value *big.Rat) (Look, bool) {
	var l Look
	digits, slash, power := 0, 0, false
	l.Beside = beside(section)
	for _, p := range section {
		switch p.kind {
		case word:
			l.Words = true
		case digit:
			digits++
		case percent:
			l.Percent = true
			value = new(big.Rat).Mul(value, big.NewRat(100, 1))
		case over:
			slash++
		case exponent:
			power = true
		}
	}
	switch {
	case digits == 0 && slash+b2i(power) > 0, slash > 0 && power, slash > 1:
		return l, false
	case digits == 0:
		l.Text = literals(section)
		return l, true
	case slash == 1:
		return fraction(l, section, value)
	case power:
		return scientific(l, section, value)
	}
	return plain(l, section, value)
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

// beside gives the texts that stand beside the digits of a section.
func beside(section []piece) []string {
	out := []string{""}
	for _, p := range section {
		if p.kind == sign || p.kind == word || p.kind == percent {
			out[len(out)-1] += p.text
		} else {
			out = append(out, "")
		}
	}
	return slices.DeleteFunc(out, func(s string) bool { return strings.TrimSpace(s) == "" })
}

// Quoted gives the texts that a format's code puts in quotation marks, of formats that
// Number does not know as well.
func Quoted(code string) []string {
	var out []string
	for i, text := range strings.Split(code, `"`) {
		if i%2 == 1 {
			out = append(out, text)
		}
	}
	return out
}

func literals(section []piece) string {
	var s strings.Builder
	for _, p := range section {
		s.WriteString(p.text)
	}
	return s.String()
}
