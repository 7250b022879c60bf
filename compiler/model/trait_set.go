package model

import (
	"strings"

	"ferrule/compiler/line"
)

// not gives the values that the condition leaves out.
func (l *Line) not() *Line { return &Line{Not: !l.Not, Ranges: l.Ranges} }

func (l *Line) and(o *Line) *Line {
	switch {
	case l.Not && o.Not:
		return &Line{Not: true, Ranges: l.Ranges.Or(o.Ranges)}
	case l.Not:
		return &Line{Ranges: o.Ranges.Without(l.Ranges)}
	case o.Not:
		return &Line{Ranges: l.Ranges.Without(o.Ranges)}
	}
	return &Line{Ranges: l.Ranges.And(o.Ranges)}
}

func (l *Line) or(o *Line) *Line { return l.not().and(o.not()).not() }

func (l *Line) isEmpty() bool { return !l.Not && len(l.Ranges) == 0 }

// And gives what is in both of two sets of one trait of the catalogue.
func (t TraitSet) And(o TraitSet) TraitSet {
	out := TraitSet{Trait: t.Trait, Values: t.Values.And(o.Values)}
	if t.Line != nil && o.Line != nil {
		out.Line = t.Line.and(o.Line)
	}
	return out
}

// Or gives what is in either of two sets of one trait of the catalogue.
func (t TraitSet) Or(o TraitSet) TraitSet {
	out := TraitSet{Trait: t.Trait, Values: t.Values.Or(o.Values)}
	if t.Line != nil && o.Line != nil {
		out.Line = t.Line.or(o.Line)
	}
	return out
}

// IsEmpty tells whether nothing is in the set. What stands on a line is looked at without regard
// to what there is of it.
func (t TraitSet) IsEmpty() bool { return t.Values.IsEmpty() && (t.Line == nil || t.Line.isEmpty()) }

// In tells whether all of t is in another set of the same trait of the catalogue.
func (t TraitSet) In(o TraitSet) bool {
	if t.Line != nil && o.Line != nil && !t.Line.and(o.Line.not()).isEmpty() {
		return false
	}
	return t.Values.In(o.Values)
}

// Cell writes a condition on a trait on a line as a cell that reads back to it outside of
// Vehicles.
func (t TraitSet) Cell() string {
	whole := t.Whole()
	absent := whole.Values.Has(whole.Trait.Absent())
	words := lineWords(t.Trait.Kind.Line(), whole.Line.Ranges)
	if absent != whole.Line.Not {
		words = append(words, "n/a")
	}
	text := strings.Join(words, ", ")
	switch {
	case !whole.Line.Not:
		return text
	case text == "":
		return "any"
	}
	return "not " + text
}

func lineWords(k line.Kind, s line.Set) []string {
	var words []string
	for _, r := range s {
		words = append(words, k.Condition(r))
	}
	return words
}
