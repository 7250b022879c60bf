package bind

import (
	"slices"

	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// Column reads the name of a column outside of the sheets: "platform" or "years" under any name
// that they have, or else a trait.
func (w *Words) Column(name string) (column string, t *model.Trait, err error) {
	folded := word.Fold(name)
	switch {
	case folded == "platform":
		return "platform", nil, nil
	case folded == "years", folded == "year":
		return "years", nil, nil
	}
	if t, err = w.Trait(name); err == nil {
		return "", t, nil
	}
	if w.lexicon.Traits.Ambiguous(name) == "" && slices.ContainsFunc(w.cat.YearCalled, func(c model.Called) bool { return word.Squeeze(c.Name) == word.Squeeze(name) }) {
		return "years", nil, nil
	}
	return "", nil, err
}
