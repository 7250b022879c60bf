package check

import (
	"fmt"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

var translationMissing = &Check{
	Kind: finding.Kind{Code: finding.TranslationMissing, Severity: "error for a caution or a reason, warning for other texts",
		Summary: "guides are published in a language into which a text is not translated",
		Doc:     "Settings languages says in which languages guides are published. A caution, a reason, a question behind ask, the reason of a Compatibility row, what to check first, or an inspection of the level danger or warning that a reader cannot read protects nobody, so it must be translated. Any other text stands in the guide as it is in the workbook, marked as of its own language; such texts of one column are told together. The text is looked up as a whole: where it has changed, its row in Translations has to change with it. Platforms, makers, numbers, sizes and measured values need no translation.",
		Before:  "Settings!B8  fr\nCautions!B3  Do not turn it by the rod.\nTranslations!A4  Do not turn it by the rod.   B4  (blank, under fr)",
		After:   "Translations!A4  Do not turn it by the rod.   B4  Ne le tournez pas par la tige."},
	Catalogue: func(c *Catalogue) {
		if row, w := headsExchanged(c.Catalogue); w != nil {
			c.Report(exchangedHeads(row, w))
			return
		}
		if lacks := wordless(c.Catalogue); lacks != nil {
			c.Report(withoutWords(c.Catalogue, lacks))
		}
		type group struct {
			sheet       *cell.Sheet
			what, lacks string
		}
		var order []group
		of := map[group][]*printed{}
		rows := unsaid(c.Catalogue)
		for _, p := range untranslated(c.Catalogue) {
			if p.Protects {
				c.Report(unprotected(p, meantFor(p.Text.Text, rows)))
				continue
			}
			g := group{p.At.Sheet, p.What, word.List(p.lacks, "and")}
			if of[g] == nil {
				order = append(order, g)
			}
			of[g] = append(of[g], p)
		}
		for _, g := range order {
			c.Report(unspoken(g.what, g.lacks, of[g]))
		}
	},
}

// withoutWords is the finding on languages into which nothing is translated.
func withoutWords(cat *model.Catalogue, lacks []string) *finding.Finding {
	f := &finding.Finding{Code: finding.TranslationMissing, Severity: finding.Error,
		Message: fmt.Sprintf("guides are published in %s, and nothing is translated into it: no Translations sheet that is read has a column with that heading and a text below it", word.List(lacks, "and")),
		Fix:     fmt.Sprintf("head the column of Translations %s, or take the language out of Settings until it is translated", word.List(lacks, "and"))}
	if len(lacks) > 1 {
		f.Message = fmt.Sprintf("guides are published in %s, and nothing is translated into them: no Translations sheet that is read has columns with these headings and texts below them", word.List(lacks, "and"))
		f.Fix = fmt.Sprintf("head columns of Translations %s, or take the languages out of Settings until they are translated", word.List(lacks, "and"))
	}
	if cat.Settings.LanguagesAt.Sheet != nil {
		f.Cells = finding.At(cat.Settings.LanguagesAt)
	}
	if has := worded(cat); has != nil {
		f.Fix += fmt.Sprintf("; it has %s", word.List(has, "and"))
	}
	return f
}

// unprotected is the finding on a text that protects.
func unprotected(p *printed, before *model.Translation) *finding.Finding {
	f := &finding.Finding{Code: finding.TranslationMissing, Severity: finding.Error, Cells: finding.At(p.cells...),
		Message: fmt.Sprintf("the %s %s is not translated into %s, in which guides are published", p.What, quoted(p.Text.Text), word.List(p.lacks, "and")),
		Fix:     fmt.Sprintf("write the text into a row of Translations, and what it reads under %s", word.List(p.lacks, "and"))}
	if before != nil {
		f.Cells = append(f.Cells, finding.Cell{Place: before.At, Note: "says nearly the same, and no cell says that any more"})
		f.Fix = "if the text has changed since it was translated, change its row of Translations with it, and look whether what it reads in other languages still holds"
	}
	return f
}

// unspoken is the finding on the other texts of one column.
func unspoken(what, lacks string, all []*printed) *finding.Finding {
	gist := fmt.Sprintf("a text is not translated into %s and stands in the guides as it is: %s %s", lacks, what, quoted(all[0].Text.Text))
	f := &finding.Finding{Code: finding.TranslationMissing, Severity: finding.Warning, Message: gist,
		Fix: "write it into a row of Translations"}
	for _, p := range all {
		f.Cells = append(f.Cells, finding.At(p.cells[0])...)
	}
	if len(all) > 1 {
		f.Message = fmt.Sprintf("%d texts are not translated into %s and stand in the guides as they are: %s %s, and others", len(all), lacks, what, quoted(all[0].Text.Text))
		f.Constant, f.Fix = gist, "write them into rows of Translations"
	}
	return f
}

// mostQuoted is how many letters of a text a message quotes.
const mostQuoted = 80

func quoted(text string) string {
	text = strings.Join(strings.Fields(text), " ")
	if r := []rune(text); len(r) > mostQuoted {
		text = string(r[:mostQuoted-1]) + "…"
	}
	return word.Quote(text)
}
