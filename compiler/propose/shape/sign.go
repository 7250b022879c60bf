package shape

import (
	"regexp"
	"strings"
)

const footSign = `[*†‡§#]+|[¹²³⁴⁵⁶⁷⁸⁹]+|\(\d{1,2}\)|\d{1,2}\)|\[[\da-z]{1,2}\]|[a-z]\)|\([a-z]\)`

var (
	signBehind = regexp.MustCompile(`^(.*?\S)\s*(` + footSign + `)$`)
	signBefore = regexp.MustCompile(`^(` + footSign + `)\s*[:=.–-]?\s*(\S.*)$`)
	explained  = regexp.MustCompile(`^(\S{1,3})\s*(?:=|:|–|-)\s*(\S.*)$`)
)

// Sign parts a text from the footnote sign that stands behind it; "" where there is none.
func Sign(text string) (base, sign string) {
	m := signBehind.FindStringSubmatch(text)
	if m == nil {
		return text, ""
	}
	return m[1], m[2]
}

// Footnote parts a text below a table into the sign or mark that it explains and what it says of
// it; not ok where it explains none.
func Footnote(text string) (sign, says string, ok bool) {
	for _, pattern := range []*regexp.Regexp{signBefore, explained} {
		if m := pattern.FindStringSubmatch(text); m != nil {
			return m[1], strings.TrimSpace(m[2]), true
		}
	}
	return "", "", false
}
