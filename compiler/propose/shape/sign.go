package shape

import (
	"regexp"
	"strings"
	"unicode"
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

var numbered = regexp.MustCompile(`^(\d{1,2})[:=.]?\s+(\S.*)$`)

// Numbered parts a text that begins with a bare number, as footnotes do: `1 with drums`.
func Numbered(text string) (sign, says string, ok bool) {
	if m := numbered.FindStringSubmatch(text); m != nil {
		return m[1], m[2], true
	}
	return "", "", false
}

var superscripts = strings.NewReplacer("¹", "1", "²", "2", "³", "3", "⁴", "4", "⁵", "5", "⁶", "6", "⁷", "7", "⁸", "8", "⁹", "9")

// Plain is a sign without what footnotes are dressed in, so that ¹, (1) and 1) are the same.
func Plain(sign string) string {
	return strings.Trim(superscripts.Replace(strings.ToLower(sign)), "()[]")
}

// Footnotes gives all that a text explains: a line may explain several marks, one behind the other.
func Footnotes(text string) [][2]string {
	var out [][2]string
	for _, piece := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' || r == '\n' }) {
		piece = strings.TrimSpace(piece)
		sign, says, ok := Footnote(piece)
		if !ok {
			sign, says, ok = standing(piece)
		}
		if !ok {
			out = nil
			break
		}
		out = append(out, [2]string{sign, says})
	}
	if out != nil {
		return out
	}
	if sign, says, ok := Footnote(text); ok {
		return [][2]string{{sign, says}}
	}
	return nil
}

// standing parts a mark from what stands behind a blank: `● standard`.
func standing(text string) (sign, says string, ok bool) {
	sign, says, ok = strings.Cut(text, " ")
	return sign, strings.TrimSpace(says), ok && isMark(sign) && !strings.ContainsFunc(sign, unicode.IsLetter)
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
