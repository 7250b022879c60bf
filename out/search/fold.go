package search

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// Fold gives text as keys are made of it: compatible forms taken apart (so that ½ is
// 1/2), ß and ligatures as their letters, marks above letters gone, in small letters, all signs a single space.
func Fold(text string) string {
	var b strings.Builder
	gap := false
	for _, r := range norm.NFKD.String(text) {
		switch {
		case unicode.Is(unicode.M, r):
			continue
		case !unicode.IsLetter(r) && !unicode.Is(unicode.N, r):
			gap = true
			continue
		}
		if gap && b.Len() > 0 {
			b.WriteByte(' ')
		}
		gap = false
		b.WriteString(spelt(unicode.ToLower(r)))
	}
	return b.String()
}

// spelt gives a small letter as those type it who do not have it: a ligature as its letters, of two small
// forms one.
func spelt(r rune) string {
	switch r {
	case 'ς':
		return "σ"
	case 'ß':
		return "ss"
	case 'œ':
		return "oe"
	case 'æ':
		return "ae"
	case 'ø':
		return "o"
	}
	return string(r)
}

// keys lists what an entry is found under: its title as a whole without spaces, the
// pieces of it, and its other words.
func keys(e *Entry) []string {
	title := Fold(e.Title)
	var out []string
	add := func(key string) {
		if key = cut(key, keyAtMost); key != "" && len(out) < keysAtMost && !slices.Contains(out, key) {
			out = append(out, key)
		}
	}
	name := func(text string) {
		add(strings.ReplaceAll(text, " ", ""))
		for _, word := range strings.Fields(text) {
			add(word)
			for _, p := range pieces(word) {
				add(p)
			}
		}
	}
	name(title)
	for _, other := range e.Also {
		name(Fold(other))
	}
	for _, word := range strings.Fields(Fold(e.Words)) {
		if utf8.RuneCountInString(word) > 1 {
			add(word)
		}
	}
	return out
}

// pieces gives the later parts of a word in which letters and digits meet: people ask
// for the digits of a number alone.
func pieces(word string) []string {
	var out []string
	begin := 0
	var last rune
	for i, r := range word {
		if i > 0 && unicode.IsLetter(r) != unicode.IsLetter(last) {
			out, begin = append(out, word[begin:i]), i
		}
		last = r
	}
	if out = append(out, word[begin:]); len(out) == 1 {
		return nil
	}
	return slices.DeleteFunc(out[1:], func(p string) bool { return utf8.RuneCountInString(p) < 3 })
}

// cut gives the first letters of a text.
func cut(text string, letters int) string {
	n := 0
	for i := range text {
		if n == letters {
			return text[:i]
		}
		n++
	}
	return text
}
