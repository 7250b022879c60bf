package layout

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"ferrule/sheets/cell"
)

// legend is the text under a table that says what a sign means.
type legend struct {
	text string
	at   cell.Pos
}

// legendOf gives what a text that begins with a sign says of it. Behind a letter or a digit
// something must part the two.
func legendOf(text, sign string) (string, bool) {
	text = strings.TrimSpace(text)
	for _, s := range []string{sign, "(" + sign + ")", "[" + sign + "]"} {
		rest, ok := strings.CutPrefix(text, s)
		if !ok && len(text) >= len(s) && strings.EqualFold(text[:len(s)], s) {
			rest, ok = text[len(s):], true
		}
		if !ok || rest == "" {
			continue
		}
		cut := strings.TrimLeft(rest, " \t:=.)-–—")
		parted := cut != rest
		if alnum(s) && (!parted || strings.HasPrefix(rest, " ") && letters(sign) && !strings.ContainsAny(strings.TrimLeft(rest, " ")[:1], ":=-–—")) {
			continue
		}
		if cut == "" {
			continue
		}
		return cut, true
	}
	return "", false
}

// legend tells whether the row is a text that says what a declared sign means.
func (r *reader) legend(level []level8) bool {
	if !r.lone() || len(r.items[0].Text) < 2 {
		return false
	}
	for _, g := range r.gs {
		if r.merged.number <= g.extent.header.To {
			continue
		}
		for _, m := range g.marks {
			if _, ok := legendOf(r.items[0].Text, m.sign); ok {
				for i := range level {
					level[i] = claimed
				}
				return true
			}
		}
	}
	return false
}

func alnum(s string) bool {
	last, _ := utf8.DecodeLastRuneInString(s)
	return s != "" && isAlnum(last)
}

func letters(s string) bool {
	return strings.IndexFunc(s, func(r rune) bool { return r >= '0' && r <= '9' }) < 0
}

func isAlnum(r rune) bool {
	return unicode.IsLetter(r) || r >= '0' && r <= '9'
}
