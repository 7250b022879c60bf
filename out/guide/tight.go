package guide

import (
	"bytes"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/net/html"

	"ferrule/compiler/measure"
)

// measured is a number with a word behind it that may be its unit: `7.1 t`, `1 1/2 in`,
// `10 000 lb`. Where a blank is, there may be one that does not break.
var measured = regexp.MustCompile(`\d+(?:[ \x{a0}]\d{3})*(?:[.,]\d+)?(?:(?:[ \x{a0}]\d+)?/\d+)?[ \x{a0}]([^\s\x{a0}&<>,;:()\[\]]{1,8})`)

// untouched are elements whose text holds no markup, or is drawn.
const untouched = " title script style textarea option select svg "

// keepTogether writes a page so that no line ends between a number and its unit, whoever has
// written them: both stand in an element that does not wrap. What the page says stays the
// same, letter by letter.
func keepTogether(to *bytes.Buffer, page []byte) {
	z := html.NewTokenizer(bytes.NewReader(page))
	within := 0
	for {
		kind := z.Next()
		raw := z.Raw()
		switch {
		case kind == html.ErrorToken:
			to.Write(raw)
			return
		case kind == html.TextToken && within == 0:
			tighten(to, raw)
			continue
		}
		to.Write(raw)
		if kind == html.StartTagToken || kind == html.EndTagToken {
			name, _ := z.TagName()
			within += depth(kind, string(name))
		}
	}
}

// depth says how many untouched elements begin or end with a tag.
func depth(kind html.TokenType, name string) int {
	switch {
	case !strings.Contains(untouched, " "+name+" "):
		return 0
	case kind == html.StartTagToken:
		return 1
	}
	return -1
}

// tighten writes a text, escaped as it is.
func tighten(to *bytes.Buffer, text []byte) {
	if !bytes.ContainsAny(text, "0123456789") {
		to.Write(text)
		return
	}
	for {
		m := measured.FindSubmatchIndex(text)
		if m == nil {
			to.Write(text)
			return
		}
		from, to1 := m[0], unitEnd(text, m[2], m[3])
		if to1 < 0 || joinedOn(text[:from]) {
			to.Write(text[:m[2]])
			text = text[m[2]:]
			continue
		}
		to.Write(text[:from])
		to.WriteString(`<span class="nb">`)
		to.Write(text[from:to1])
		to.WriteString(`</span>`)
		text = text[to1:]
	}
}

// unitEnd says where the unit in a piece of a text ends, which a full stop may follow; -1
// where it is none.
func unitEnd(text []byte, from, to int) int {
	word := strings.TrimRight(string(text[from:to]), ".!?")
	if _, ok := measure.ParseUnit(word); !ok {
		return -1
	}
	return from + len(word)
}

// joinedOn tells whether a text ends in what a number would be a part of: a letter, a
// character reference, a number's sign or point.
func joinedOn(text []byte) bool {
	r, _ := utf8.DecodeLastRune(text)
	return len(text) > 0 && (unicode.IsLetter(r) || strings.ContainsRune("#.,/-_", r))
}

// long tells whether a text has a word that would not stand in the head of a narrow
// column, so that it may be broken anywhere.
func long(text string) bool {
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return unicode.IsSpace(r) || r == '-' }) {
		if utf8.RuneCountInString(word) > wordAtMost {
			return true
		}
	}
	return false
}

// wordAtMost is how many letters of one word the head of a column holds, five of which stand
// beside each other on a sheet of paper.
const wordAtMost = 14
