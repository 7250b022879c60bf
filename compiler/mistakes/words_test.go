package mistakes

import (
	"fmt"

	"ferrule/out/markup"
)

// inWords are mistakes in Translations and in what Settings say of languages.
func inWords() []mistake {
	out := append(inLanguages(), inTranslated()...)
	return append(out, inColumnsOfLanguages()...)
}

// says makes a mistake of what a text reads in a language.
func says(lang, text, reads, code, wants string) mistake {
	return mistake{name: fmt.Sprintf("%s says %q for %q", lang, reads, text), from: spoken, do: func(b *books) {
		s := b.sheet("Translations")
		s.put(lang, s.row("Text", text), markup.Words(reads))
	}, wants: []want{{code, "Translations", wants}}, most: 1}
}

func inTranslated() []mistake {
	const (
		differs, invalid = "translation-differs", "value-invalid"
		bolts            = "Tighten the bolts to 80 N·m, not more, and check them after 500 km."
		rod              = "Never turn the damper by its rod. It does not turn back."
		leaves           = "It must not be used without leaves."
	)
	return []mistake{
		says("fr", bolts, "Serrez les boulons à 60 N·m, pas plus, et vérifiez-les après 500 km.", differs, "says 60 N·m where its text says 80 N·m"),
		says("fr", bolts, "Serrez les boulons à 80, pas plus, et vérifiez-les après 500 km.", differs, "says 80 without a unit where its text says 80 N·m"),
		says("fr", bolts, "Serrez les boulons à 80 N·m, pas plus, et vérifiez-les après 500 milles.", differs, "says 500 milles where its text says 500 km"),
		says("fr", bolts, "Serrez les boulons à 80 N·m et vérifiez-les après 500 km.", differs, "no word that denies anything, and its text says .not"),
		says("fr", rod, "Tournez l’amortisseur par sa tige. Elle revient.", differs, "no word that denies anything, and its text says .never"),
		says("es", "Do not fit anything before they are renewed.", "Monte todo antes de cambiarlas.", differs, "its text says .not"),
		says("fr", "the axle has no eye for it", "l’essieu a un œil pour lui", differs, "its text says .no."),
		says("fr", "Left-hand", "À droite", differs, "says .droite. where its text says .left").more(2, 16, "the two values read alike as well"),
		says("es", rod, "Ne tournez jamais l’amortisseur par la tige avec les outils. Elle ne revient pas.", differs, "under es seems to be in fr"),
		says("es", rod, rod, differs, "under es is the text itself"),
		says("fr", "Broken leaves", "-", invalid, `“?"-"? is no translation of "Broken leaves"`),
		says("fr", "Broken leaves", "TBD", invalid, "is no translation of .*leave the cell blank until somebody knows"),
		says("fr", "Broken leaves", "?", invalid, "is no translation of"),
		says("fr", "Broken leaves", "idem", invalid, "is no translation of"),
		says("es", "Damper", "x", invalid, "is no translation of"),
		says("fr", "Broken leaves", "", "translation-missing", "is not translated into fr").at("Inspections"),
		says("fr", "Steel", "Pneumatique", "name-shared", `in fr, the values of Suspension "Air" and "Steel" are both called "Pneumatique"`),
		says("fr", "Steering damper", "Amortisseur", "name-shared", `the positions "Damper" and "Steering damper"`),
		says("fr", "wanders on the road", "Se balance d’un côté à l’autre", "name-shared", "the complaints"),
		{name: "a translation that shows an error", from: spoken, do: func(b *books) { b.sheet("Translations").put("fr", 23, markup.Cell{Kind: markup.Error, Text: "#NAME?"}) },
			wants: []want{{"cell-error", "Translations!B23", "#NAME"}}, most: 1},
		{name: "a text of Check first that nothing translates", from: spoken, do: func(b *books) {
			s := b.sheet("Translations")
			s.remove(s.row("Text", "Tyre pressures on both sides."))
		}, wants: []want{{"translation-missing", "Complaints!A2", "Check first .Tyre pressures"}}, most: 1},
		{name: "a danger that nothing translates", from: spoken, do: func(b *books) {
			s := b.sheet("Translations")
			s.remove(s.row("Text", "Broken leaves"))
		}, wants: []want{{"translation-missing", "Inspections!A2", "Broken leaves"}}, most: 1},
		{name: "a text of an inspection with a letter less", from: spoken, do: func(b *books) {
			s := b.sheet("Translations")
			s.put("Text", s.row("Text", "A damper would hide it."), "A damper wuld hide it.")
		}, wants: []want{{"translation-missing", "Translations", "says nearly the same"}}, most: 1},
		{name: "a text and its translation exchanged", from: spoken, do: func(b *books) {
			s := b.sheet("Translations")
			r := s.row("Text", leaves)
			text, fr := s.get("Text", r), s.get("fr", r)
			s.put("Text", r, fr)
			s.put("fr", r, text)
		}, wants: []want{{"translation-missing", "Compatibility", "must not be used"}}, most: 3, lines: 24, why: "the text, and what stands in its place, are told"},
	}
}

