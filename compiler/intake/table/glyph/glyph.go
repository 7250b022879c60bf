// Package glyph finds what is in a text and not to be seen in it: letters of another
// alphabet that look like Latin ones, characters without width, full-width letters,
// accents that are written as characters of their own.
//
// Such texts match no name that is typed on a keyboard, so each is given with the text
// to type instead.
package glyph

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// Text is how strictly a text is looked at.
type Text struct {
	// Name tells that the text must match another one, as names and part numbers must.
	// In other texts only words that mix alphabets are looked for.
	Name bool
	// Native tells whether an alphabet is at home in the sheet. Where it is, a word
	// that is all of it is what it seems to be. Nil stands for none.
	Native func(*unicode.RangeTable) bool
}

// Look tells what is in a text and not to be seen: one sentence about the first thing
// of the kind, and the text to type instead. "" stands for nothing.
func (t Text) Look(s string) (what, instead string) {
	if ASCII(s) {
		return "", ""
	}
	var b builder
	if t.Name {
		s = b.unseen(s)
	}
	s = b.words(s, t)
	if t.Name {
		s = b.accents(b.wide(s))
	}
	return b.what, s
}

// ASCII tells whether a text has nothing but printable ASCII and white space.
func ASCII(s string) bool {
	for i := range len(s) {
		if c := s[i]; c >= utf8.RuneSelf || c < ' ' && c != '\t' && c != '\n' && c != '\r' || c == 0x7f {
			return false
		}
	}
	return true
}

// builder keeps the first thing that was found.
type builder struct{ what string }

func (b *builder) found(format string, args ...any) {
	if b.what == "" {
		b.what = fmt.Sprintf(format, args...)
	}
}

// unseen takes out what has no width: format and control characters, variation
// selectors.
func (b *builder) unseen(s string) string {
	return strings.Map(func(r rune) rune {
		if !invisible(r) {
			return r
		}
		b.found("the character U+%04X%s, which cannot be seen", r, called(r))
		return -1
	}, s)
}

func invisible(r rune) bool {
	return unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Variation_Selector, r) ||
		unicode.IsControl(r) && !unicode.IsSpace(r)
}

// called names the characters that people meet.
func called(r rune) string {
	switch r {
	case 0xAD:
		return " (a soft hyphen)"
	case 0x200B:
		return " (a space without width)"
	case 0xFEFF:
		return " (a byte order mark)"
	}
	return ""
}

// words replaces the letters of other alphabets in words that look Latin.
func (b *builder) words(s string, t Text) string {
	var out strings.Builder
	for s != "" {
		n := strings.IndexFunc(s, unicode.IsLetter)
		if n < 0 {
			n = len(s)
		}
		out.WriteString(s[:n])
		s = s[n:]
		n = strings.IndexFunc(s, func(r rune) bool { return !unicode.IsLetter(r) })
		if n < 0 {
			n = len(s)
		}
		out.WriteString(b.word(s[:n], t))
		s = s[n:]
	}
	return out.String()
}

// word gives a run of letters in Latin ones if it looks Latin, and is not a word of an
// alphabet at home here.
func (b *builder) word(w string, t Text) string {
	latin, first, home := false, rune(0), (*unicode.RangeTable)(nil)
	for _, r := range w {
		switch table := alphabet(r); {
		case table == nil:
			latin = true
		case twin(r) == 0:
			return w
		case first == 0:
			first, home = r, table
		}
	}
	if first == 0 || !latin && (!t.Name || t.Native != nil && t.Native(home)) {
		return w
	}
	b.found("%q (U+%04X), a letter of another alphabet that looks like %q", string(first), first, string(twin(first)))
	return strings.Map(func(r rune) rune {
		if l := twin(r); l != 0 {
			return l
		}
		return r
	}, w)
}

// wide gives full-width letters and digits, as East Asian keyboards write them, in
// their usual width.
func (b *builder) wide(s string) string {
	return strings.Map(func(r rune) rune {
		if r < 0xFF01 || r > 0xFF5E {
			return r
		}
		narrow := r - 0xFF01 + '!'
		if unicode.IsLetter(narrow) || unicode.IsDigit(narrow) {
			b.found("%q (U+%04X), which is %q in full width", string(r), r, string(narrow))
		}
		return narrow
	}, s)
}

// accents puts letters and their accents together, as keyboards write them.
func (b *builder) accents(s string) string {
	composed := norm.NFC.String(s)
	if composed != s {
		b.found("a letter that is written in another way than keyboards write it, such as an accent that is a character of its own")
	}
	return composed
}

// Natives marks the alphabets of which a text has letters that look like no Latin ones:
// someone writes in them.
func Natives(s string, found map[*unicode.RangeTable]bool) {
	if ASCII(s) {
		return
	}
	for _, r := range s {
		if a := alphabet(r); a != nil && twin(r) == 0 {
			found[a] = true
		}
	}
}
