package bind

import (
	"slices"

	"ferrule/compiler/bind/lexicon"
	"ferrule/compiler/finding"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// otherMeasures tells of values that are also called by what they do not measure: who writes that is given the parts of
// this value, since a name that is declared goes before what it measures.
func (b *binder) otherMeasures() {
	for _, t := range b.cat.Traits {
		for _, v := range t.Values {
			b.otherMeasure(t, v)
		}
	}
}

func (b *binder) otherMeasure(t *model.Trait, v *model.Value) {
	own, ok := lexicon.Measured(v.Name, b.sizes())
	if !ok {
		return
	}
	for _, c := range v.Called {
		other, ok := lexicon.Measured(c.Name, b.sizes())
		if !ok || own.Equal(other) || slices.ContainsFunc(t.Values, func(o *model.Value) bool { return word.Squeeze(o.Name) == word.Squeeze(c.Name) }) {
			continue // of the name of another value sharedNames tells
		}
		if _, err := measure.ParseQuantity(v.Name+" ("+c.Name+")", b.sizes()); err == nil && own.Unit != other.Unit { // the same, as it is rounded: 3/8 in (9.5 mm)
			continue
		}
		b.say(finding.NameShared, finding.Warning, c.At, "the value %s is also called %q, which is another measure; correct one of the two, or take it out of %s: whoever writes it gets the parts for %s", v.Name, c.Name, alsoCalled, v.Name)
	}
}
