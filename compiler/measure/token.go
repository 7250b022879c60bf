package measure

import (
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"
)

// kind of a token; a punctuation mark is its own kind.
type kind rune

const (
	number kind = '0' // digits, points and commas
	word   kind = 'a' // letters, with the points of abbreviations left out
	end    kind = 0
)

type token struct {
	kind  kind
	text  string
	glued bool // no space before it
}

// folding writes what hands and word processors put for the same thing in one way.
// The vulgar fractions get a space before them, so that 1½ is 1 1/2.
var folding = sync.OnceValue(func() *strings.Replacer {
	return strings.NewReplacer(
		"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8",
		"⅓", " 1/3", "⅔", " 2/3", "⅕", " 1/5", "⅖", " 2/5", "⅗", " 3/5", "⅘", " 4/5", "⅙", " 1/6", "⅚", " 5/6",
		"⁄", "/", "∕", "/",
		"″", `"`, "“", `"`, "”", `"`, "„", `"`, "‟", `"`, "＂", `"`, "〃", `"`, "''", `"`, "’’", `"`, "‘‘", `"`, "′′", `"`,
		"’", "'", "‘", "'", "′", "'",
		"×", " x ", "✕", " x ", "⨯", " x ", "*", " x ",
		"‐", "-", "‑", "-", "‒", "-", "–", "-", "—", "-", "−", "-",
		"+/-", "±", "+/−", "±", "+/–", "±", "+-", "±", "+−", "±", "+–", "±",
		"℃", "°C", "℉", "°F", "⌀", " ø ", "∅", " ø ", "≤", " max ", "<=", " max ", "≥", " min ", ">=", " min ",
		"\u200b", "", "\ufeff", "",
	)
})

// tokens cuts a text. Anything that is no number and no word is a token of its own.
func tokens(text string) []token {
	var out []token
	rest := text
	if !plainText(text) {
		rest = folding().Replace(text)
	}
	glued := false
	for rest != "" {
		r, n := utf8.DecodeRuneInString(rest)
		switch {
		case unicode.IsSpace(r):
		case digit(r) || r == '.' || r == ',':
			n = run(rest, func(r rune) bool { return digit(r) || r == '.' || r == ',' })
			out = append(out, token{number, rest[:n], glued})
		case unicode.IsLetter(r):
			n = run(rest, func(r rune) bool { return unicode.IsLetter(r) || r == '.' })
			out = append(out, words(rest[:n])...)
		default:
			out = append(out, token{kind(r), rest[:n], glued})
		}
		glued = !unicode.IsSpace(r)
		rest = rest[n:]
	}
	return out
}

// words takes the sign x off the unit before it: 8mmx1mm.
func words(text string) []token {
	w := strings.ToLower(strings.ReplaceAll(text, ".", ""))
	if unit, cut := strings.CutSuffix(w, "x"); cut && unit != "" {
		if u := synonyms()[unit]; unit == "in" || unit == "mm" || u == "in" || u == "mm" {
			return []token{{kind: word, text: unit}, {kind: word, text: "x"}}
		}
	}
	return []token{{kind: word, text: w}}
}

// plainText tells whether there is nothing to fold in a text, which most of them are.
func plainText(text string) bool {
	for i := range len(text) {
		if c := text[i]; c >= utf8.RuneSelf || c == '\'' || c == '*' || c == '+' || c == '<' || c == '>' {
			return false
		}
	}
	return true
}

func digit(r rune) bool { return '0' <= r && r <= '9' }

// run is the length of the start of s that consists of runes that f accepts.
func run(s string, f func(rune) bool) int {
	if i := strings.IndexFunc(s, func(r rune) bool { return !f(r) }); i >= 0 {
		return i
	}
	return len(s)
}
