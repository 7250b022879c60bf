package compare

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// stale tells translations whose text has changed since the earlier release, which said the same in
// the other language of a text that is gone.
func (c *comparison) stale() []*finding.Finding {
	type said struct{ language, text string }
	before, had, has := map[said]string{}, map[said]map[string]bool{}, map[string]bool{}
	for _, t := range c.old.Catalogue.Translations {
		for _, w := range t.Wordings {
			k := said{w.Language, model.TextKey(w.Text)}
			if had[k] == nil {
				had[k], before[k] = map[string]bool{}, t.Text
			}
			had[k][model.TextKey(t.Text)] = true
		}
	}
	for _, t := range c.new.Catalogue.Translations {
		has[model.TextKey(t.Text)] = true
	}
	var out []*finding.Finding
	for _, t := range c.new.Catalogue.Translations {
		for _, w := range t.Wordings {
			k := said{w.Language, model.TextKey(w.Text)}
			old, known := before[k]
			if !known || had[k][model.TextKey(t.Text)] || has[model.TextKey(old)] {
				continue
			}
			out = append(out, &finding.Finding{Code: finding.TranslationStale, Severity: finding.Warning,
				Message: fmt.Sprintf("the text was %s in the earlier release and is %s now, and its translation into %s is the same", word.Quote(old), word.Quote(t.Text), w.Language),
				Cells:   []finding.Cell{{Place: w.At}, {Place: t.At, Note: "the text"}},
				Fix:     "translate the text as it is now, or accept the finding where the translation says it still"})
		}
	}
	return out
}
