// Package visible shows what would be obeyed or not be seen. What workbooks, files and
// command lines say reaches terminals, logs and annotations, where a control character
// moves the cursor, a mark turns the direction of what follows, a sign without width
// makes two names look alike, and a line may be a command of a build server. All of it
// is written as signs that can be seen.
//
// Text does so to a text that is to stand within a line. A Writer does it to everything
// that a program writes, so that nobody has to remember.
package visible

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Hidden tells whether a sign is obeyed by terminals, or is not to be seen: control and
// format characters, what ends lines and paragraphs, variation selectors, and what fonts
// show as nothing. Tab and line break are among them, a blank is not.
func Hidden(r rune) bool {
	switch {
	case r < ' ' || r >= 0x7f && r < 0xa0:
		return true
	case r < 0xad:
		return false
	}
	return unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Variation_Selector, unicode.Other_Default_Ignorable_Code_Point)
}

// Any tells whether a text has something hidden in it, or bytes that are no text.
func Any(s string) bool {
	return strings.ContainsFunc(s, Hidden) || !utf8.ValidString(s)
}

// Text gives a text with everything hidden written as <U+202E>. Bytes that are no text
// become <U+FFFD>.
func Text(s string) string {
	if !Any(s) {
		return s
	}
	var b []byte
	for i, r := range s {
		if Hidden(r) || r == utf8.RuneError && !strings.HasPrefix(s[i:], string(utf8.RuneError)) {
			b = angles(b, r)
		} else {
			b = utf8.AppendRune(b, r)
		}
	}
	return string(b)
}

// angles writes a sign as <U+202E>.
func angles(b []byte, r rune) []byte { return fmt.Appendf(b, "<U+%04X>", r) }
