// Package mend says what to write in place of cells as people write them. It knows the
// habits of spreadsheets (a quantity behind its part, `all except`, months under Years) and
// turns a cell into one that reads, with everything that the cell held: what has no place in
// it is named, with the place that it has.
//
// It never guesses a name. Whoever asks gives what finds a name and what reads a cell, and
// no advice is given that does not read.
package mend

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"
)

// Advice is what to say of a cell that cannot be read.
type Advice struct {
	// Says goes on from the quoted cell, with what it was taken for and what to write.
	Says string
	// Write are the cells that Says tells to write; each of them reads. Where they are
	// several, they are different things that may have been meant.
	Write []string
	// Aside is what of the cell has no place in what to write. Says quotes it.
	Aside []string
	// Name is true where the cell names what is declared and only writes it otherwise.
	Name bool
}

// Of says it of the cell, which is quoted: as its sentence where it goes on from the cell,
// behind a colon where it does not.
func (a *Advice) Of(text string) string {
	switch verb, _, _ := strings.Cut(a.Says, " "); verb {
	case "is", "does", "has", "names", "runs":
		return quote(text) + " " + a.Says
	}
	return quote(text) + ": " + a.Says
}

// quote quotes a cell. One that holds quotation marks itself gets others, so that no
// backslash comes into it.
func quote(text string) string {
	if strings.Contains(text, `"`) && !strings.ContainsFunc(text, unicode.IsControl) {
		return "“" + text + "”"
	}
	return strconv.Quote(text)
}

// saying is the advice of a sentence alone.
func saying(s string) (Advice, bool) { return Advice{Says: s}, true }

var apostrophes = strings.NewReplacer("’", "'", "‘", "'")

// folded is a text as tables of words have it: small letters, single spaces, nothing but
// letters and digits at its ends.
func folded(text string) string {
	s := strings.ToLower(strings.Join(strings.Fields(text), " "))
	s = apostrophes.Replace(s)
	if inner := strings.TrimRight(strings.TrimSpace(s), ".!:;, "); inner != "" {
		s = inner
	}
	if inner, ok := strings.CutPrefix(s, "("); ok && strings.HasSuffix(inner, ")") && strings.Count(inner, "(") == 0 {
		s = strings.TrimSpace(inner[:len(inner)-1])
	}
	return s
}

// wording is a pattern that is compiled when it is first asked, since most runs ask for no advice and
// compiling all takes an eighth of the time in which the program starts.
type wording func() *regexp.Regexp

// MatchString tells whether a text is one of the ways to say it.
func (s wording) MatchString(text string) bool { return s().MatchString(text) }

// phrase makes the pattern of a whole text out of the ways to say one thing.
func phrase(ways string) wording {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^(?:` + ways + `)$`) })
}

// quoted quotes texts and joins them in a sentence.
func quoted(texts []string, by string) string {
	out := make([]string, len(texts))
	for i, t := range texts {
		out[i] = strconv.Quote(t)
	}
	return strings.Join(out, by)
}

// trimmed is a remark without the signs that set it off from the rest of its cell.
func trimmed(s string) string {
	s = strings.Trim(strings.Join(strings.Fields(s), " "), " ,;:-–—.")
	if strings.HasPrefix(s, "(") && strings.HasSuffix(s, ")") && strings.Count(s, "(") == 1 {
		s = strings.TrimSpace(s[1 : len(s)-1])
	}
	return s
}

// squeezed is a name without what people leave out or put in: spaces, hyphens and case.
func squeezed(s string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(" \u00a0\t-_.‐‑–—−", r) {
			return -1
		}
		return r
	}, strings.ToLower(s))
}

// split cuts a text wherever a pattern matches outside of brackets.
func split(text string, at *regexp.Regexp) []string {
	var out []string
	from := 0
	for _, m := range at.FindAllStringIndex(text, -1) {
		if strings.Count(text[:m[0]], "(") > strings.Count(text[:m[0]], ")") {
			continue
		}
		out = append(out, text[from:m[0]])
		from = m[1]
	}
	return append(out, text[from:])
}

// distinct drops what is said again.
func distinct(texts []string) []string {
	var out []string
	for _, t := range texts {
		if !slices.Contains(out, t) {
			out = append(out, t)
		}
	}
	return out
}
