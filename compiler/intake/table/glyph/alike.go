package glyph

import (
	"fmt"
	"strings"
	"unicode"
)

// Skeleton is equal for texts that look alike: besides what Look finds, dashes and
// quotation marks of every kind are one, and white space is collapsed.
func Skeleton(s string) string {
	if ASCII(s) {
		return strings.Join(strings.Fields(s), " ")
	}
	_, s = Text{Name: true}.Look(s)
	return strings.Map(mark, strings.Join(strings.Fields(s), " "))
}

// mark gives one sign for all dashes and quotation marks that look alike.
func mark(r rune) rune {
	switch {
	case unicode.Is(unicode.Dash, r):
		return '-'
	case strings.ContainsRune("‘’‚‛′`´ʼʹ＇", r):
		return '\''
	case strings.ContainsRune("“”„‟″＂", r):
		return '"'
	case r == '×' || r == '✕' || r == '⨯':
		return 'x'
	case r == '⁄' || r == '∕':
		return '/'
	}
	return r
}

// Difference says where two texts that look alike are not the same; "" where they do
// not look alike or no sign differs.
func Difference(here, there string) string {
	if Skeleton(here) != Skeleton(there) {
		return ""
	}
	a, b := []rune(strings.Join(strings.Fields(here), " ")), []rune(strings.Join(strings.Fields(there), " "))
	for i := range max(len(a), len(b)) {
		switch {
		case i >= len(b):
			return fmt.Sprintf("U+%04X stands here and nothing there", a[i])
		case i >= len(a):
			return fmt.Sprintf("nothing stands here and U+%04X there", b[i])
		case a[i] != b[i]:
			return fmt.Sprintf("U+%04X stands here and U+%04X there", a[i], b[i])
		}
	}
	return ""
}
