package lexicon

import (
	"ferrule/compiler/bind/mend"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// AdviseValues says what to write in place of a cell under a trait that does not read; false where
// the cell shows nothing of what was meant.
func (x *Lexicon) AdviseValues(t *model.Trait, text string) (mend.Advice, bool) {
	return x.valueMender(t).Advise(text)
}

// AdviseFits says it of a fitment cell.
func (x *Lexicon) AdviseFits(text string) (mend.Advice, bool) { return x.partMender().Advise(text) }

// AdvisePlatforms says it of a Platform cell.
func (x *Lexicon) AdvisePlatforms(text string) (mend.Advice, bool) {
	names, _ := list(text, x.Platforms.Has)
	return x.platformAdvice(text, names)
}

// Near gives the one part that a number which no part has may be a slip of: the only one, whatever its
// Status, that is one letter away or looks the same, and a current one. Nil where there is none.
func (x *Lexicon) Near(number string) *model.Part {
	p, ok := x.Part(x.nearPart(number))
	if !ok || p.Status != model.Current {
		return nil
	}
	for _, other := range x.likeParts().slips.Within(number) {
		if word.Fold(other) != word.Fold(p.Number) {
			return nil
		}
	}
	return p
}
