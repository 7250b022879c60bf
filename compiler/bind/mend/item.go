package mend

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// item is one part as a cell should have it, and what had to be put right.
type item struct {
	text     string // `2 x HD-20`
	number   string
	quantity string // "" where the cell says none
	counted  bool   // the quantity stood otherwise
	spelt    string // how the number was written, where that is not how it is declared
}

// How people write a quantity before and behind a part.
const units = `(?:x|×|\*|off|of|pcs?\.?|pieces?|each|ea\.?|units?|nos?\.?|required|req'?d)`

var (
	countBefore = regexp.MustCompile(`(?i)^\(?\s*(?:(?:qty|quantity|q'ty)[\s.:=]*)?(\d{1,4}|a|one|two|three|four|six|eight)\s*` + units + `?(?:\s+of)?\s*\)?[\s:]*(\S.*)$`)
	countBehind = regexp.MustCompile(`(?i)^(\S.*?)[\s,]*(?:[x×*]\s*(\d{1,4})|\(\s*(?:x|×|qty|quantity|q'ty)?[\s.:=]*(\d{1,4})\s*` + units + `?\s*\)|[\s,](?:qty|quantity|q'ty)[\s.:=]*(\d{1,4})|[\s,]+[-–:]?\s*(\d{1,4})\s*` + units + `|\s+(\d{1,2}))$`)
	pairBefore  = regexp.MustCompile(`(?i)^(?:a\s+)?pair\s+(?:of\s+)?(\S.*)$`)
	pairBehind  = regexp.MustCompile(`(?i)^(\S.*?)\s*(?:\(\s*(?:a\s+)?pair\s*\)|,?\s+(?:a\s+)?pair)$`)
	proper      = regexp.MustCompile(`^(\d+)\s*[xX×]\s+(\S.*)$`)
)

var counted = map[string]string{"a": "1", "one": "1", "two": "2", "three": "3", "four": "4", "six": "6", "eight": "8"}

// exact reads a part with or without a quantity, and nothing else.
func (f Fitment) exact(text string) (item, bool) {
	text = strings.Join(strings.Fields(text), " ")
	if it, ok := f.number(text); ok {
		return it, true
	}
	type reading struct {
		quantity, rest string
		odd            bool
	}
	var ways []reading
	if m := proper.FindStringSubmatch(text); m != nil {
		ways = append(ways, reading{m[1], m[2], false})
	}
	if m := countBefore.FindStringSubmatch(text); m != nil {
		ways = append(ways, reading{m[1], m[2], true})
	}
	if m := countBehind.FindStringSubmatch(text); m != nil {
		ways = append(ways, reading{m[2] + m[3] + m[4] + m[5] + m[6], m[1], true})
	}
	for _, p := range []*regexp.Regexp{pairBefore, pairBehind} {
		if m := p.FindStringSubmatch(text); m != nil {
			ways = append(ways, reading{"2", m[1], true})
		}
	}
	for _, w := range ways {
		if word, ok := counted[strings.ToLower(w.quantity)]; ok {
			w.quantity = word
		}
		if n, err := strconv.Atoi(w.quantity); err != nil || n < 1 || n > f.Most {
			continue
		}
		if it, ok := f.number(w.rest); ok {
			it.quantity, it.counted = strings.TrimLeft(w.quantity, "0"), w.odd
			it.text = it.quantity + " x " + it.number
			return it, true
		}
	}
	return item{}, false
}

// number reads a number as it is declared, or with other spaces and hyphens.
func (f Fitment) number(text string) (item, bool) {
	text = strings.Join(strings.Fields(text), " ")
	if n, ok := f.Find(text); ok {
		return item{text: n, number: n}, true
	}
	if n := f.Alike(text); n != "" && squeezed(n) == squeezed(text) {
		return item{text: n, number: n, spelt: text}, true
	}
	return item{}, false
}

// token is a piece of a cell that may be a number or a remark on one.
var token = regexp.MustCompile(`\([^()]*\)|[*†‡#^¹²³⁴]+|[^\s()*†‡#^¹²³⁴,;:!?]+|[,;:!?]+`)

// filler are words that add nothing to a number.
var filler = phrase(`(?:(?:the )?same(?: as)?|as|use|uses|like|part|parts|no|number|p/?n|genuine|new|is|are|fits|with)(?: (?:part|number|no|as|of))*`)

// loose reads a part among other words: the longest run of words that is one, where no
// other run is another. What is left is a remark.
func (f Fitment) loose(text string) (it item, remark string, ok bool) {
	at := token.FindAllStringIndex(text, -1)
	type run struct{ from, to int }
	var best run
	var others []string
	for i := range at {
		for j := i; j < min(len(at), i+6); j++ {
			found, hit := f.exact(text[at[i][0]:at[j][1]])
			if !hit || ambiguousRun(text, at[i][0], at[j][1]) {
				continue
			}
			others = append(others, found.number)
			if j-i+1 > best.to-best.from {
				best, it, ok = run{i, j + 1}, found, true
			}
		}
	}
	if !ok || len(distinct(others)) > 1 || slices.ContainsFunc([]string{"none", "planned", "tbd", "ask"}, func(w string) bool { return hasWord(text, w) }) {
		return item{}, "", false
	}
	before, behind := trimmed(text[:at[best.from][0]]), trimmed(text[at[best.to-1][1]:])
	if filler.MatchString(folded(before)) {
		before = ""
	}
	remark = trimmed(before + " " + behind)
	return it, remark, !f.namesAnother(remark)
}

// another is a word that looks like the number of a part.
var another = regexp.MustCompile(`(?i)[a-z]+-?\d|\d+-?[a-z]+\d|\d{3,}-\d`)

// namesAnother tells whether a remark names what may be another part: brackets hold what is
// said of a part, whatever it looks like.
func (f Fitment) namesAnother(remark string) bool {
	remark = bracketed.ReplaceAllString(remark, "")
	return another.MatchString(remark) || slices.ContainsFunc(strings.Fields(remark), func(w string) bool { return f.Near(w) != "" })
}

var bracketed = regexp.MustCompile(`\([^()]*\)`)

// ambiguousRun tells whether a run of words is cut out of a longer number.
func ambiguousRun(text string, from, to int) bool {
	return to < len(text) && strings.ContainsRune("/|&+", rune(text[to])) || from > 0 && strings.ContainsRune("/|&+", rune(text[from-1]))
}

func hasWord(text, word string) bool {
	return slices.Contains(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return strings.ContainsRune(" ,;:.()\n\u00a0", r) }), word)
}
