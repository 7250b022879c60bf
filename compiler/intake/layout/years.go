package layout

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"ferrule/compiler/bind/grammar"
)

// Years as old sheets write them. A year has two or four digits.
var (
	yearSpan  = regexp.MustCompile(`^(?:from )?['\x{2019}]?(\d{4}|\d{2}) ?(?:[-\x{2010}-\x{2015}\x{2212}]|to|thru|through|until) ?['\x{2019}]?(\d{4}|\d{2})$`)
	yearUp    = regexp.MustCompile(`^(?:from |since )?['\x{2019}]?(\d{4}|\d{2}) ?(?:\+|(?:[-\x{2010}-\x{2015}\x{2212}] ?)?(?:up|on|onwards|present|current|and up|and on|and later|& up|& on|& later)|[-\x{2010}-\x{2015}\x{2212}])$`)
	yearFrom  = regexp.MustCompile(`^(?:from|since) ['\x{2019}]?(\d{4}|\d{2})$`)
	yearTo    = regexp.MustCompile(`^(?:to|thru|through|until|up to|[-\x{2010}-\x{2015}\x{2212}]) ?['\x{2019}]?(\d{4}|\d{2})$`)
	yearAlone = regexp.MustCompile(`^['\x{2019}]?(\d{4}|\d{2})$`)
	yearParts = regexp.MustCompile(` *(?:[,;&\n]| and ) *`)
)

// years reads years as old sheets write them, and writes them as ours do.
type years struct {
	century int // the first year that two digits may mean; 0: nobody says
}

// spelled is a Years cell that was read.
type spelled struct {
	text  string
	short bool // it has years of two digits, and nobody says of which century
}

// spell gives years in the words of our sheets; false where they are not read here, which
// leaves them to be read, or refused, like those of any sheet.
func (y years) spell(text string) (spelled, bool) {
	text = strings.TrimSpace(text)
	if _, why := grammar.ReadYears(text); why == "" {
		return spelled{text: text}, true
	}
	var out []string
	short := false
	for _, piece := range yearParts.Split(text, -1) {
		s, is, ok := y.piece(strings.ToLower(strings.Join(strings.Fields(piece), " ")))
		if !ok {
			return spelled{}, false
		}
		short = short || is
		out = append(out, s)
	}
	return spelled{strings.Join(out, ", "), short}, true
}

// piece reads one span; short tells that a century is missing.
func (y years) piece(s string) (text string, short, ok bool) {
	if m := yearSpan.FindStringSubmatch(s); m != nil {
		from, a := y.year(m[1], 0)
		to, b := y.year(m[2], from)
		return fmt.Sprintf("%04d-%04d", from, to), a || b, true
	}
	if m := yearAlone.FindStringSubmatch(s); m != nil {
		n, short := y.year(m[1], 0)
		return fmt.Sprintf("%04d", n), short, true
	}
	if m := yearTo.FindStringSubmatch(s); m != nil {
		n, short := y.year(m[1], 0)
		return fmt.Sprintf("to %04d", n), short, true
	}
	for _, form := range []*regexp.Regexp{yearUp, yearFrom} {
		if m := form.FindStringSubmatch(s); m != nil {
			n, short := y.year(m[1], 0)
			return fmt.Sprintf("%04d+", n), short, true
		}
	}
	return "", false, false
}

// year reads two or four digits. The century of two is that which is declared, or else that of
// the four before them where that gives a later year.
func (y years) year(digits string, before int) (n int, short bool) {
	n, err := strconv.Atoi(digits)
	if err != nil {
		panic("layout: year: no digits")
	}
	switch {
	case len(digits) == 4:
		return n, false
	case y.century > 0:
		n += y.century - y.century%100
		if n < y.century {
			n += 100
		}
		return n, false
	case before >= 1000 && before%100 < n:
		return before - before%100 + n, false
	}
	return n, true
}

// cut splits trailing years off a name: `H7 2004-2012` and `H7 (07-12)`. Where there are none
// the years are "".
func (y years) cut(text string) (name string, said spelled) {
	words := strings.Fields(strings.ReplaceAll(text, "(", " ("))
	for i := 1; i < len(words); i++ {
		tail := strings.Join(words[i:], " ")
		bare := strings.TrimSpace(strings.Trim(tail, "(),:;"))
		s, ok := y.spell(bare)
		if !ok || !y.believable(bare, s) {
			continue
		}
		return strings.TrimRight(strings.Join(words[:i], " "), " ,:;(-–—"), s
	}
	return strings.Join(strings.Fields(text), " "), spelled{}
}

var fourDigits = regexp.MustCompile(`\d{4}`)

// believable tells whether what reads as years behind a name can be years: two digits alone are
// a part of the name, and so is a number that no model year has.
func (y years) believable(tail string, s spelled) bool {
	if !strings.ContainsAny(tail, "0123456789") {
		return false
	}
	if yearAlone.MatchString(tail) && len(strings.TrimLeft(tail, "'’")) == 2 && !strings.ContainsAny(tail, "'’") {
		return false
	}
	for _, digits := range fourDigits.FindAllString(tail, -1) {
		if digits < "1900" || digits >= "2100" {
			return false
		}
	}
	return true
}
