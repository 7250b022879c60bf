package check

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/figures"
	"ferrule/compiler/model"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

var translationDiffers = &Check{
	Kind: finding.Kind{Code: finding.TranslationDiffers, Severity: "error for a caution, a reason or a side, warning for other texts",
		Summary: "a translation has another number, unit or part number than its text, says the opposite, or is in another language",
		Doc:     "Numbers, units and part numbers are never translated. A figure that got lost or changed on the way (a torque, a pressure, a year) is more dangerous than a text that nobody can read. The signs of decimals and thousands may follow the language: 1,5 is 1.5, and 10 000 is 10,000. A number that one of the two writes as a word and the other in digits is told as well: write it alike. So is the other side (left for right, front for rear), a text in another language than that of its column, and, as a warning, a translation without any word that denies where the text has one (not, never, no): these are known by common words of English, French, Spanish and German.",
		Before:  "Translations!A4  Tighten to 80 Nm.   B4  Serrez à 60 Nm.",
		After:   "Translations!A4  Tighten to 80 Nm.   B4  Serrez à 80 Nm."},
	Catalogue: func(c *Catalogue) {
		if len(c.Translations) == 0 {
			return
		}
		if _, w := headsExchanged(c.Catalogue); w != nil {
			return // that is told once
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
		mixed := mixed{protects: protects}
		taken := map[*model.Wording]bool{}
		for _, t := range c.Translations {
			for i := range t.Wordings {
				taken[&t.Wordings[i]] = mixed.take(c.Settings.Source(), t, &t.Wordings[i])
			}
		}
		for _, t := range c.Translations {
			for i := range t.Wordings {
				if taken[&t.Wordings[i]] {
					continue
				}
				f := differs(t, &t.Wordings[i], names)
				if f != nil && !protects[model.TextKey(t.Text)] {
					f.Severity = finding.Warning
				}
				if f == nil && !mixed.whole(&t.Wordings[i]) {
					f = turned(c.Settings.Source(), t, &t.Wordings[i])
				}
				if f != nil {
					c.Report(f)
				}
			}
		}
		mixed.tell(c)
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

// turned is the finding on a wording that says the opposite side, or in which nothing denies what its text
// denies; nil for none. It is a warning, since a language has more ways to say no than this knows.
func turned(source string, t *model.Translation, w *model.Wording) *finding.Finding {
	was, is := figures.Turned(t.Text, source, w.Text, w.Language)
	f := &finding.Finding{Code: finding.TranslationDiffers, Severity: finding.Warning,
		Cells: []finding.Cell{{Place: w.At}, {Place: t.At, Note: "the text"}}}
	switch {
	case was == "":
		return nil
	case is == "":
		f.Message = fmt.Sprintf("the translation into %s has no word that denies anything, and its text says %s: %s", w.Language, word.Quote(was), quoted(t.Text))
		f.Fix = "look whether the translation says the opposite; if it does, correct it"
	default:
		f.Severity = finding.Error
		f.Message = fmt.Sprintf("the translation into %s says %s where its text says %s: %s", w.Language, word.Quote(is), word.Quote(was), quoted(t.Text))
		f.Fix = "write the side that the text has"
	}
	return f
}

// mixed gathers wordings that are in another language than that of their column.
type mixed struct {
	protects map[string]bool // texts, by their keys
	all      []*strayed
}

// strayed are the wordings under one heading that read like one other language.
type strayed struct {
	sheet        *cell.Sheet
	under, reads string
	first        *model.Wording
	cells        []cell.Place
	grave        bool // a text that protects is among them
	left         bool // they are the texts themselves
}

// take keeps a wording in another language; false where it is none.
func (m *mixed) take(source string, t *model.Translation, w *model.Wording) bool {
	reads, left := figures.Reads(w.Text, w.Language), figures.Left(t.Text, source, w.Text)
	if left {
		reads = source
	}
	if reads == "" || reads == w.Language {
		return false
	}
	i := slices.IndexFunc(m.all, func(s *strayed) bool {
		return s.sheet == w.At.Sheet && s.under == w.Language && s.reads == reads && s.left == left
	})
	if i < 0 {
		i, m.all = len(m.all), append(m.all, &strayed{sheet: w.At.Sheet, under: w.Language, reads: reads, first: w, left: left})
	}
	m.all[i].cells, m.all[i].grave = append(m.all[i].cells, w.At), m.all[i].grave || m.protects[model.TextKey(t.Text)]
	return true
}

// whole tells whether the column of a wording seems to be in another language as a whole: three of its cells or more.
func (m *mixed) whole(w *model.Wording) bool {
	return slices.ContainsFunc(m.all, func(s *strayed) bool { return s.sheet == w.At.Sheet && s.under == w.Language && len(s.cells) > 2 })
}

func (m *mixed) tell(c *Catalogue) {
	for _, s := range m.all {
		f := &finding.Finding{Code: finding.TranslationDiffers, Severity: finding.Warning, Cells: finding.At(s.cells...),
			Message: fmt.Sprintf("the translation under %s seems to be in %s: %s", s.under, s.reads, quoted(s.first.Text)),
			Fix:     fmt.Sprintf("write what it reads in %s; where all cells of the column are so, correct its heading", s.under)}
		if s.left {
			f.Message = fmt.Sprintf("the translation under %s is the text itself: %s", s.under, quoted(s.first.Text))
			f.Fix = fmt.Sprintf("write what it reads in %s, or leave the cell blank until somebody knows", s.under)
		}
		if n := len(s.cells); n > 1 {
			f.Constant = f.Message
			f.Message = fmt.Sprintf("%s, and %d more", f.Message, n-1)
		}
		if s.grave {
			f.Severity = finding.Error
		}
		c.Report(f)
	}
}
