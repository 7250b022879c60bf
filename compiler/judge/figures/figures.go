// Package figures compares what must be the same in a text and in its translation: numbers,
// the units behind them, and part numbers.
package figures

import (
	"regexp"
	"slices"
	"strings"
	"unicode"

	"ferrule/compiler/measure"
)

// figure is a number of a text, or a part's number.
type figure struct {
	text  string   // as it stands there, with its unit
	means []string // every way to read it; two are the same where they share one
	unit  string   // the unit behind it; "" where none is known
	bare  bool     // no word stands behind it
}

// Differ gives the figures of a text that its translation lacks, and those that the text
// has not; nil for none. numbers are the part numbers that there are.
func Differ(text, translation string, numbers map[string]bool) (lost, more []string) {
	was, is := figuresOf(text, numbers), figuresOf(translation, numbers)
	units := unitsOf(is)
	for _, f := range was {
		i := slices.IndexFunc(is, f.same)
		switch {
		case i < 0:
			lost = append(lost, f.text)
			continue
		case is[i].bare && f.unit != "" && !slices.Contains(units, f.unit):
			lost, more = append(lost, f.text), append(more, is[i].text+" without a unit")
		}
		is = slices.Delete(is, i, i+1)
	}
	for _, f := range is {
		more = append(more, f.text)
	}
	return lost, more
}

// unitsOf gives the units that stand behind some figure.
func unitsOf(all []figure) []string {
	var out []string
	for _, f := range all {
		if f.unit != "" {
			out = append(out, f.unit)
		}
	}
	return out
}

// same tells whether two figures may say the same. A word behind a number is compared only
// where both are units.
func (f figure) same(g figure) bool {
	if f.unit != "" && g.unit != "" && f.unit != g.unit {
		return false
	}
	return slices.ContainsFunc(f.means, func(m string) bool { return slices.Contains(g.means, m) })
}

// token is a run of signs with a digit in it: 1.5, 10,000, 3/8, HD-20, R134a.
var token = regexp.MustCompile(`[\p{L}\p{N}]+(?:[.,/_-][\p{L}\p{N}]+)*`)

// grouped is a number whose thousands stand apart: 10 000.
var grouped = regexp.MustCompile(`(^|[^\p{L}\p{N}.,/-])(\d{1,3})((?:[ \x{a0}\x{202f}\x{2009}’']\d{3})+)($|[^\p{L}\p{N}])`)

func figuresOf(text string, numbers map[string]bool) []figure {
	text = joined(text)
	var out []figure
	for _, at := range token.FindAllStringIndex(text, -1) {
		word := text[at[0]:at[1]]
		switch {
		case numbers[word]:
			out = append(out, figure{text: word, means: []string{"#" + word}})
		case strings.ContainsFunc(word, unicode.IsDigit):
			more := split(word, text[at[1]:])
			if below.MatchString(text[:at[0]]) {
				more[0].below()
			}
			out = append(out, more...)
		}
	}
	return out
}

// below is how what stands before a number below zero ends; not behind another number, where a sign is that of a range.
var below = regexp.MustCompile(`(?i)(?:^|[^\d\s][\s(]+|[(])(?:[-\x{2212}]|(?:minus|moins|menos) )$`)

// below makes a figure one below zero.
func (f *figure) below() {
	f.text = "-" + f.text
	f.means = slices.Clone(f.means)
	for i := range f.means {
		f.means[i] = "-" + f.means[i]
	}
}

// joined closes the gaps between thousands.
func joined(text string) string {
	for {
		next := grouped.ReplaceAllStringFunc(text, func(m string) string {
			g := grouped.FindStringSubmatch(m)
			digits := strings.Map(func(r rune) rune {
				if unicode.IsDigit(r) {
					return r
				}
				return -1
			}, g[3])
			return g[1] + g[2] + digits + g[4]
		})
		if next == text {
			return text
		}
		text = next
	}
}

// number is what begins with a number and may go on with a unit: 80Nm, 1.5, 3/8.
var number = regexp.MustCompile(`^(\d+(?:[.,]\d+)*(?:/\d+)?)(\p{L}*)$`)

// split reads a token; of several numbers with hyphens between them, which may be a range, each.
func split(word, behind string) []figure {
	var out []figure
	pieces := strings.Split(word, "-")
	for i, p := range pieces {
		m := number.FindStringSubmatch(p)
		if m == nil {
			return []figure{{text: word, means: []string{"#" + word}}}
		}
		unit := m[2]
		if unit == "" && i == len(pieces)-1 {
			unit = first(behind)
		}
		f := figure{text: m[1], means: readings(m[1]), bare: unit == "" && i == len(pieces)-1 && !strings.HasPrefix(strings.TrimLeftFunc(behind, unicode.IsSpace), "%")}
		if u, known := measure.ParseUnit(elsewhere(unit)); known {
			f.unit, f.text = u.String(), m[1]+" "+unit
		}
		out = append(out, f)
	}
	return out
}

// first gives the word behind a number.
func first(text string) string {
	words := strings.Fields(text)
	if len(words) == 0 || strings.IndexFunc(text, unicode.IsSpace) != 0 {
		return ""
	}
	return strings.TrimRight(words[0], ".,;:!?)")
}

// readings gives the values that a number may have, by what its signs may be: thousands or
// decimals.
func readings(text string) []string {
	plain := func(s string) string {
		whole, decimals, _ := strings.Cut(s, ".")
		whole, decimals = strings.TrimLeft(whole, "0"), strings.TrimRight(decimals, "0")
		return whole + "." + decimals
	}
	if strings.Contains(text, "/") {
		return []string{text}
	}
	last := strings.LastIndexAny(text, ".,")
	if last < 0 {
		return []string{plain(text)}
	}
	digits := strings.NewReplacer(".", "", ",", "")
	out := []string{plain(digits.Replace(text[:last]) + "." + text[last+1:])}
	if thousands.MatchString(text) {
		out = append(out, plain(digits.Replace(text)))
	}
	return out
}

// thousands is a number whose signs may all be of thousands.
var thousands = regexp.MustCompile(`^\d{1,3}(?:(?:,\d{3})+|(?:\.\d{3})+)$`)

// elsewhere gives the name of a unit that is written in another language; the text itself where it is none.
// They are common words, from memory.
func elsewhere(unit string) string {
	for name, others := range map[string]string{"in": "pouce pouces pulgada pulgadas zoll", "ft": "pied pieds pie pies fuß", "mi": "mille milles milla millas meile meilen",
		"lb": "livre livres libra libras pfund", "°": "degré degrés grado grados grad", "t": "tonne tonnes tonelada toneladas tonnen"} {
		if slices.Contains(strings.Fields(others), strings.ToLower(unit)) {
			return name
		}
	}
	return unit
}
