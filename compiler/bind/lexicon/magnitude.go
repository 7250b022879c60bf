package lexicon

import (
	"regexp"
	"strings"

	"ferrule/compiler/measure"
	"ferrule/compiler/model"
)

// decimals is a number whose sign can be of decimals alone, since no three digits stand behind it.
var decimals = regexp.MustCompile(`^\d+[.,]\d{1,2}\D`)

// magnitude finds the one value of a trait whose name is the same measured value as a text: `8 t`, `8,0 t` and
// `8000 kg` are 8.0 t. Only words from outside are read so; a number without a unit is none.
func (x *Lexicon) magnitude(t *model.Trait, text string) (int, bool) {
	names := x.Values(t)
	if names.outside == nil || t.Kind == model.Size || len(names.outside.may(text)) > 0 {
		return 0, false
	}
	said, ok := Measured(text, x.Sizes)
	if !ok {
		return 0, false
	}
	found := -1
	for i, v := range t.Values {
		if q, ok := Measured(v.Name, x.Sizes); ok && q.Equal(said) {
			if found >= 0 {
				return 0, false
			}
			found = i
		}
	}
	return found, found >= 0
}

// Measured reads a single measured value with a unit, by either decimal sign where nothing else can be meant.
func Measured(text string, o measure.Options) (measure.Quantity, bool) {
	text = strings.TrimSpace(text)
	q, err := measure.ParseQuantity(text, o)
	if err != nil && decimals.MatchString(text) {
		o.Comma = !o.Comma
		q, err = measure.ParseQuantity(text, o)
	}
	return q, err == nil && q.Known() && q.Single() && q.Bound() == measure.Exactly
}
