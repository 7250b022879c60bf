package check

import (
	"slices"

	"ferrule/compiler/model"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// printed is a text that guides print, with every cell that says it.
type printed struct {
	model.Text
	cells []cell.Place
	lacks []string // languages into which nothing translates it
}

// printedTexts gives what guides print, each text once for what it is; a text that protects in one of
// its cells does so in all.
func printedTexts(cat *model.Catalogue) []*printed {
	type key struct {
		sheet      *cell.Sheet
		what, text string
	}
	var out []*printed
	known := map[key]*printed{}
	seen := map[cell.Place]map[key]bool{} // a merged cell stands in several rows
	for t := range cat.Texts {
		k := key{text: model.TextKey(t.Text)}
		if !t.Protects {
			k.sheet, k.what = t.At.Sheet, t.What
		}
		p := known[k]
		if p == nil {
			p = &printed{Text: t}
			known[k], out = p, append(out, p)
		}
		if seen[t.At] == nil {
			seen[t.At] = map[key]bool{}
		}
		if !seen[t.At][k] {
			seen[t.At][k] = true
			p.cells = append(p.cells, t.At)
		}
	}
	protects := map[string]bool{}
	for _, p := range out {
		if p.Protects {
			protects[model.TextKey(p.Text.Text)] = true
		}
	}
	return slices.DeleteFunc(out, func(p *printed) bool { return !p.Protects && protects[model.TextKey(p.Text.Text)] })
}

// untranslated gives the printed texts that lack a language in which guides are published.
func untranslated(cat *model.Catalogue) []*printed {
	if len(cat.Settings.Languages) == 0 {
		return nil
	}
	all := printedTexts(cat)
	for _, tag := range cat.Settings.Languages {
		in := cat.WordingsIn(tag)
		if len(in) == 0 {
			continue // that is told once
		}
		for _, p := range all {
			if in.Of(p.Text.Text) == nil && !cat.Unread(p.Text.Text, tag) {
				p.lacks = append(p.lacks, tag)
			}
		}
	}
	return slices.DeleteFunc(all, func(p *printed) bool { return p.lacks == nil })
}

// wordless gives the languages in which guides are published and into which nothing is translated.
func wordless(cat *model.Catalogue) []string {
	var out []string
	for _, tag := range cat.Settings.Languages {
		if len(cat.WordingsIn(tag)) == 0 {
			out = append(out, tag)
		}
	}
	return out
}

// worded gives the languages into which something is translated.
func worded(cat *model.Catalogue) []string {
	var out []string
	for _, t := range cat.Translations {
		for i := range t.Wordings {
			if !slices.Contains(out, t.Wordings[i].Language) {
				out = append(out, t.Wordings[i].Language)
			}
		}
	}
	slices.Sort(out)
	return out
}

// unsaid gives the rows of Translations whose text no cell says that guides print.
func unsaid(cat *model.Catalogue) []*model.Translation {
	if len(cat.Translations) == 0 {
		return nil
	}
	said := map[string]bool{}
	for t := range cat.Texts {
		said[model.TextKey(t.Text)] = true
	}
	var out []*model.Translation
	for _, t := range cat.Translations {
		if !said[model.TextKey(t.Text)] {
			out = append(out, t)
		}
	}
	return out
}

// meantFor finds the row that was probably written for a text before it was changed; nil for
// none, and where several are as near.
func meantFor(text string, rows []*model.Translation) *model.Translation {
	var names []string
	for _, t := range rows {
		names = append(names, t.Text)
	}
	near := word.Nearest(text, names)
	i := slices.Index(names, near)
	if near == "" || i < 0 {
		return nil
	}
	return rows[i]
}
