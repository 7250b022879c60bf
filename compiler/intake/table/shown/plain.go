package shown

import (
	"math/big"
	"slices"
	"strconv"
	"strings"
)

// plain lays out a number with at most a decimal sign.
func plain(l Look, section []piece, value *big.Rat) (Look, bool) {
	for _, p := range section {
		if p.kind == fixed {
			return l, false
		}
	}
	section, groups, thousands := commas(section)
	l.Scaled = thousands > 0
	for range thousands {
		value = new(big.Rat).Quo(value, big.NewRat(1000, 1))
	}
	dot := slices.IndexFunc(section, func(p piece) bool { return p.kind == point })
	whole, rest := section, []piece(nil)
	if dot >= 0 {
		whole, rest = section[:dot], section[dot+1:]
	}
	places := count(rest)
	// FloatString rounds halves away from zero, as spreadsheet programs do.
	text := value.FloatString(places)
	l.Value, _ = new(big.Rat).SetString(text)
	integer, decimals, _ := strings.Cut(text, ".")
	l.Text = l.integer(whole, strings.TrimLeft(integer, "0"), groups)
	if dot >= 0 {
		l.Text += "." + l.fill(rest, decimals)
	}
	return l, true
}

func count(section []piece) int {
	n := 0
	for _, p := range section {
		n += b2i(p.kind == digit)
	}
	return n
}

// commas takes the commas out of a section: one between digits groups thousands, each
// behind the last digit, or right before the decimal sign, divides by a thousand.
func commas(section []piece) (rest []piece, groups bool, thousands int) {
	left := true // of the decimal sign
	for i, p := range section {
		if p.kind != comma {
			left = left && p.kind != point
			rest = append(rest, p)
			continue
		}
		next := i + slices.IndexFunc(section[i:], func(p piece) bool { return p.kind != comma })
		switch {
		case count(section[:i]) == 0:
		case next < i || count(section[next:]) == 0 || section[next].kind == point:
			thousands++
		case left:
			groups = true
		}
	}
	return rest, groups, thousands
}

// integer fills the places before the decimal sign from the right. Digits for which
// there is no place stand before the first.
func (l *Look) integer(section []piece, digits string, groups bool) string {
	var out []string
	places, shown := count(section), 0
	put := func(s string) {
		if groups && shown > 0 && shown%3 == 0 && s != "" {
			out = append(out, ",")
		}
		shown += b2i(s != "")
		out = append(out, s)
	}
	for i := len(section) - 1; i >= 0; i-- {
		p := section[i]
		if p.kind != digit {
			l.Parted = l.Parted || shown > 0 && places > 0 && strings.TrimSpace(p.text) != "" && p.kind != percent
			out = append(out, p.text)
			continue
		}
		places--
		last := len(digits)
		switch {
		case last > 0:
			put(digits[last-1:])
			digits = digits[:last-1]
		case p.text == "0":
			l.Zeros = l.Zeros || shown > 0
			put("0")
		case p.text == "?":
			out = append(out, " ")
		}
		for places == 0 && digits != "" {
			put(digits[len(digits)-1:])
			digits = digits[:len(digits)-1]
		}
	}
	slices.Reverse(out)
	return strings.Join(out, "")
}

// fill puts digits into places from the left. Zeros that end a number are shown where
// the format has 0.
func (l *Look) fill(section []piece, digits string) string {
	significant := len(strings.TrimRight(digits, "0"))
	var s strings.Builder
	n := 0
	for _, p := range section {
		if p.kind != digit {
			s.WriteString(p.text)
			continue
		}
		switch {
		case n < significant || p.text == "0":
			s.WriteByte(digits[n])
		case p.text == "?":
			s.WriteByte(' ')
		}
		n++
	}
	return s.String()
}

// scientific lays out a power of ten with one digit before the decimal sign.
func scientific(l Look, section []piece, value *big.Rat) (Look, bool) {
	at := slices.IndexFunc(section, func(p piece) bool { return p.kind == exponent })
	front, back := section[:at], section[at+1:]
	dot := slices.IndexFunc(front, func(p piece) bool { return p.kind == point })
	places := 0
	if dot >= 0 {
		places = count(front[dot:])
	}
	if count(front)-places != 1 || count(back) != len(back) {
		return l, false // several digits before the decimal sign: exponents go in steps
	}
	mantissa, exp := normal(value, places)
	m, ok := plain(l, front, mantissa)
	if !ok {
		return l, false
	}
	m.Power, m.Value = true, new(big.Rat).Mul(mantissa, ten(exp))
	plus := section[at].text[1:]
	if exp < 0 {
		exp, plus = -exp, "-"
	} else if plus == "-" {
		plus = ""
	}
	digits := strconv.Itoa(exp)
	m.Text += "E" + plus + strings.Repeat("0", max(0, len(back)-len(digits))) + digits
	return m, true
}

// normal gives a number as a mantissa from 1 to below 10, rounded to so many places,
// and the power of ten that goes with it.
func normal(value *big.Rat, places int) (*big.Rat, int) {
	f, _ := value.Float64()
	_, power, _ := strings.Cut(strconv.FormatFloat(f, 'e', -1, 64), "e")
	exp, err := strconv.Atoi(power)
	if err != nil {
		panic("shown: normal: FormatFloat gave no exponent")
	}
	for {
		m := new(big.Rat).Quo(value, ten(exp))
		m, ok := new(big.Rat).SetString(m.FloatString(places))
		if !ok {
			panic("shown: normal: FloatString gave no decimal")
		}
		if m.Cmp(big.NewRat(10, 1)) < 0 {
			return m, exp
		}
		exp++ // 9.996 became 10.00
	}
}

func ten(exp int) *big.Rat {
	power := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(max(exp, -exp))), nil)
	if exp < 0 {
		return new(big.Rat).SetFrac(big.NewInt(1), power)
	}
	return new(big.Rat).SetInt(power)
}
