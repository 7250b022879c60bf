package bind

import (
	"ferrule/compiler/bind/mend"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// AdviseValues says what to write in place of a cell under a trait that does not read; false where
// the cell shows nothing of what was meant.
func (w *Words) AdviseValues(t *model.Trait, text string) (mend.Advice, bool) {
	return w.b.valueMender(t).Advise(text)
}

// AdviseFits says it of a fitment cell.
func (w *Words) AdviseFits(text string) (mend.Advice, bool) { return w.b.mender().Advise(text) }

// AdvisePlatforms says it of a Platform cell.
func (w *Words) AdvisePlatforms(text string) (mend.Advice, bool) {
	declared := func(name string) bool { _, ok := w.b.platformNames.find(name); return ok }
	pieces, _ := list(text, declared)
	return w.b.platformAdvice(text, pieces)
}

// Near gives the one part that a number which no part has may be a slip of: the only one, whatever its
// Status, that is one letter away or looks the same, and a current one. Nil where there is none.
func (w *Words) Near(number string) *model.Part {
	near := w.b.nearPart(number)
	p, ok := w.b.part(near)
	if !ok || p.Status != model.Current {
		return nil
	}
	for _, other := range w.b.likeParts().slips.Within(number) {
		if word.Fold(other) != word.Fold(p.Number) {
			return nil
		}
	}
	return p
}
