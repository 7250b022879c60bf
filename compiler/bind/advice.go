package bind

import (
	"ferrule/compiler/bind/mend"
	"ferrule/compiler/model"
)

// AdviseValues says what to write in place of a cell under a trait that does not read; false where
// the cell shows nothing of what was meant.
func (w *Words) AdviseValues(t *model.Trait, text string) (mend.Advice, bool) {
	return w.lexicon.AdviseValues(t, text)
}

// AdviseFits says it of a fitment cell.
func (w *Words) AdviseFits(text string) (mend.Advice, bool) { return w.lexicon.AdviseFits(text) }

// AdvisePlatforms says it of a Platform cell.
func (w *Words) AdvisePlatforms(text string) (mend.Advice, bool) {
	return w.lexicon.AdvisePlatforms(text)
}

// Near gives the one part that a number which no part has may be a slip of: the only one, whatever its
// Status, that is one letter away or looks the same, and a current one. Nil where there is none.
func (w *Words) Near(number string) *model.Part { return w.lexicon.Near(number) }
