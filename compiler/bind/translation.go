package bind

import (
	"fmt"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
)

// translations binds what texts read in other languages. That a language is not published is no
// fault: it may be on its way.
func (b *binder) translations() {
	said := map[string]*model.Wording{}
	for _, t := range b.kinds[schema.Translations] {
		tags := b.languageColumns(t)
		for i := range t.Records {
			b.translation(row{t, &t.Records[i]}, tags, said)
		}
	}
}

// languageColumns gives the language of each column of a table, "" for those that have none.
func (b *binder) languageColumns(t *table.Table) []string {
	out := make([]string, len(t.Columns))
	seen := map[string]table.Column{}
	for i, c := range t.Columns {
		if c.Known || !t.Headed {
			continue
		}
		tag, err := languageTag(c.Name)
		if err != nil {
			b.Report(&finding.Finding{Code: finding.HeaderUnknown, Severity: finding.Error, Cells: finding.At(t.Place(c.At)),
				Message: fmt.Sprintf("nothing under the column is read: %s", err)})
			continue
		}
		if first, twice := seen[tag]; twice {
			b.Report(&finding.Finding{Code: finding.DeclaredTwice, Severity: finding.Error,
				Message: fmt.Sprintf("two columns are of the language %s; the first one holds", tag),
				Cells:   finding.At(t.Place(first.At), t.Place(c.At)), Fix: "delete one, or give it the tag of its language"})
			continue
		}
		if tag == b.cat.Settings.Source() {
			b.Report(&finding.Finding{Code: finding.HeaderUnknown, Severity: finding.Warning, Cells: finding.At(t.Place(c.At)),
				Message: fmt.Sprintf("nothing under %s is printed, since %s is the language of the workbooks", c.Name, tag),
				Fix:     "leave the column out; or, if the workbooks are written in another language, correct language in Settings"})
		}
		seen[tag], out[i] = c, tag
	}
	return out
}

func (b *binder) translation(r row, tags []string, said map[string]*model.Wording) {
	text := r.text("Text")
	if text == "" {
		return
	}
	out := &model.Translation{Text: text, At: r.at("Text")}
	for _, f := range r.r.Fields {
		tag := tags[f.Column]
		if tag == "" || !f.Broken && strings.TrimSpace(f.Text) == "" {
			continue
		}
		now := model.Wording{Language: tag, Text: strings.TrimSpace(f.Text), At: r.place(f)}
		if f.Broken || b.saysNothing(&now, text) {
			out.Unread = append(out.Unread, tag)
			continue
		}
		key := tag + "\x00" + model.TextKey(text)
		if old := said[key]; old != nil {
			if model.TextKey(old.Text) != model.TextKey(now.Text) {
				b.twice("the translation into "+tag+" of", word.Quote(text), old.At, now.At)
			}
			continue
		}
		said[key] = &now
		out.Wordings = append(out.Wordings, now)
	}
	b.cat.Translations = append(b.cat.Translations, out)
}

// saysNothing tells of a translation that is none.
func (b *binder) saysNothing(w *model.Wording, text string) bool {
	if !placeholder(w.Text) || word.Fold(w.Text) == word.Fold(text) {
		return false
	}
	b.fail(finding.ValueInvalid, w.At, "%s is no translation of %s and would be printed in its place; write what it reads in %s, or leave the cell blank until somebody knows",
		word.Quote(w.Text), quotedText(text), w.Language)
	return true
}

// quotedText quotes the beginning of a text.
func quotedText(text string) string {
	const most = 60
	if letters := []rune(text); len(letters) > most {
		text = string(letters[:most-1]) + "…"
	}
	return word.Quote(text)
}