// more raises the bounds of a mistake.
func (m mistake) more(most, lines int, why string) mistake {
	m.most, m.lines, m.why = most, lines, why
	return m
}

// at moves where the only finding of a mistake is wanted.
func (m mistake) at(place string) mistake {
	m.wants[0].at = place
	return m
}

func inColumnsOfLanguages() []mistake {
	const beside = "the column or the sheet is told, and the language that lacks its words"
	head := func(lang, as, wants string) mistake {
		return mistake{name: fmt.Sprintf("the heading %s as %q", lang, as), from: spoken, do: func(b *books) { b.sheet("Translations").head(lang, as) },
			wants: []want{{"translation-missing", "Settings", "nothing is translated into it.*\n.*head the column of Translations " + lang}, {"header-unknown", "Translations", wants}}, lines: 16, why: beside}
	}
	silent := func(lang, as, wants string) mistake {
		m := head(lang, as, "")
		m.wants, m.lines = []want{{"translation-missing", "Settings", wants}}, 26
		return m
	}
	swapped := func(lang string) mistake {
		return mistake{name: "the headings Text and " + lang + " exchanged", from: spoken, do: func(b *books) { b.sheet("Translations").swap("Text", lang) },
			wants: []want{{"translation-missing", "Translations", "headings Text and " + lang + " of Translations seem to be exchanged"}}, most: 1}
	}
	sheet := func(as string) mistake {
		return mistake{name: "Translations called " + as, from: spoken, do: func(b *books) { b.sheet("Translations").Name = as },
			wants: []want{{"translation-missing", "Settings", "nothing is translated into them"}, {"sheet-ignored", as, "."}}, lines: 22, why: beside}
	}
	return []mistake{
		head("fr", "french", "write fr"), head("fr", "Français", "write fr"), head("es", "sp", "write fr for French"),
		silent("fr", "fr_FR", "it has es and fr-FR"), silent("fr", "fr-CA", "it has es and fr-CA"), silent("es", "de", "it has de and fr"),
		{name: "the heading fr in capitals", from: spoken, harmless: true, do: func(b *books) { b.sheet("Translations").head("fr", "FR ") }},
		{name: "the workbooks' own language as a column", from: spoken, do: func(b *books) { b.sheet("Translations").addColumn("en", "What fits") },
			wants: []want{{"header-unknown", "Translations!D1", "en is the language of the workbooks"}}, most: 1},
		{name: "two headings of languages exchanged", from: spoken, do: func(b *books) { b.sheet("Translations").swap("fr", "es") },
			wants: []want{{"translation-differs", "Translations", "under fr seems to be in es"}, {"translation-differs", "Translations", "under es seems to be in fr"}}, lines: 60, most: 6,
			why: "each cell is named, and a short text without common words is told by what it lacks"},
		swapped("fr"), swapped("es"),
		sheet("Translation"), sheet("French"), sheet("Languages"),
		{name: "no Translations sheet", from: spoken, do: func(b *books) { b.drop("Translations") },
			wants: []want{{"translation-missing", "Settings", "fr and es"}}, most: 1},
	}
}

func inLanguages() []mistake {
	set := func(key, value, wants string) mistake {
		return mistake{name: fmt.Sprintf("%s set to %q", key, value), from: spoken, do: func(b *books) {
			s := b.sheet("Settings")
			s.put("Value", s.row("Setting", key), markup.Words(value))
		}, wants: []want{{"value-invalid", "Settings", wants}}, most: 1}
	}
	return []mistake{
		set("languages", "french", "write fr"), set("languages", "fr, it", `cannot be written in "it" yet`),
		set("languages", "fr es", "is not the tag of a language"), set("languages", "fr and es", "is not the tag of a language"),
		set("language", "English", "write en"), set("language", "", "Value is blank"),
		{name: "a language that no column has", from: spoken, do: func(b *books) { b.sheet("Settings").put("Value", 6, "fr, es, de") },
			wants: []want{{"translation-missing", "Settings!A6", "published in de, and nothing is translated into it.*\n.*it has es and fr"}}, most: 1},
		{name: "the language of a translation named as the workbooks'", from: spoken, do: func(b *books) { b.sheet("Settings").put("Value", 5, "fr") },
			wants: []want{{"header-unknown", "Translations!B1", "correct language in Settings"}}, most: 1},
		{name: "languages as a row without a value", from: spoken, do: func(b *books) { b.sheet("Settings").put("Value", 6, markup.Cell{}) },
			wants: []want{{"value-invalid", "Settings!B6", "Value is blank"}}, most: 1},
	}
}
