package guide_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"golang.org/x/net/html"

	"ferrule/compiler/model"
	"ferrule/out/guide"
)

// meta gives the content of a page's meta elements by their name or property.
func meta(t *testing.T, page string) map[string]string {
	out := map[string]string{}
	for _, n := range all(parse(t, page), tag("meta")) {
		if name := attr(n, "name") + attr(n, "property"); name != "" {
			assert.NotContains(t, out, name)
			out[name] = attr(n, "content")
		}
	}
	return out
}

// Open Graph's names: og:title, og:type, og:url, og:site_name, og:description.
func TestHead(t *testing.T) {
	pages := newSample().pages(t, guide.Options{})
	for name, want := range map[string]string{
		"index.html":             "Which part belongs where on which chassis: fitment guides, parts, and other numbers. Wending Ride Parts: fitment guides",
		"platforms/heron-7.html": "Which part belongs where on Heron 7, chassis model years 2004 to 2008, 2010 to 2011. Rear-engined chassis of mobile libraries.",
		"parts/wd-120.html":      "WD-120 Front damper, long travel: For chassis with raised bodies.",
		"parts/wb-7.html":        "Where WB-7 Bracket fits, what replaces it, and its other numbers.",
		"a-z.html":               "All part numbers, their other numbers, platforms, and what tells vehicles apart.",
	} {
		m := meta(t, pages[name])
		assert.Equal(t, want, m["description"], name)
		assert.Equal(t, want, m["og:description"], name)
		assert.Equal(t, "https://guides.example/"+name, m["og:url"], name)
		assert.Equal(t, "Wending Ride Parts: fitment guides", m["og:site_name"], name)
		assert.Equal(t, "website", m["og:type"], name)
		assert.NotEmpty(t, m["og:title"], name)
		assert.NotContains(t, m, "robots", name)
	}
	assert.Equal(t, "WD-120 Front damper, long travel", meta(t, pages["parts/wd-120.html"])["og:title"])
}

// Texts in the head are lines of bounded length without marks of direction.
func TestHeadOfHostileTexts(t *testing.T) {
	s, o := worst(hostile + strings.Repeat("long ", 100))
	for name, page := range s.pages(t, o) {
		if !isPage(name) {
			continue
		}
		for key, content := range meta(t, page) {
			assert.False(t, strings.ContainsAny(content, "\u202e\u2067\n"), "%s %s", name, key)
			if key == "description" {
				assert.LessOrEqual(t, len([]rune(content)), 160, name)
			}
		}
	}
}

// Each page leads to its data.
func TestDataOfPages(t *testing.T) {
	pages := newSample().pages(t, guide.Options{})
	for name, want := range map[string]string{
		"index.html": "catalogue.json", "a-z.html": "catalogue.json", "platforms/heron-7.html": "../guides/Heron-7.json", "parts/wd-120.html": "../parts/wd-120.json",
	} {
		links := all(parse(t, pages[name]), func(n *html.Node) bool { return attr(n, "rel") == "alternate" })
		if assert.Len(t, links, 1, name) {
			assert.Equal(t, want, attr(links[0], "href"), name)
		}
	}
}

// A change of one part changes the pages that speak of it, and the bytes of no other.
func TestUnchangedPagesKeepTheirBytes(t *testing.T) {
	before := newSample().pages(t, guide.Options{})
	s := newSample()
	s.Cat.Parts[6].Name = "Bracket, galvanised" // WB-7, in the kit WK-9, at the steering damper
	s.Cat.Parts = append(s.Cat.Parts, part("WZ-1", "Washer", ""))
	s.Cat.References = append(s.Cat.References, &model.Reference{Number: "W1", Part: s.Cat.Parts[6]})
	after := s.pages(t, guide.Options{})
	var changed []string
	for _, name := range sorted(after) {
		if before[name] != after[name] {
			changed = append(changed, name)
		}
	}
	assert.Equal(t, []string{"a-z.html", "parts/wb-7.html", "parts/wk-9.html", "parts/wz-1.html", "platforms/heron-7.html",
		"search-index.js", "search/0.js", "sitemap.xml"}, changed)
}
