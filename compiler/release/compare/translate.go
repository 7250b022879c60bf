package compare

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"ferrule/compiler/finding"
)

// translate gives a finding of OLD under the names of NEW.
func (c *comparison) translate(f *finding.Finding) *finding.Finding {
	out := *f
	if out.Constant == "" {
		out.Constant = f.Message
	}
	for _, r := range c.renames {
		switch r.What {
		case Platform:
			out.Platform = swap(out.Platform, r)
		case Position:
			out.Position = swap(out.Position, r)
		case Part:
			out.Part = swap(out.Part, r)
		case Value:
			continue // findings hardly name values, and values are often common words
		}
		out.Constant = replaceName(out.Constant, r.Old, r.New)
	}
	return &out
}

func swap(name string, r Rename) string {
	if name == r.Old {
		return r.New
	}
	return name
}

// replaceName puts one name in the place of another wherever it stands by itself.
func replaceName(text, old, new string) string {
	if old == "" {
		return text
	}
	var b strings.Builder
	for at := 0; ; {
		i := strings.Index(text[at:], old)
		if i < 0 {
			return b.String() + text[at:]
		}
		from, to := at+i, at+i+len(old)
		b.WriteString(text[at:from])
		before, _ := utf8.DecodeLastRuneInString(text[:from])
		after, _ := utf8.DecodeRuneInString(text[to:])
		if inName(before) || inName(after) {
			b.WriteString(old)
		} else {
			b.WriteString(new)
		}
		at = to
	}
}

// inName tells whether a letter would make a name beside it a longer one. RuneError
// stands for the end of the text.
func inName(r rune) bool {
	return r != utf8.RuneError && (unicode.IsLetter(r) || unicode.IsDigit(r) || r == '-' || r == '_')
}
