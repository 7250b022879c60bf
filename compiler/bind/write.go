package bind

import (
	"fmt"
	"strings"

	"ferrule/compiler/bind/grammar"
	"ferrule/compiler/line"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Cells writes a condition on a trait as cells that read back to it: one where that can
// be, several where a value's name can only stand alone, which then belong to rows of
// their own. The set is not empty.
func (w *Words) Cells(c model.TraitSet) []string {
	if c.Trait.Kind.OnLine() {
		return []string{c.Cell()}
	}
	if c.Values.IsEmpty() {
		panic("bind: Cells of an empty set")
	}
	for _, text := range phrases(c) {
		if back, restricts, err := w.Values(c.Trait, text); err == nil && restricts && back.Values.Equal(c.Values) {
			return []string{text}
		}
	}
	first := c.Values.Min()
	rest := c.Values.Without(space.SetOf(first))
	if rest.IsEmpty() {
		panic("bind: a declared value reads back to itself")
	}
	return append(w.Cells(model.TraitSet{Trait: c.Trait, Values: space.SetOf(first)}),
		w.Cells(model.TraitSet{Trait: c.Trait, Values: rest})...)
}

// Stated writes a set of values as cells of Vehicles, or under Value in Breaks, where `any` and
// `not` reach over values only: one where that can be, several where a value's name can only stand
// alone. The set is not empty.
func (w *Words) Stated(c model.TraitSet) []string {
	if c.Trait.Kind.OnLine() {
		return []string{statedLine(c)}
	}
	var texts []string
	if c.Values.Equal(space.All(len(c.Trait.Values))) {
		texts = append(texts, "any")
	}
	for _, text := range append(texts, joinNames(c.Trait, c.Values, " or "), joinNames(c.Trait, c.Values, ", ")) {
		if back, err := w.ReadStated(c.Trait, text); err == nil && back.Values.Equal(c.Values) {
			return []string{text}
		}
	}
	var out []string
	for v := range c.Values.Values() {
		if c.Values.Len() == 1 {
			panic("bind: a declared value reads back to itself")
		}
		out = append(out, w.Stated(c.Trait.Is(v))...)
	}
	return out
}

// statedLine writes numbers or dates of a platform, all that there are as any.
func statedLine(c model.TraitSet) string {
	ranges, absent := c.Ranges()
	var extent []line.Range
	for _, v := range c.Trait.Values {
		extent = append(extent, v.Stretch)
	}
	if !absent && c.Line == nil && ranges.Equal(line.SetOf(extent...)) {
		return "any"
	}
	return c.Cell()
}

// ReadStated reads a cell as Stated writes it.
func (w *Words) ReadStated(t *model.Trait, text string) (model.TraitSet, error) {
	c := w.lexicon.Condition(t, text)
	if !c.Reads() {
		return model.TraitSet{}, fmt.Errorf("%q cannot be read under %s", text, t.Name)
	}
	return c.Stated(t), nil
}

// phrases gives ways to write a condition, the best first.
func phrases(c model.TraitSet) []string {
	all := len(c.Trait.Values) + 1
	out := c.Values.Not(all)
	var texts []string
	for lo, hi := range c.Values.Runs() {
		if c.Trait.Kind == model.Ordered && hi < c.Trait.Absent() && hi-lo >= 2 && c.Values.Len() == hi-lo+1 {
			texts = append(texts, fmt.Sprintf("from %s to %s", valueName(c.Trait, lo), valueName(c.Trait, hi)))
		}
	}
	if out.Len() > 0 && out.Len() < c.Values.Len() {
		texts = append(texts, "not "+joinNames(c.Trait, out, " or "), "not "+joinNames(c.Trait, out, ", "))
	}
	return append(texts, joinNames(c.Trait, c.Values, " or "), joinNames(c.Trait, c.Values, ", "))
}

func joinNames(t *model.Trait, set space.Set, by string) string {
	var words []string
	for v := range set.Values() {
		words = append(words, valueName(t, v))
	}
	return strings.Join(words, by)
}

func valueName(t *model.Trait, value int) string {
	if value == t.Absent() {
		return "n/a"
	}
	return t.Values[value].Name
}

// YearCell writes years as a cell that reads back to them.
func YearCell(spans []model.Span) string {
	var years grammar.Years
	for _, s := range spans {
		years.Spans = append(years.Spans, grammar.Span(s))
	}
	return years.String()
}
