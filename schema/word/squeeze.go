package word

import (
	"strings"
	"unicode"
)

// Squeeze is a name as people type it from a plate or from memory: folded, without the spaces and
// hyphens in it. Between two digits a hyphen stays, so that 4-5 is not 45.
func Squeeze(s string) string {
	var b strings.Builder
	gap := false
	var last rune
	for _, r := range Fold(s) {
		if r == '-' || r == '‐' || r == '‑' || r == '–' || unicode.IsSpace(r) {
			gap = true
			continue
		}
		if gap && unicode.IsDigit(last) && unicode.IsDigit(r) {
			b.WriteByte('-')
		}
		gap = false
		b.WriteRune(r)
		last = r
	}
	return b.String()
}
