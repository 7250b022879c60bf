package shape

import (
	"regexp"
	"strconv"
	"strings"
)

const (
	year  = `(?:(?:19|20)\d\d|['’]\d\d)`
	short = `['’]?\d\d`
	dash  = `\s*(?:-|–|—|to|thru|through|until)\s*`
	open  = `\s*(?:\+|(?:-|–|—)\s*(?:on|up|present|date)?|on|up|onwards?|and up|& up|and later|-->|->)`
)

var (
	yearsAlone = regexp.MustCompile(`(?i)^(?:` + year + `|` + year + dash + `(?:` + year + `|` + short + `)|` + short + `\s*(?:-|–|—)\s*` + short +
		`|` + year + open + `|(?:from|since|to|thru|through|until|up to|before|pre)\s*-?\s*` + year + `)$`)
	yearsBehind = regexp.MustCompile(`(?i)^(.*\S)[\s,]+\(?(` + year + dash + `(?:` + year + `|` + short + `)|` + year + `\s*\+|(?:19|20)\d\d|` +
		short + `\s*(?:-|–|—)\s*` + short + `)\)?$`)
	fourDigits = regexp.MustCompile(`(?:19|20)\d\d`)
	twoDigits  = regexp.MustCompile(`(?:^|[^\d])(\d\d)(?:$|[^\d])`)
)

// IsYears tells whether a text is a model year, a range of them, or a list of these.
func IsYears(text string) bool {
	if yearsAlone.MatchString(text) {
		return true
	}
	pieces := strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' || r == '\n' })
	for _, p := range pieces {
		if !yearsAlone.MatchString(strings.TrimSpace(p)) {
			return false
		}
	}
	return len(pieces) > 1
}

// TrailingYears parts a name such as `H7 2004-2010` into the name and its years; not ok where no
// years stand behind it.
func TrailingYears(text string) (name, years string, ok bool) {
	m := yearsBehind.FindStringSubmatch(text)
	if m == nil {
		return text, "", false
	}
	return strings.TrimRight(m[1], " ,("), m[2], true
}

// ShortYears tells whether years are written with two digits somewhere.
func ShortYears(text string) bool {
	return twoDigits.MatchString(fourDigits.ReplaceAllString(text, "yyyy"))
}

// Extent gives the first and the last year that a text names, both 0 where it names none. Two
// digits from 50 on are those of the last century. Open ends count as the year that is named.
func Extent(text string) (first, last int) {
	rest := fourDigits.FindAllString(text, -1)
	for _, m := range twoDigits.FindAllStringSubmatch(spaced(fourDigits.ReplaceAllString(text, "yyyy")), -1) {
		century := "20"
		if m[1] >= "50" {
			century = "19"
		}
		rest = append(rest, century+m[1])
	}
	for _, y := range rest {
		n, _ := strconv.Atoi(y)
		if first == 0 || n < first {
			first = n
		}
		last = max(last, n)
	}
	return first, last
}

// spaced doubles what stands between numbers, so that two of them share no sign.
func spaced(text string) string {
	return regexp.MustCompile(`[^\d]`).ReplaceAllString(text, "$0$0")
}
