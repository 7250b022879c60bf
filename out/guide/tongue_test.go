package guide_test

import (
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"ferrule/compiler/model"
	"ferrule/out/guide"
	"ferrule/out/tongue"
)

// speaking gives the sample in further languages, with every text translated by a function but for
// those that it gives "" for.
func speaking(s *sample, in func(text string) string, languages ...string) {
	s.Cat.Settings.Languages = languages
	seen := map[string]bool{}
	for t := range s.Cat.Texts {
		if words := in(t.Text); words != "" && !seen[t.Text] {
			seen[t.Text] = true
			row := &model.Translation{Text: t.Text}
			for _, l := range languages {
				row.Wordings = append(row.Wordings, model.Wording{Language: l, Text: words})
			}
			s.Cat.Translations = append(s.Cat.Translations, row)
		}
	}
}

// own gives the pages of the workbooks' language.
func own(pages map[string]string, folders ...string) []string {
	return slices.DeleteFunc(sorted(pages), func(name string) bool {
		return !isPage(name) || slices.ContainsFunc(folders, func(f string) bool { return strings.HasPrefix(name, f) })
	})
}

// TestLanguages holds that each language has every page at the same address below its folder, that pages
// lead to each other both ways, and that data, style and scripts stand once.
func TestLanguages(t *testing.T) {
	s := newSample()
	speaking(s, func(text string) string { return "fr " + text }, "fr", "de")
	pages := s.pages(t, guide.Options{News: whatChanged(s, "")})
	names := own(pages, "fr/", "de/")
	require.NotEmpty(t, names)
	at := map[string]string{"en": "", "fr": "fr/", "de": "de/"}
	for _, name := range names {
		for language, folder := range at {
			page, ok := pages[folder+name]
			require.True(t, ok, "%s%s", folder, name)
			root := parse(t, page)
			assert.Equal(t, language, attr(all(root, tag("html"))[0], "lang"), "%s%s", folder, name)
			links := map[string]string{}
			for _, l := range all(root, tag("link")) {
				if attr(l, "hreflang") != "" {
					links[attr(l, "hreflang")] = attr(l, "href")
				}
			}
			base := "https://guides.example/"
			assert.Equal(t, map[string]string{"en": base + name, "x-default": base + name, "fr": base + "fr/" + name, "de": base + "de/" + name}, links, "%s%s", folder, name)
			chooser := all(root, class("tongues"))
			require.Len(t, chooser, 1)
			assert.Equal(t, "English Français Deutsch", words(chooser[0]))
			assert.Len(t, all(chooser[0], tag("a")), 2)
		}
	}
	assert.NotContains(t, pages, "fr/style.css")
	assert.NotContains(t, pages["assets.json"], `"words.js"`, "scripts speak English")
	assert.NotContains(t, pages["index.html"], "words.")
	assert.Regexp(t, `^fr/words\.[0-9a-f]{12}\.js$`, assetName(t, pages, "fr/words.js"))
	assert.NotEqual(t, path.Base(assetName(t, pages, "fr/words.js")), path.Base(assetName(t, pages, "de/words.js")))
	assert.Contains(t, pages["fr/platforms/heron-7.html"], `<script src="../`+path.Base(assetName(t, pages, "fr/words.js"))+`" defer>`)
	assert.Contains(t, assetText(t, pages, "fr/words.js"), `"%d found":["%d résultats","%d résultat"]`)
	assert.Contains(t, pages["fr/search-index.js"], "Constructeur")
	assert.Contains(t, pages["sitemap.xml"], `<loc>https://guides.example/fr/a-z.html</loc><xhtml:link rel="alternate" hreflang="en" href="https://guides.example/a-z.html"/><xhtml:link rel="alternate" hreflang="x-default"`)
	checkLinks(t, pages, "https://guides.example/")
	checkStructure(t, pages)
}

// TestOneLanguage holds that nothing of other languages is on pages where there are none.
func TestOneLanguage(t *testing.T) {
	for name, page := range newSample().pages(t, guide.Options{}) {
		assert.NotContains(t, page, "hreflang", name)
		assert.NotContains(t, page, "tongues\"", name)
	}
}

// A text that is not translated stands as it is, marked with its language; one that is has no mark.
func TestUntranslatedTextsAreMarked(t *testing.T) {
	s := newSample()
	s.Cat.Traits[0].Question = "What is it?"
	speaking(s, func(text string) string {
		if text == s.Cat.Traits[0].Question {
			return "Qu’est-ce que c’est ?"
		}
		return ""
	}, "fr")
	page := s.pages(t, guide.Options{})["fr/a-z.html"]
	assert.Contains(t, page, `<bdi lang="en">`+s.Cat.Traits[0].Name+`</bdi></h3>`)
	assert.Contains(t, page, `<p class="text" dir="auto">Qu’est-ce que c’est ?</p>`)
}

// A language of its own: workbooks may be written in another than English.
func TestWorkbooksInFrench(t *testing.T) {
	s := newSample()
	s.Cat.Settings.Language = "fr"
	pages := s.pages(t, guide.Options{})
	assert.Contains(t, pages["index.html"], `<html lang="fr">`)
	assert.Contains(t, pages["index.html"], "Plateformes</h2>")
	assert.Contains(t, pages["index.html"], `<script src="`+assetName(t, pages, "words.js")+`"`)
}

// Signs of the language that tests speak: around each of the program's own words, and around each
// text of the workbooks.
const (
	openOwn, closeOwn   = "⟦", "⟧"
	openBook, closeBook = "‹", "›"
)

