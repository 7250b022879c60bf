package shown

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// kind of a piece of a section.
type kind uint8

const (
	sign     kind = iota // shown as it stands: spaces, brackets, dashes, currency signs
	word                 // shown as it stands, and holds letters or quotation marks
	digit                // a place for a digit: 0, # or ?
	fixed                // a digit of a denominator that the format states
	point                // the decimal sign
	comma                // groups thousands, or divides by a thousand
	percent              // also multiplies by a hundred
	over                 // the line of a fraction
	exponent             // E+ or E-
	when                 // the numbers that the section is for: <100
)

type piece struct {
	kind kind
	text string // as shown; of a digit, the placeholder
}

// split cuts a format's code into its sections, at most four. False stands for a code
// that shows dates or is not understood.
func split(code string) ([][]piece, bool) {
	out := [][]piece{nil}
	for code != "" {
		if code[0] == ';' {
			out = append(out, nil)
			code = code[1:]
			continue
		}
		if len(out) > 3 {
			return out, true // the fourth section is for text
		}
		p, n, ok := cut(code)
		if !ok {
			return nil, false
		}
		if p.text != "" {
			last := len(out) - 1
			out[last] = append(out[last], p)
		}
		code = code[n:]
	}
	return out, true
}

// cut reads the piece that code begins with and its length. A piece without text shows
// nothing.
func cut(code string) (piece, int, bool) {
	r, n := utf8.DecodeRuneInString(code)
	switch r {
	case '"':
		inside, _, closed := strings.Cut(code[1:], `"`)
		return literal(inside), len(inside) + 2, closed
	case '\\', '_', '*':
		_, m := utf8.DecodeRuneInString(code[n:])
		switch next := code[n : n+m]; r {
		case '\\':
			return literal(next), n + m, m > 0
		case '_':
			return piece{sign, " "}, n + m, m > 0
		}
		return piece{}, n + m, m > 0
	case '[':
		inside, _, closed := strings.Cut(code[1:], "]")
		p, ok := bracket(inside)
		return p, len(inside) + 2, closed && ok
	case '0', '#', '?':
		return piece{digit, code[:1]}, 1, true
	case '.':
		return piece{point, "."}, 1, true
	case ',':
		return piece{comma, ","}, 1, true
	case '%':
		return piece{percent, "%"}, 1, true
	case '/':
		return piece{over, "/"}, 1, true
	case 'E', 'e':
		if len(code) > 1 && (code[1] == '+' || code[1] == '-') {
			return piece{exponent, code[:2]}, 2, true
		}
		return piece{}, 0, false
	}
	if r >= '1' && r <= '9' {
		return piece{fixed, code[:1]}, 1, true
	}
	// Letters outside quotes are dates, or General.
	return literal(code[:n]), n, !unicode.IsLetter(r) && r != '@'
}

// literal tells words from signs.
func literal(text string) piece {
	if strings.ContainsFunc(text, unicode.IsLetter) || strings.ContainsAny(text, `"'″′“”’°º˚%²³`) {
		return piece{word, text}
	}
	return piece{sign, text}
}

// bracket reads a colour, which shows nothing, or a currency with its locale: [$€-407].
// A condition shows nothing either, and says for which numbers the section is: [<100].
// Elapsed times are not understood.
func bracket(inside string) (piece, bool) {
	if money, ok := strings.CutPrefix(inside, "$"); ok {
		money, _, _ = strings.Cut(money, "-")
		return piece{sign, money}, true
	}
	lower := strings.ToLower(inside)
	switch strings.TrimRight(lower, "0123456789") {
	case "black", "blue", "cyan", "green", "magenta", "red", "white", "yellow", "color", "colour":
		return piece{}, true
	}
	_, _, ok := condition(inside)
	return piece{when, inside}, ok
}
