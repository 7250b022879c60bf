package repair

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"ferrule/compiler/bind/mend"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// advised gives what the advice on the cell says to write, where that is one thing with everything
// that the cell held.
func (p *Mending) advised(c filled) (text, why string) {
	t := p.trait(c)
	position, err := p.words.Position(c.column.Name)
	switch {
	case t != nil:
		a, ok := p.words.AdviseValues(t, c.field.Text)
		return plain(c.field.Text, a, ok)
	case c.column.Name == "Platform" && c.column.Known:
		a, ok := p.words.AdvisePlatforms(squeezed(c.field.Text))
		return plain(c.field.Text, a, ok)
	case err != nil || c.column.Known:
		return "", ""
	}
	a, ok := p.words.AdviseFits(c.field.Text)
	if text, why = plain(c.field.Text, a, ok); text != "" {
		return text, why
	}
	if ok && len(a.Write) == 2 && len(a.Aside) == 0 && commas.MatchString(c.field.Text) && !joined.MatchString(c.field.Text) && c.chooses() {
		for _, w := range a.Write {
			if strings.Contains(w, " or ") && !strings.Contains(w, "+") {
				return w, fmt.Sprintf("every other cell under %s that names several parts has or between them, and none +", c.column.Name)
			}
		}
	}
	if !bare.MatchString(c.field.Text) {
		return "", "" // a sign may be a remark
	}
	if near := p.words.Near(c.field.Text); near != nil && belongs(position, near) && digits(near.Number) == digits(c.field.Text) {
		return near.Number, fmt.Sprintf("no other part is called anything like it, and %s is of a family that belongs at %s", near.Number, position.Name)
	}
	return "", ""
}

// digits gives those of a number, in their order: where one differs, another part of the series may be meant, which
// Parts lacks.
func digits(number string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsDigit(r) {
			return r
		}
		return -1
	}, number)
}

// belongs tells whether a position says of which families its parts are, and a part is of one.
func belongs(position *model.Position, part *model.Part) bool {
	return len(position.Families) > 0 && position.Takes(part)
}

// commas is a cell in which nothing but commas says how its names go together, and bare one that is a
// number and nothing else.
var (
	commas = regexp.MustCompile(`^[^,;/&|+]+(?:[,;][^,;/&|+]+)+$`)
	bare   = regexp.MustCompile(`^[\pL\pN][\pL\pN .-]*$`)
	joined = regexp.MustCompile(`(?i)\b(?:and|with|plus)\b`)
	names  = regexp.MustCompile(`[\pL\pN]+`)
	every  = regexp.MustCompile(`(?i)^(?:all|every|each|anything|everything|\*)$`)
)

// adds tells whether a text has words or numbers that another has not, apart from the format's own. Who wrote
// "Steel" where only "Steel parabolic" is declared may mean a value that is missing or has a slip in Traits.
func adds(old, text string) bool {
	said := strings.Join(names.FindAllString(word.Fold(old), -1), "")
	for _, n := range names.FindAllString(word.Fold(text), -1) {
		if !slices.Contains([]string{"any", "from", "not", "or", "to", "x"}, n) && !strings.Contains(said, n) {
			return true
		}
	}
	return false
}

// plain takes advice that leaves one thing to write and nothing aside, and says so without a condition.
func plain(of string, a mend.Advice, ok bool) (text, why string) {
	if !ok || len(a.Write) != 1 || len(a.Aside) > 0 || a.Write[0] == "any" && !every.MatchString(squeezed(of)) || adds(of, a.Write[0]) {
		return "", ""
	}
	says, done := strings.CutSuffix(a.Says, "write "+a.Write[0])
	if !done {
		return "", ""
	}
	if why = strings.TrimRight(strings.TrimSpace(says), " ;,:"); why == "" {
		return a.Write[0], "it is written otherwise than it is declared, and nothing else is declared that is like it"
	}
	switch verb, _, _ := strings.Cut(why, " "); verb {
	case "is", "does", "has", "names", "runs":
		why = "it " + why
	}
	return a.Write[0], why
}

// chooses tells whether the other cells of a column that name several parts name them for a choice:
// at least two do, and no cell has parts that are fitted together.
func (c filled) chooses() bool {
	n := 0
	for i := range c.Records {
		for k := range c.Records[i].Fields {
			f := &c.Records[i].Fields[k]
			if &c.Columns[f.Column] != c.column || f.At == c.field.At {
				continue
			}
			if strings.Contains(f.Text, "+") {
				return false
			}
			if strings.Contains(f.Text, " or ") {
				n++
			}
		}
	}
	return n >= 2
}
