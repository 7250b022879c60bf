package repair

import (
	"fmt"
	"regexp"
	"strings"

	"ferrule/compiler/bind/mend"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/schema"
)

// reader gives what tells whether a text reads in a column and names only what is declared; nil for
// columns in which nothing is mended: what declares names is never, since others may refer to it.
func (p *Mending) reader(c filled) func(string) bool {
	if !c.column.Known {
		return p.further(c)
	}
	own, _ := schema.Find(c.Kind, c.column.Name)
	switch {
	case own.Declares:
		return nil
	case own.Holds == schema.HoldsPart:
		return func(text string) bool { _, err := p.words.Part(text); return err == nil }
	case own.Holds == schema.HoldsMeasured:
		return func(text string) bool { return p.nominal(text, c.column.Unit) }
	case c.column.Name == "Platform" && schema.FurtherOf(c.Kind).Traits:
		return func(text string) bool { _, err := p.words.Platforms(text); return err == nil }
	case c.column.Name == "Position":
		return func(text string) bool { _, err := p.words.Position(text); return err == nil }
	}
	return nil
}

// further is reader for columns that are called as a trait or a position.
func (p *Mending) further(c filled) func(string) bool {
	is := schema.FurtherOf(c.Kind)
	if t := p.trait(c); t != nil {
		return func(text string) bool { _, _, err := p.words.Values(t, text); return err == nil }
	}
	if _, err := p.words.Position(c.column.Name); err == nil && is.Positions {
		return func(text string) bool {
			_, unknown, err := p.words.Fits(text)
			return err == nil && len(unknown) == 0
		}
	}
	return nil
}

// trait gives the trait that a column is called as.
func (p *Mending) trait(c filled) *model.Trait {
	if c.column.Known || !schema.FurtherOf(c.Kind).Traits {
		return nil
	}
	t, err := p.words.Trait(c.column.Name)
	if err != nil {
		return nil
	}
	return t
}

// nominal tells whether a text is a size of the tables.
func (p *Mending) nominal(text, unit string) bool {
	u, _ := measure.ParseUnit(unit)
	size, err := measure.ParseSizeIn(text, u, measure.Options{Comma: p.cat.Settings.DecimalComma})
	return err == nil && p.cat.Sizes.Admits(size)
}

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
	if near := p.words.Near(c.field.Text); near != nil && belongs(position, near) {
		return near.Number, fmt.Sprintf("no other part is called anything like it, and %s is of a family that belongs at %s", near.Number, position.Name)
	}
	return "", ""
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
	every  = regexp.MustCompile(`(?i)^(?:all|every|each|anything|everything|\*)$`)
)

// plain takes advice that leaves one thing to write and nothing aside, and says so without a condition.
func plain(of string, a mend.Advice, ok bool) (text, why string) {
	if !ok || len(a.Write) != 1 || len(a.Aside) > 0 || a.Write[0] == "any" && !every.MatchString(squeezed(of)) {
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
