package sheets

import (
	"bytes"
	"unicode/utf8"
)

// digits reads a whole number of one to nine digits as count does. The end is the
// place after it, or odd.
func digits(data []byte, i int) (n, end int) {
	from := i
	for i < len(data) {
		d := data[i] - '0'
		if d > 9 {
			break
		}
		n = n*10 + int(d)
		i++
	}
	if i == from || i-from > 9 {
		return 0, odd
	}
	return n, i
}

// plainNumber reads a decimal that is the shortest one for its double, so that its own
// bytes are its text: at most 15 digits, none of them idle, no exponent. (Decimals of
// up to 15 digits come back from a double as they went in, so none is shorter.) A whole
// number of 15 digits and a power of ten up to 10^14 are exact in doubles, so that one
// division rounds once, as reading the decimal would. ok is false for all others, and
// end then means nothing.
func plainNumber(data []byte, i int) (f float64, end int, ok bool) {
	negative := data[i] == '-'
	if negative {
		i++
	}
	from := i
	n := 0
	for d := data[i] - '0'; d <= 9 && i-from < 16; d = data[i] - '0' {
		n = n*10 + int(d)
		i++
	}
	whole := i - from
	if whole == 0 || whole > 15 || data[from] == '0' && whole > 1 || negative && n == 0 && data[i] != '.' {
		return 0, 0, false
	}
	f = float64(n)
	if data[i] == '.' {
		i++
		point := i
		for d := data[i] - '0'; d <= 9 && i-from < 17; d = data[i] - '0' {
			n = n*10 + int(d)
			i++
		}
		if i == point || i-from > 16 || data[i-1] == '0' {
			return 0, 0, false
		}
		f = float64(n) / powerOfTen(i-point)
		if f < 1e-7 {
			return 0, 0, false // written with an exponent
		}
	}
	if negative {
		f = -f
	}
	return f, i, true
}

// powerOfTen gives 10^n for n from 0 to 15.
func powerOfTen(n int) float64 {
	return [16]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15}[n&15]
}

// attribute reads name="value" with printable ASCII between the quotes and nothing to
// decode. The value is followed by a quote. next is odd for all else.
func attribute(data []byte, i int) (name, value []byte, next int) {
	from := i
	for c := data[i]; c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c == ':' || c >= '0' && c <= '9'; c = data[i] {
		i++
	}
	name = data[from:i]
	if data[i] != '=' || data[i+1] != '"' {
		return nil, nil, odd
	}
	i += 2
	from = i
	for data[i] != '"' {
		if c := data[i]; c < ' ' || c > '~' || c == '<' || c == '&' {
			return nil, nil, odd
		}
		i++
	}
	return name, data[from:i], i + 1
}

// text reads text up to the next tag and decodes it as an XML parser would. Longer
// than a cell's text can be, carriage returns, and whatever XML does not allow are
// odd. What it gives is only good until it is called again.
func (b *block) text(i int) (text []byte, next int) {
	n := bytes.IndexByte(b.data[i:b.size], '<')
	if n < 0 || n > maxText {
		return nil, odd
	}
	text, next = b.data[i:i+n], i+n
	for j, c := range text {
		switch {
		case c == '&', c >= utf8.RuneSelf:
			var ok bool
			if b.scratch, ok = decode(b.scratch[:0], text); !ok {
				return nil, odd
			}
			return b.scratch, next
		case c < ' ' && c != '\t' && c != '\n', c == '>' && closesCDATA(text, j):
			return nil, odd
		}
	}
	return text, next
}

// closesCDATA tells whether the text has "]]>" up to j, which XML does not allow.
func closesCDATA(text []byte, j int) bool { return j >= 2 && text[j-1] == ']' && text[j-2] == ']' }

// decode appends text with its entities replaced.
func decode(to, text []byte) ([]byte, bool) {
	for i := 0; i < len(text); {
		switch c := text[i]; {
		case c == '&':
			r, n := entity(text[i+1:])
			if n == odd || !inXML(r) {
				return to, false
			}
			to = utf8.AppendRune(to, r)
			i += 1 + n
		case c >= utf8.RuneSelf:
			r, n := utf8.DecodeRune(text[i:])
			if r == utf8.RuneError && n == 1 || !inXML(r) {
				return to, false
			}
			to = append(to, text[i:i+n]...)
			i += n
		case c < ' ' && c != '\t' && c != '\n', c == '>' && closesCDATA(text, i):
			return to, false
		default:
			to = append(to, c)
			i++
		}
	}
	return to, true
}

// inXML tells whether XML 1.0 allows the character.
func inXML(r rune) bool {
	return r == '\t' || r == '\n' || r == '\r' || r >= ' ' && r < 0xd800 || r >= 0xe000 && r <= 0xfffd || r >= 0x10000 && r <= utf8.MaxRune
}

// entity reads what follows an ampersand, up to and with the semicolon.
func entity(text []byte) (rune, int) {
	end := bytes.IndexByte(text[:min(len(text), 10)], ';')
	if end < 0 {
		return 0, odd
	}
	switch name := text[:end]; string(name) {
	case "amp":
		return '&', 4
	case "lt":
		return '<', 3
	case "gt":
		return '>', 3
	case "quot":
		return '"', 5
	case "apos":
		return '\'', 5
	default:
		return numericEntity(name, end+1)
	}
}

// numericEntity reads #65 or #x41, without leading signs.
func numericEntity(name []byte, n int) (rune, int) {
	base, from := rune(10), 1
	if len(name) > 1 && name[1] == 'x' {
		base, from = 16, 2
	}
	if len(name) <= from || name[0] != '#' {
		return 0, odd
	}
	r := rune(0)
	for _, c := range name[from:] {
		d := rune(16)
		switch {
		case c >= '0' && c <= '9':
			d = rune(c - '0')
		case c >= 'a' && c <= 'f':
			d = rune(c-'a') + 10
		case c >= 'A' && c <= 'F':
			d = rune(c-'A') + 10
		}
		if d >= base {
			return 0, odd
		}
		r = r*base + d // at most eight digits, or seven of sixteen: below 2^31
	}
	return r, n
}