// marked says everything in signs, 40 % longer.
func marked(tag string) *tongue.Tongue {
	return tongue.Made(tag, func(key string) tongue.Phrase {
		more := strings.Repeat("~", (2*utf8.RuneCountInString(key)+4)/5)
		return tongue.Phrase{Text: openOwn + key + more + closeOwn}
	})
}

// TestNoWordIsUntranslated holds that every word of a page is the program's own in the language of
// the page, a translated text of the workbooks, or a name that reads alike in every language.
func TestNoWordIsUntranslated(t *testing.T) {
	s := newSample()
	s.Cat.Fitments = []*model.Fitment{{Cells: []*model.FitCell{ // what the guide made by hand says
		{Fits: &model.Fits{Outcome: model.None, Text: "Leaf springs damp themselves."}, Notes: model.NotesOf(model.Note{Text: "Remove the wheel first."})},
		{Fits: &model.Fits{Outcome: model.Ask, Text: "Measure the tube."}}}}}
	speaking(s, func(text string) string { return openBook + text + closeBook }, "fr")
	pages := s.pages(t, guide.Options{News: whatChanged(s, ""), Tongue: func(tag string) *tongue.Tongue {
		if tag == "fr" {
			return marked(tag)
		}
		return tongue.English()
	}})
	names := properNames(s.Cat)
	looked := 0
	for _, name := range sorted(pages) {
		if !strings.HasPrefix(name, "fr/") || !isPage(name) {
			continue
		}
		looked++
		root := parse(t, pages[name])
		for _, text := range readable(root) {
			if left := unspoken(text, names); left != "" {
				t.Errorf("%s: %q is not in the language of the page: %q", name, left, text)
			}
		}
	}
	assert.Greater(t, looked, 3)
}

// properNames gives what reads alike in every language.
func properNames(cat *model.Catalogue) []string {
	set := cat.Settings
	out := []string{set.Publisher, set.Contact, set.Release, "English",
		"2026-4", "Heron 6", "WD-90", "Position of old", "Lift axle", "Tag axle", "Levelling", "Mechanical", "Mech"} // of the earlier release
	out = append(out, "By definition") // a source
	for _, p := range cat.Platforms {
		out = append(out, p.Name, p.Maker)
	}
	for _, p := range cat.Parts {
		out = append(out, p.Number, p.Number[:1]) // the A to Z has letters
	}
	for _, r := range cat.References {
		out = append(out, r.Number, r.Number[:1], r.Source)
	}
	for _, c := range cat.Complaints {
		out = append(out, c.Source)
	}
	for _, n := range cat.Inspections {
		out = append(out, n.Source)
	}
	for _, t := range cat.Traits {
		for _, v := range t.Values {
			if unicode.IsDigit(rune(v.Name[0])) { // measured
				out = append(out, v.Name)
			}
		}
	}
	slices.SortFunc(out, func(a, b string) int { return len(b) - len(a) })
	return slices.DeleteFunc(out, func(n string) bool { return n == "" })
}

// readable gives the texts of a page block by block, and of attributes that are read out.
func readable(root *html.Node) []string {
	var out []string
	blocks := []string{"p", "li", "td", "th", "dt", "dd", "h1", "h2", "h3", "h4", "caption", "title", "label", "summary", "span", "a", "div"}
	for _, n := range all(root, func(*html.Node) bool { return true }) {
		for _, a := range n.Attr {
			if slices.Contains([]string{"aria-label", "alt", "title", "placeholder", "data-label", "data-l", "data-find", "data-gone"}, a.Key) || a.Key == "content" && attr(n, "name") == "description" {
				out = append(out, a.Val)
			}
		}
		if slices.Contains(blocks, n.Data) && len(all(n, tag(blocks...))) <= 1 {
			out = append(out, words(n))
		}
	}
	return out
}

var (
	spoken  = regexp.MustCompile(openOwn + `[^` + openOwn + closeOwn + `]*` + closeOwn)
	carried = regexp.MustCompile(openBook + `[^` + openBook + closeBook + `]*(` + closeBook + `|…$)`)
	// Measured values, and characters of a VIN that stand for a year.
	figures = regexp.MustCompile(`\d[\d,./ ]*\s(lb·ft|N·m|lb|kg|mm|in|V)($|[^\pL])|(\d\d\d\d) \([A-Z]\)`)
)

// unspoken gives the letters of a text that are neither in signs nor in names.
func unspoken(text string, names []string) string {
	for range 5 { // within each other
		text = carried.ReplaceAllString(text, "")
		text = spoken.ReplaceAllString(text, "")
	}
	text = figures.ReplaceAllString(text, "")
	for _, n := range names {
		text = strings.ReplaceAll(text, n, "")
	}
	if strings.ContainsFunc(text, unicode.IsLetter) {
		return strings.TrimSpace(text)
	}
	return ""
}

// Whatever a translation holds is escaped, and pages without a frame lead to other languages as well.
func TestTranslationsAreEscaped(t *testing.T) {
	s := newSample()
	speaking(s, func(text string) string { return text + `</bdi></title><script>x()</script>" onload="x()` }, "fr")
	pages := s.pages(t, guide.Options{})
	checkStructure(t, pages)
	for name, page := range s.pages(t, guide.Options{Fragment: true}) {
		if isPage(name) {
			assert.Contains(t, page, `<nav class="tongues"`, name)
		}
	}
}
