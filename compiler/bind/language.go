package bind

import (
	"fmt"
	"slices"
	"strings"

	"golang.org/x/text/language"

	"ferrule/compiler/bind/grammar"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// languages is what Settings say of the languages of guides.
type languages struct {
	source string
	others []string
}

// set takes a setting, if it is about languages.
func (l *languages) set(b *binder, key, value string, at cell.Place) {
	if value == "" {
		return // the schema says that it is required
	}
	switch key {
	case "language":
		l.source, _ = b.spoken(value, at)
	case "languages":
		for _, name := range strings.FieldsFunc(value, grammar.Separator) {
			if name = strings.TrimSpace(name); name == "" {
				continue
			}
			if tag, ok := b.spoken(name, at); ok && !slices.Contains(l.others, tag) {
				l.others = append(l.others, tag)
			}
		}
	}
}

// settled gives the language of the workbooks, "" where they do not name it, and the others.
func (l *languages) settled() (source string, others []string) {
	whole := l.source
	if whole == "" {
		whole = model.DefaultLanguage
	}
	return l.source, slices.DeleteFunc(l.others, func(tag string) bool { return tag == whole })
}

// spoken reads the tag of a language that guides can be written in.
func (b *binder) spoken(text string, at cell.Place) (string, bool) {
	tag, err := languageTag(text)
	if err == nil && !speaks(tag) {
		err = fmt.Errorf("guides cannot be written in %q yet: their own words come in English (en), French (fr), Spanish (es) and German (de), and varieties of these, such as fr-CA", text)
	}
	if err != nil {
		b.fail(finding.ValueInvalid, at, "%s", err)
		return "", false
	}
	return tag, true
}

// speaks tells whether guides can be written in a language.
func speaks(tag string) bool {
	base, _, _ := language.Make(tag).Raw()
	return slices.Contains([]string{"en", "fr", "es", "de"}, base.String())
}

// languageTag gives the canonical form of a tag (BCP 47). The error is a sentence that says
// what to write.
func languageTag(text string) (string, error) {
	tag, err := language.Parse(text)
	if err == nil && tag != language.Und {
		return tag.String(), nil
	}
	if near := tagNames()[word.Fold(text)]; near != "" {
		return "", fmt.Errorf("%q is not the tag of a language (BCP 47); write %s", text, near)
	}
	return "", fmt.Errorf("%q is not the tag of a language (BCP 47); write fr for French, fr-CA for that of Canada, es for Spanish or de for German", text)
}

// tagNames are tags by what people call the languages.
func tagNames() map[string]string {
	return map[string]string{"english": "en", "french": "fr", "français": "fr", "francais": "fr", "spanish": "es", "español": "es",
		"espanol": "es", "german": "de", "deutsch": "de", "italian": "it", "dutch": "nl", "portuguese": "pt", "polish": "pl",
		"french (canada)": "fr-CA", "canadian french": "fr-CA"}
}
