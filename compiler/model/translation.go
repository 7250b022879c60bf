package model

import (
	"slices"
	"strings"

	"golang.org/x/text/language"
	"golang.org/x/text/unicode/norm"

	"ferrule/sheets/cell"
)

// DefaultLanguage is the language of workbooks that do not name theirs.
const DefaultLanguage = "en"

// Translation is what a text of the workbooks reads in other languages.
type Translation struct {
	Text     string
	Wordings []Wording // those that are filled in
	Unread   []string  // tags of languages of which the cell cannot be read, which is told by itself
	At       cell.Place
}

// Wording is a text in one language.
type Wording struct {
	Language string // its tag in canonical form (BCP 47)
	Text     string
	At       cell.Place
}

// Source gives the tag of the language in which the workbooks are written.
func (s *Settings) Source() string {
	if s.Language == "" {
		return DefaultLanguage
	}
	return s.Language
}

// TextKey is a text as it is looked up for its translation: white space counts for one space,
// and letters that are composed of several signs are one. Case counts.
func TextKey(text string) string { return norm.NFC.String(strings.Join(strings.Fields(text), " ")) }

// Wordings are texts in one language, by TextKey.
type Wordings map[string]*Wording

// WordingsIn gives what texts read in a language, or in the nearest that it is a variety of: where
// fr-CA says nothing fr does. The first of several rows holds.
func (c *Catalogue) WordingsIn(tag string) Wordings {
	out := Wordings{}
	for _, in := range parents(tag) {
		here := Wordings{}
		for _, t := range c.Translations {
			for i := range t.Wordings {
				if w := &t.Wordings[i]; w.Language == in && here[TextKey(t.Text)] == nil {
					here[TextKey(t.Text)] = w
				}
			}
		}
		for key, w := range here {
			if out[key] == nil {
				out[key] = w
			}
		}
	}
	return out
}

// Unread tells whether a cell that would translate a text into a language cannot be read.
func (c *Catalogue) Unread(text, tag string) bool {
	key, tags := TextKey(text), parents(tag)
	return slices.ContainsFunc(c.Translations, func(t *Translation) bool {
		return t.Unread != nil && TextKey(t.Text) == key && slices.ContainsFunc(t.Unread, func(in string) bool { return slices.Contains(tags, in) })
	})
}

// parents lists a tag and those that it is a variety of, nearest first.
func parents(tag string) []string {
	t, err := language.Parse(tag)
	if err != nil {
		return []string{tag}
	}
	var out []string
	for ; t != language.Und; t = t.Parent() {
		out = append(out, t.String())
	}
	return out
}

// Of gives the wording of a text; nil where there is none.
func (w Wordings) Of(text string) *Wording { return w[TextKey(text)] }
