package guide_test

import (
	"errors"
	"net/url"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"ferrule/out/guide"
)

func TestLinksLeadSomewhere(t *testing.T) {
	checkLinks(t, newSample().pages(t, guide.Options{}), "https://guides.example/")
}

// checkLinks follows every link of a set of pages published at base, but for those to
// JSON, which a test of the whole program follows.
func checkLinks(t *testing.T, pages map[string]string, base string) {
	t.Helper()
	ids := map[string]bool{}
	for name, page := range pages {
		ids[name] = true
		if !isPage(name) {
			continue
		}
		for _, n := range all(parse(t, page), func(n *html.Node) bool { return attr(n, "id") != "" }) {
			at := name + "#" + attr(n, "id")
			assert.False(t, ids[at], "%s stands twice", at)
			ids[at] = true
		}
	}
	links, reached := 0, map[string]bool{"index.html": true}
	for name, page := range pages {
		if !isPage(name) {
			continue
		}
		for _, n := range all(parse(t, page), tag("a", "link", "img", "use", "script")) {
			for _, source := range strings.Split(attr(n, "srcset"), ", ") {
				reached[path.Join(path.Dir(name), strings.Split(source, " ")[0])] = true
			}
			href := attr(n, "href") + attr(n, "src")
			switch {
			case attr(n, "rel") == "canonical":
				assert.Equal(t, base+name, href)
				continue
			case attr(n, "hreflang") != "" && n.Data == "link":
				at, ok := strings.CutPrefix(href, base)
				assert.True(t, ok && ids[at], "%s: no page %s in %s", name, href, attr(n, "hreflang"))
				continue
			case attr(n, "rel") == "alternate":
				assert.Equal(t, "application/json", attr(n, "type"))
				continue
			case attr(n, "type") == "application/ld+json":
				assert.Empty(t, href)
				continue
			}
			u, err := url.Parse(href)
			require.NoError(t, err)
			if path.Base(name) == "404.html" && u.Host == "" { // which may come up at any address: its links are from the root
				u.Path = strings.TrimPrefix(u.Path, "/")
			}
			assert.False(t, u.IsAbs() || u.Host != "" || strings.HasPrefix(u.Path, "/"), "%s: %s leaves the folder", name, href)
			target := name
			switch {
			case u.Path == "":
			case path.Base(name) == "404.html":
				target = u.Path
			default:
				target = path.Join(path.Dir(name), u.Path)
			}
			reached[target] = true
			if strings.HasPrefix(u.Fragment, "?") { // an answer, which the finder reads
				assert.NotNil(t, all(parse(t, pages[name]), class("early")), "%s: %s", name, href)
			} else if u.Fragment != "" {
				target += "#" + u.Fragment
			}
			assert.True(t, ids[target], "%s: %s leads nowhere", name, href)
			links++
		}
	}
	assert.Greater(t, links, 100)
	for name := range pages {
		if isPage(name) || strings.HasSuffix(name, ".css") {
			assert.True(t, reached[name], "no page leads to %s", name)
		}
	}
}

func TestEveryPageIsBuiltAlike(t *testing.T) {
	checkStructure(t, newSample().pages(t, guide.Options{}))
}

