// Package tongue says the program's own words on published pages in the languages that it
// has: English, French, Spanish and German. What workbooks say is none of its business.
//
// A text is asked for by what it is in English, a whole sentence or label with verbs as fmt has
// them (`Part numbers from %s to %s.`). Its translations stand in words/, a file a language, in
// the words of the trade. What counts something has a form for one besides that for many.
package tongue

import (
	"embed"
	"fmt"
	"strings"

	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/number"
)

// Tongue says words in one language. It never changes.
type Tongue struct {
	tag     language.Tag
	base    string
	decimal string
	say     func(key string) Phrase
}

// Phrase is a text in one language. One is its form for one thing where it counts, else "".
type Phrase struct{ Text, One string }

// Languages lists the languages of which there are words, English first.
func Languages() []string { return []string{"en", "fr", "es", "de"} }

// Of gives the tongue of a language by its tag (BCP 47), or of the one that it is a variety of;
// false where there are no words of either.
func Of(tag string) (*Tongue, bool) {
	t, err := language.Parse(tag)
	if err != nil {
		return nil, false
	}
	base, _, _ := t.Raw()
	for _, l := range Languages() {
		if l == base.String() {
			words := Catalogue(l)
			return Made(t.String(), func(key string) Phrase { return words[key] }), true
		}
	}
	return nil, false
}

// English is what everything is written in.
func English() *Tongue {
	t, _ := Of("en")
	return t
}

// Made gives a tongue whose phrases come from elsewhere. A Phrase without Text is said in English.
func Made(tag string, say func(key string) Phrase) *Tongue {
	t := language.Make(tag)
	base, _, _ := t.Raw()
	half := message.NewPrinter(t).Sprint(number.Decimal(0.5))
	return &Tongue{tag: t, base: base.String(), decimal: strings.Trim(half, "05"), say: say}
}

// Tag gives the tag of the language.
func (t *Tongue) Tag() string { return t.tag.String() }

// Decimal gives the sign between a whole number and its decimals.
func (t *Tongue) Decimal() string { return t.decimal }

// phrase gives the words of a key, in English where there are none.
func (t *Tongue) phrase(key string) Phrase {
	p := t.say(key)
	if p.Text == "" {
		p.Text = key
	}
	return p
}

// Say gives a text with what its verbs stand for.
func (t *Tongue) Say(key string, args ...any) string {
	if len(args) == 0 {
		return t.phrase(key).Text
	}
	return fmt.Sprintf(t.phrase(key).Text, args...)
}

// Count gives a text that counts n things, by the plural rules of the language (CLDR). The number
// is the first of its verbs.
func (t *Tongue) Count(key string, n int, args ...any) string {
	p := t.phrase(key)
	if text := p.One; text != "" && plural.Cardinal.MatchPlural(t.tag, n, 0, 0, 0, 0) == plural.One {
		p.Text = text
	}
	return fmt.Sprintf(p.Text, append([]any{n}, args...)...)
}

// Piece gives what stands before the first verb of a text (0), between it and the next (1), and so
// on: for pages that put markup in the places of verbs, which every language keeps in their order.
func (t *Tongue) Piece(key string, n int) string {
	pieces := verb.Split(t.phrase(key).Text, -1)
	if n < 0 || n >= len(pieces) {
		return ""
	}
	return pieces[n]
}

// Phrases gives the words of some keys.
func (t *Tongue) Phrases(keys []string) map[string]Phrase {
	out := make(map[string]Phrase, len(keys))
	for _, k := range keys {
		out[k] = t.phrase(k)
	}
	return out
}

//go:embed words/*.tsv
var files embed.FS

// Catalogue reads the words of one of Languages: in each line the text in English, in the language, and its
// form for one where it counts. In English there are only lines of texts that count.
func Catalogue(name string) map[string]Phrase {
	text, err := files.ReadFile("words/" + name + ".tsv")
	if err != nil {
		panic("tongue: what is embedded can be read: " + err.Error())
	}
	out := map[string]Phrase{}
	for line := range strings.Lines(string(text)) {
		fields := strings.Split(strings.TrimSuffix(line, "\n"), "\t")
		if strings.HasPrefix(line, "#") || len(fields) < 2 {
			continue
		}
		p := Phrase{Text: fields[1]}
		if len(fields) > 2 {
			p.One = fields[2]
		}
		out[fields[0]] = p
	}
	return out
}

// Key marks a text that is said elsewhere, so that the catalogues are held against it.
func Key(text string) string { return text }
