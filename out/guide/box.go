package guide

import (
	"strings"

	"ferrule/compiler/model"
)

// boxWords says a box of vehicles in one line, as model.Box does in English.
func (e *edition) boxWords(b model.Box) string {
	var parts []string
	if b.Years != nil {
		parts = append(parts, strings.ReplaceAll(e.spans(b.Years), "\u00a0", " "))
	}
	for _, t := range b.Traits {
		parts = append(parts, e.traitWords(t))
	}
	if len(parts) == 0 {
		return e.tongue.Say("all")
	}
	return strings.Join(parts, ", ")
}

// traitWords says a condition: `Front suspension Air beam or Twin arm`, `any Levelling but Electronic`.
func (e *edition) traitWords(t model.TraitSet) string {
	names, absent := t.Names()
	trait, say := e.tr(t.Trait.Name), e.tongue.Say
	not, whole := t.Line != nil && t.Line.Not, t.Line == nil
	var but []string
	for i, v := range t.Trait.Values {
		if !t.Values.Has(i) {
			whole, but = false, append(but, e.tr(v.Name))
		}
	}
	for i, n := range names {
		if names[i] = e.tr(n); t.Trait.Kind.OnLine() {
			names[i] = e.rangeWords(n)
		}
	}
	if not {
		but = names
	}
	var words string
	switch many := len(names) > len(t.Trait.Values)/2 && len(names) > 2 && !t.Trait.Kind.OnLine(); {
	case whole && len(names) > 0, not && len(names) == 0:
		words = say("any %s", trait)
	case not, many:
		words = say("any %s but %s", trait, e.tongue.And(but))
	case len(names) == 0:
		return say("%s does not apply", trait)
	default:
		words = trait + " " + e.tongue.Or(names)
	}
	if absent {
		return say("%s, or does not apply", words)
	}
	return words
}
