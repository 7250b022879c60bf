package check

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
)

// headsExchanged gives a row of Translations and its wording under the heading that has changed places with Text:
// hardly any cell of the workbooks says what stands under Text, and cells say nearly all that stands under a language. nil
// where it is not so.
func headsExchanged(cat *model.Catalogue) (*model.Translation, *model.Wording) {
	all := len(cat.Translations)
	if all < 4 || 4*len(unsaid(cat)) < 3*all {
		return nil, nil
	}
	said := map[string]bool{}
	for t := range cat.Texts {
		said[model.TextKey(t.Text)] = true
	}
	for _, tag := range worded(cat) {
		var row *model.Translation
		var first *model.Wording
		n := 0
		for _, t := range cat.Translations {
			for i := range t.Wordings {
				if w := &t.Wordings[i]; w.Language == tag && said[model.TextKey(w.Text)] {
					if n++; first == nil {
						row, first = t, w
					}
				}
			}
		}
		if 4*n >= 3*all {
			return row, first
		}
	}
	return nil, nil
}

// exchangedHeads is the finding on them.
func exchangedHeads(row *model.Translation, w *model.Wording) *finding.Finding {
	return &finding.Finding{Code: finding.TranslationMissing, Severity: finding.Error,
		Cells:   []finding.Cell{{Place: w.At, Note: "a text of the workbooks"}, {Place: row.At, Note: "under Text, and no cell says it"}},
		Message: fmt.Sprintf("the headings Text and %s of Translations seem to be exchanged: the workbooks say what stands under %s, such as %s, and not what stands under Text, so that nothing is translated", w.Language, w.Language, quoted(w.Text)),
		Fix:     fmt.Sprintf("write Text over the column that says what the workbooks say, and %s over the other", w.Language)}
}
