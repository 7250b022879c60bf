package lexicon

import (
	"fmt"
	"slices"

	"ferrule/compiler/bind/grammar"
	"ferrule/compiler/line"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/schema/word"
)

// linePiece is a piece of a condition on a trait on a line, with what it says.
type linePiece struct {
	text string
	span line.Range
}

// readLine reads a condition on a trait whose values stand on a line.
func readLine(t *model.Trait, text string) Condition {
	switch word.Fold(text) {
	case "", "any":
		return Condition{Any: true}
	case "not":
		return Condition{Fault: malformed("%q stands alone; write which values it excludes", text)}
	}
	pieces, not := list(text, func(string) bool { return false })
	out := Condition{Not: not, Line: &model.Line{Not: not}}
	absent := false
	var all []line.Range
	for _, piece := range pieces {
		switch term := grammar.ReadTerm(piece).Plain(); term.Kind {
		case grammar.Absent:
			absent = true
			continue
		case grammar.Any:
			return Condition{Fault: malformed("any stands alone in its cell; in a list it would make the rest mean nothing")}
		case grammar.Not:
			return Condition{Fault: malformed("\"not\" stands once, before the whole list, and not before %q alone", term.Name)}
		}
		r, err := t.Kind.Line().Range(piece)
		if err != nil {
			return Condition{Fault: Fault{Flaw: Malformed, Says: err.Error()}}
		}
		all, out.said = append(all, r), append(out.said, linePiece{piece, r})
	}
	if len(all) == 0 && !absent {
		return Condition{Fault: malformed("%q names no value of %s", text, t.Name)}
	}
	out.Line.Ranges = line.SetOf(all...)
	out.Set = space.Set{}
	if absent != not {
		out.Set = space.SetOf(t.Absent())
	}
	return out
}

// Strayed is what to say of a value that there is not, in a workbook and to who asks for it.
type Strayed struct{ Message, Fix, Instead string }

// Outside tells whether a condition on a trait on a line names values that none of some platforms
// has; no message where it does not. As with years, what a list excludes is not looked at.
func (c *Condition) Outside(t *model.Trait, on []*model.Platform) (out Strayed) {
	if c.Not || len(c.said) == 0 || len(on) == 0 || len(t.Extents) == 0 {
		return out // a trait without an extent has been told
	}
	var extent line.Set
	for _, p := range on {
		extent = extent.Or(t.Extent(p))
	}
	i := slices.IndexFunc(c.said, func(s linePiece) bool { return !reaches(t.Kind.Line(), s.span, extent) })
	switch {
	case i < 0:
	case len(extent) == 0:
		out.Message = fmt.Sprintf("Traits says no values of %s for %s, so %q is none", t.Name, platformNames(on, "or"), c.said[i].text)
		out.Fix = fmt.Sprintf("write the first and the last under Value in a row of Traits for %s", platformNames(on, "and"))
		out.Instead = "write n/a, or leave it out"
	default:
		out.Message = fmt.Sprintf("%q is outside what %s is on %s", c.said[i].text, t.Name, extents(t, on))
		out.Fix = "correct it here, or the extent in Traits"
		out.Instead = "write " + map[line.Kind]string{line.Serial: "a number", line.Date: "a day or a month"}[t.Kind.Line()] + " within that"
	}
	return out
}

// reaches tells whether both ends of a range are values that there are, as far as they are
// stated. A month is one of them where any of its days is.
func reaches(k line.Kind, r line.Range, extent line.Set) bool {
	first, last := k.Ends()
	has := func(p line.Point) bool { return extent.Meets(line.Set{k.Around(p)}) }
	from, to := r.From == first || has(r.First()), r.To == last || has(r.End())
	if k == line.Date && r.Len() < 32 { // one day, or a month
		return extent.Meets(line.Set{r})
	}
	return from && to && extent.Meets(line.Set{r})
}

// within tells whether a condition names something that there is of a trait: much looks like a
// serial number, and is one where there may be such a number.
func (c *Condition) within(t *model.Trait) bool {
	return c.Line == nil || slices.ContainsFunc(t.Extents, func(e model.Extent) bool {
		return !slices.ContainsFunc(c.said, func(s linePiece) bool { return !e.Values.Meets(line.Set{s.span}) })
	})
}

// extents says what the values of a trait are on platforms: `H7 (41200 to 46999)`.
func extents(t *model.Trait, on []*model.Platform) string {
	if len(on) > 3 || len(on) > 1 && !slices.ContainsFunc(t.Extents, func(e model.Extent) bool { return e.Platform != nil }) {
		return fmt.Sprintf("any of %d platforms", len(on))
	}
	words := make([]string, len(on))
	for i, p := range on {
		words[i] = p.Name
		if extent := t.Extent(p); len(extent) > 0 {
			words[i] = fmt.Sprintf("%s (%s)", p.Name, t.Kind.Line().Words(extent))
		}
	}
	return word.List(words, "or")
}

func platformNames(on []*model.Platform, by string) string {
	words := make([]string, len(on))
	for i, p := range on {
		words[i] = p.Name
	}
	return word.List(words, by)
}
