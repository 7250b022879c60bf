package grammar

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// Fits is what a fitment cell says: a word that stands for no part, the place that supplies
// it, or parts.
type Fits struct {
	Fault   string // not "": a sentence that says why it cannot be read
	Word    string // none, planned (which tbd says as well) or ask
	Reason  string // behind Word
	With    string // the name of a position
	Choices []Readings[Choice]
}

// The forms that a fitment cell can take beside a list of parts. A space that does not
// break (\p{Z}) is white space as well.
var (
	keyword  = regexp.MustCompile(`(?is)^(none|planned|tbd|ask)(?:$|[\s\p{Z}]*[:;,.(][\s\p{Z}]*|[\s\p{Z}]+[–—-][\s\p{Z}]+|[\s\p{Z}]+)(.*)$`)
	withWord = regexp.MustCompile(`(?is)^with[\s\p{Z}]+(.+)$`)
)

// ReadFits reads a fitment cell, or one that is written like it. What begins with a declared
// number is a list of parts, whatever word the number begins with.
func ReadFits(text string) Readings[Fits] {
	text = strings.TrimSpace(text)
	if text == "" {
		return Readings[Fits]{{As: Fits{Choices: readChoices(text)}}}
	}
	whole := Fits{Choices: []Readings[Choice]{alone(text)}}
	parts, out := readParts(text), Readings[Fits]{{If: text, As: whole}}
	word, ok := readWord(text)
	if !ok {
		return append(out, Reading[Fits]{As: parts})
	}
	for _, number := range slices.Compact(leads(text)) {
		if number != text {
			out = append(out, Reading[Fits]{If: number, As: parts})
		}
	}
	return append(out, Reading[Fits]{As: word})
}

// readWord reads what stands in a cell for no part, or for another place.
func readWord(text string) (Fits, bool) {
	if m := keyword.FindStringSubmatch(text); m != nil {
		said := Fits{Word: strings.ToLower(m[1]), Reason: reason(m[2])}
		if said.Word == "tbd" {
			said.Word = "planned"
		}
		return said, true
	}
	if m := withWord.FindStringSubmatch(text); m != nil {
		return Fits{With: spaced(m[1])}, true
	}
	return Fits{}, false
}

// reason cuts a bracket that was left open by its keyword: `none (no tag axle)`.
func reason(s string) string {
	s = strings.TrimSpace(s)
	if strings.HasSuffix(s, ")") && strings.Count(s, ")") > strings.Count(s, "(") {
		s = strings.TrimSpace(strings.TrimSuffix(s, ")"))
	}
	return s
}

// leads gives the numbers that a list of parts may begin with.
func leads(text string) []string {
	choice := strings.TrimSpace(orWord.Split(text, 2)[0])
	item, _, _ := strings.Cut(choice, "+")
	item = strings.TrimSpace(item)
	if _, number, ok := counted(item); ok {
		item = number
	}
	return []string{choice, item}
}

// readParts reads a list of parts.
func readParts(text string) Fits {
	if why := noList(text); why != "" {
		return Fits{Fault: why}
	}
	return Fits{Choices: readChoices(text)}
}

// noList says why a cell is no list of parts, whatever is declared; "" where it may be one.
func noList(text string) string {
	switch {
	case Dash(text):
		return fmt.Sprintf("%q says nothing; write none and the reason where nothing belongs, or leave the cell blank where nothing is known", text)
	case strings.EqualFold(text, "n/a") || strings.EqualFold(text, "na"):
		return fmt.Sprintf("%q is for conditions; write none and the reason where nothing belongs here", text)
	case strings.ContainsAny(text, "\n\r"):
		return fmt.Sprintf("a line break stands between items; write %q for a choice, or %q for parts fitted together", joined(text, " or "), joined(text, " + "))
	case strings.ContainsAny(text, ",;"):
		return fmt.Sprintf("%q has a comma or semicolon between items; write %q for a choice, or %q for parts fitted together", text, joined(text, " or "), joined(text, " + "))
	}
	return ""
}

// joined gives the pieces of a list with something else between them.
func joined(text, by string) string {
	var pieces []string
	for _, p := range strings.FieldsFunc(text, Separator) {
		if p = spaced(p); p != "" {
			pieces = append(pieces, p)
		}
	}
	return strings.Join(pieces, by)
}

// String writes what the cell says; "" where it cannot be read.
func (f Fits) String() string {
	switch {
	case f.Fault != "":
		return ""
	case f.With != "":
		return "with " + f.With
	case f.Word != "" && f.Reason == "":
		return f.Word
	case f.Word != "" && reason(f.Reason) != f.Reason:
		return f.Word + ": " + f.Reason + ")"
	case f.Word != "":
		return f.Word + ": " + f.Reason
	}
	said := make([]string, len(f.Choices))
	for i, c := range f.Choices {
		said[i] = c[0].As.String() // the whole of it as one number
	}
	return strings.Join(said, " or ")
}
