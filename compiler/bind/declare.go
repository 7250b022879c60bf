package bind

import (
	"strings"

	"ferrule/compiler/bind/grammar"
	"ferrule/compiler/bind/lexicon"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

func (b *binder) settings() {
	b.headers(schema.Settings)
	seen := map[string]cell.Place{}
	values := map[string]string{}
	lists := map[string]columnList{}
	spoken := languages{}
	b.each(schema.Settings, func(r row) {
		key, value := r.word("Setting"), r.text("Value")
		if key == "" {
			return
		}
		if at, twice := seen[key]; twice {
			if values[key] != value {
				b.twice("the setting", key, at, r.at("Setting"))
			}
			return
		}
		seen[key], values[key] = r.at("Setting"), value
		lists[key] = columnList{value, r.at("Value")}
		spoken.set(b, key, value, r.at("Value"))
	})
	b.listed.public, b.listed.internal = lists["public columns"], lists["internal columns"]
	b.cat.Settings = model.Settings{
		Title: values["title"], Publisher: values["publisher"], Release: values["release"],
		BaseURL: values["base url"], Contact: values["contact"],
		Millimetres:  word.Fold(values["units"]) == "mm",
		DecimalComma: values["decimal"] == ",",
		TitleAt:      seen["title"], LanguagesAt: seen["languages"],
	}
	b.cat.Settings.Language, b.cat.Settings.Languages = spoken.settled()
	b.lexicon.Sizes.Comma = b.cat.Settings.DecimalComma
}

func (b *binder) platforms() {
	b.headers(schema.Platforms)
	type text struct{ years, maker, summary, tell, picture, called string }
	said := map[*model.Platform]text{}
	b.each(schema.Platforms, func(r row) {
		name := r.name("Platform")
		if name == "" {
			return
		}
		now := text{r.name("Years"), r.text("Maker"), r.text("Summary"), r.text("How to tell"), r.text("Picture"), r.text(alsoCalled)}
		if p, twice := b.lexicon.Platforms.Find(name); twice {
			if said[p] != now {
				b.twice("platform", p.Name, p.At, r.at("Platform"))
			}
			return
		}
		if why := lexicon.PlatformWord(name); why != "" {
			b.fail(finding.ConditionMalformed, r.at("Platform"), "%q cannot be the name of a platform, since it means something else in conditions; give the platform another name", name)
		}
		p := &model.Platform{Index: len(b.cat.Platforms), Name: name, At: r.at("Platform"),
			Maker: now.maker, Summary: now.summary, Tell: now.tell, Picture: r.picture(), Called: b.called(r, nil)}
		p.Years = b.platformYears(r)
		p.Partial = len(p.Years) == 0
		said[p] = now
		b.cat.Platforms = append(b.cat.Platforms, p)
		b.lexicon.Platforms.Add(name, p)
	})
}

func (b *binder) cautions() {
	b.headers(schema.Cautions)
	b.each(schema.Cautions, func(r row) {
		c := &model.Caution{Key: r.name("Caution"), Text: r.text("Text"), Level: r.oneOf("Level"), At: r.at("Caution")}
		if c.Key == "" {
			return
		}
		if c.Level == "" {
			c.Level = "note"
		}
		if old, twice := b.cautionNames.Find(c.Key); twice {
			if old.Text != c.Text || old.Level != c.Level {
				b.twice("caution", c.Key, old.At, c.At)
			}
			return
		}
		b.cat.Cautions = append(b.cat.Cautions, c)
		b.cautionNames.Add(c.Key, c)
	})
}

// notes reads a Note cell: one that is a caution's key prints the caution's text.
// Nothing may be appended to it in place.
func (b *binder) notes(text string) []model.Note {
	if text == "" {
		return nil
	}
	notes, ok := b.noteTexts.Find(text)
	if !ok {
		if c, ok := b.cautionNames.Find(text); ok {
			notes = []model.Note{{Text: c.Text, Caution: c}}
		} else {
			notes = []model.Note{{Text: text}}
		}
		b.noteTexts.Keep(text, notes)
	}
	return notes
}

// cautionKeys reads a Cautions cell: keys, one or several.
func (b *binder) cautionKeys(r row, column string) []model.Note {
	text := r.text(column)
	if text == "" {
		return nil
	}
	if c, ok := b.cautionNames.Find(text); ok {
		return []model.Note{{Text: c.Text, Caution: c}}
	}
	var out []model.Note
	for _, key := range strings.FieldsFunc(text, grammar.Separator) {
		if key = strings.TrimSpace(key); key == "" {
			continue
		}
		c, ok := b.cautionNames.Find(key)
		if !ok {
			b.unknown(finding.ReferenceUnknown, schema.Cautions, "caution", key, &b.cautionNames, r.at(column))
			continue
		}
		out = append(out, model.Note{Text: c.Text, Caution: c})
	}
	return out
}