func checkStructure(t *testing.T, pages map[string]string) {
	t.Helper()
	for name, page := range pages {
		if !isPage(name) {
			continue
		}
		root := parse(t, page)
		assert.True(t, strings.HasPrefix(page, "<!DOCTYPE html>\n"), name)
		language := "en"
		if folder, _, _ := strings.Cut(name, "/"); len(folder) == 2 {
			language = folder
		}
		assert.Equal(t, language, attr(all(root, tag("html"))[0], "lang"), name)
		for _, one := range []string{"h1", "main", "header", "footer", "title"} {
			assert.Len(t, all(root, tag(one)), 1, "%s: %s", name, one)
		}
		assert.Equal(t, "#main", attr(all(root, tag("a"))[0], "href"), "%s: the first link skips to the content", name)
		level := 0
		for _, h := range all(root, tag("h1", "h2", "h3", "h4")) {
			n := int(h.Data[1] - '0')
			assert.LessOrEqual(t, n, level+1, "%s: %s skips a level", name, words(h))
			assert.NotEmpty(t, words(h), name)
			level = n
		}
		for _, table := range all(root, tag("table")) {
			assert.Len(t, all(table, tag("caption")), 1, name)
			for _, th := range all(table, tag("th")) {
				assert.Contains(t, []string{"row", "rowgroup", "col"}, attr(th, "scope"), name)
			}
		}
		policy := attr(all(root, func(n *html.Node) bool { return attr(n, "http-equiv") == "Content-Security-Policy" })[0], "content")
		assert.Equal(t, "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'", policy, name)
		assert.Empty(t, all(root, tag("style", "base", "iframe", "form", "object")), name)
		for _, n := range all(root, tag("script")) {
			if attr(n, "type") == "application/ld+json" {
				continue // data, which no browser runs
			}
			assert.Nil(t, n.FirstChild, "%s: a script in the page", name)
			assert.True(t, strings.HasSuffix(attr(n, "src"), ".js"), name)
			assert.True(t, slices.ContainsFunc(n.Attr, func(a html.Attribute) bool { return a.Key == "defer" }), "%s waits for a script", name)
		}
		for n := range root.Descendants() {
			for _, a := range n.Attr {
				assert.False(t, a.Key == "style" || strings.HasPrefix(a.Key, "on"), "%s: %s", name, a.Key)
			}
		}
	}
}

// What every guide says whatever the catalogue holds; the sources stand beside the
// texts.
func TestUsualCautionsAreOnEveryPage(t *testing.T) {
	for name, page := range newSample().pages(t, guide.Options{}) {
		if !isPage(name) {
			continue
		}
		text := words(byID(t, parse(t, page), "safety").Parent)
		for _, what := range []string{
			"Danger An air spring is not a support", "rated stands or props", "release its air", "never welded",
			"brake line", "qualified brake inspector", "chock the wheels", "rated capacity", "vehicle maker’s torque wins",
			"handbook", "rules of your place", "licensed people", "stop and ask " + whom,
		} {
			assert.Contains(t, text, what, name)
		}
	}
}

func TestIndex(t *testing.T) {
	root := parse(t, newSample().pages(t, guide.Options{})["index.html"])
	text := words(byID(t, root, "main"))
	for _, what := range []string{
		"Publisher Wending Ride Parts", "Release 2027-1", "Questions the parts desk, 555 0100",
		"Tarn Chassis Heron 7 2004 to 2008, 2010 to 2011 Rear-engined chassis of mobile libraries. How to tell: The plate behind",
		"Other platforms Wren 2 2009", "all numbers from A to Z",
	} {
		assert.Contains(t, text, what)
	}
	assert.NotContains(t, text, "WD-100", "parts are on the A to Z")
}

// The index of very many platforms lists their names and years.
func TestIndexOfMany(t *testing.T) {
	text := func(platforms int) string {
		s := large(platforms, 15, 1)
		s.Cat.Platforms[1].Summary = "A summary."
		return words(byID(t, parse(t, s.pages(t, guide.Options{})["index.html"]), "main"))
	}
	assert.Contains(t, text(100), "Platform 1 2004 A summary.")
	assert.NotContains(t, text(101), "A summary.")
	assert.Contains(t, text(101), "Tarn Chassis Platform 0 2004 Platform 1 2004 Platform 2 2004")
}

func TestTheSameCatalogueGivesTheSameBytes(t *testing.T) {
	first := newSample().pages(t, guide.Options{})
	for range 5 {
		assert.Equal(t, first, newSample().pages(t, guide.Options{}))
	}
}

func TestPagesComeInOrderAndStopAtAnError(t *testing.T) {
	s := newSample()
	var names []string
	full := errors.New("the disk is full")
	err := pages(s.Cat, s.Guides, guide.Options{}, func(name string, _ []byte) error {
		if names = append(names, name); name == "platforms/wren-2.html" {
			return full
		}
		return nil
	})
	assert.ErrorIs(t, err, full)
	for i, n := range names {
		names[i] = regexp.MustCompile(`\.[0-9a-f]{12}\.`).ReplaceAllString(n, ".")
	}
	assert.Equal(t, []string{"complaint.js", "filter.js", "finder.js", "icon.svg", "line.js", "search.js", "style.css", "assets.json", "index.html", "platforms/heron-7.html", "platforms/wren-2.html"}, names)
}
