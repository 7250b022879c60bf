package check

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/figures"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

var translationDiffers = &Check{
	Kind: finding.Kind{Code: finding.TranslationDiffers, Severity: "error for a caution or a reason, warning for other texts",
		Summary: "a translation has another number, unit or part number than its text",
		Doc:     "Numbers, units and part numbers are never translated. A figure that got lost or changed on the way (a torque, a pressure, a year) is more dangerous than a text that nobody can read. The signs of decimals and thousands may follow the language: 1,5 is 1.5, and 10 000 is 10,000. A number that one of the two writes as a word and the other in digits is told as well: write it alike.",
		Before:  "Translations!A4  Tighten to 80 Nm.   B4  Serrez à 60 Nm.",
		After:   "Translations!A4  Tighten to 80 Nm.   B4  Serrez à 80 Nm."},
	Catalogue: func(c *Catalogue) {
		if len(c.Translations) == 0 {
			return
		}
		protects := map[string]bool{}
		for t := range c.Texts {
			if t.Protects {
				protects[model.TextKey(t.Text)] = true
			}
		}
		names := map[string]bool{}
		for _, p := range c.Parts {
			names[p.Number] = true
		}
		for _, r := range c.References {
			names[r.Number] = true
		}
		for _, t := range c.Translations {
			for i := range t.Wordings {
				if f := differs(t, &t.Wordings[i], names); f != nil {
					if !protects[model.TextKey(t.Text)] {
						f.Severity = finding.Warning
					}
					c.Report(f)
				}
			}
		}
	},
}

// differs is the finding on a wording whose figures are not those of its text; nil where they are.
func differs(t *model.Translation, w *model.Wording, numbers map[string]bool) *finding.Finding {
	lost, more := figures.Differ(t.Text, w.Text, numbers)
	f := &finding.Finding{Code: finding.TranslationDiffers, Severity: finding.Error,
		Cells: []finding.Cell{{Place: w.At}, {Place: t.At, Note: "the text"}},
		Fix:   "write numbers, units and part numbers as the text has them; only the signs of decimals and thousands follow the language"}
	switch {
	case lost == nil && more == nil:
		return nil
	case more == nil:
		f.Message = fmt.Sprintf("the translation into %s lacks %s of its text %s", w.Language, word.List(lost, "and"), quoted(t.Text))
	case lost == nil:
		f.Message = fmt.Sprintf("the translation into %s says %s, which its text %s does not", w.Language, word.List(more, "and"), quoted(t.Text))
	default:
		f.Message = fmt.Sprintf("the translation into %s says %s where its text says %s: %s", w.Language, word.List(more, "and"), word.List(lost, "and"), quoted(t.Text))
	}
	return f
}
