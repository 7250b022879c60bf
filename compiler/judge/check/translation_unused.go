package check

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
)

var translationUnused = &Check{
	Kind: finding.Kind{Code: finding.TranslationUnused, Severity: "warning",
		Summary: "a translation of a text that no guide prints",
		Doc:     "A row of Translations is found by its Text, letter by letter but for white space. Where no cell says the text, the row does nothing: the text has changed or gone, was never quite the same, or is one that reads alike in every language (numbers, platforms, makers, measured values). A row that was probably written for a text that protects and has changed is told with that text (translation-missing).",
		Before:  "Translations!A4  Do not turn it by its rod.    (Cautions!B3 says: by the rod)",
		After:   "Translations!A4  Do not turn it by the rod."},
	Catalogue: func(c *Catalogue) {
		if _, w := headsExchanged(c.Catalogue); w != nil {
			return // that is told once
		}
		rows := unsaid(c.Catalogue)
		for _, p := range untranslated(c.Catalogue) {
			if !p.Protects {
				continue
			}
			if t := meantFor(p.Text.Text, rows); t != nil {
				rows = slices.DeleteFunc(rows, func(r *model.Translation) bool { return r == t })
			}
		}
		for _, t := range rows {
			c.Report(&finding.Finding{Code: finding.TranslationUnused, Severity: finding.Warning,
				Message: fmt.Sprintf("no cell that guides print says %s, so its translations are not used", quoted(t.Text)),
				Cells:   finding.At(t.At),
				Fix:     "write the text as it stands in the workbook, or delete the row"})
		}
	},
}
