package guide_test

import (
	"encoding/xml"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"ferrule/out/address"
	"ferrule/out/guide"
	"ferrule/out/news"
)

// release makes the pages of a sample on a day after an earlier release.
func release(t *testing.T, s *sample, day string, dated []address.Dated, n *news.News) (map[string]string, []address.Dated) {
	t.Helper()
	s.Cat.Settings.BaseURL = "https://guides.example/a"
	return s.dated(t, guide.Options{Today: day, Dated: dated, News: n})
}

// lastmods reads a sitemap.
func lastmods(t *testing.T, text string) map[string]string {
	t.Helper()
	var doc struct {
		URL []struct {
			Loc     string `xml:"loc"`
			Lastmod string `xml:"lastmod"`
		} `xml:"url"`
	}
	require.NoError(t, xml.Unmarshal([]byte(text), &doc))
	out := map[string]string{}
	for _, u := range doc.URL {
		out[strings.TrimPrefix(u.Loc, "https://guides.example/a/")] = u.Lastmod
	}
	return out
}

// The day of a page stays until the page says something else, over several releases, and whatever
// the frame around it says.
func TestLastmodIsOfTheContent(t *testing.T) {
	first, dated := release(t, newSample(), "2027-03-01", nil, nil)
	valid(t, first["sitemap.xml"])
	all := lastmods(t, first["sitemap.xml"])
	require.NotEmpty(t, all)
	for page, day := range all {
		assert.Equal(t, "2027-03-01", day, page)
	}
	next := newSample()
	next.Cat.Settings.Release = "another name"
	for _, p := range next.Cat.Parts {
		if p.Number == "WD-120" {
			p.Summary = "Something else."
		}
	}
	second, dated := release(t, next, "2027-04-01", dated, nil)
	want := map[string]bool{"parts/wd-120.html": true, "index.html": true} // which says which release it is
	for page, day := range lastmods(t, second["sitemap.xml"]) {
		assert.Equal(t, want[page], day == "2027-04-01", page)
	}
	third, _ := release(t, next, "2027-05-01", dated, nil)
	assert.Equal(t, lastmods(t, second["sitemap.xml"]), lastmods(t, third["sitemap.xml"]))
	plain := newSample().pages(t, guide.Options{})
	assert.NotContains(t, plain["sitemap.xml"], "lastmod", "where nobody says which day it is")
}

// The feed has what RFC 4287 asks for: section 4.1.1 of a feed, 4.1.2 of an entry, 3.3 of dates, 4.2.6 and
// 4.2.7.2 of ids and links.
func TestFeed(t *testing.T) {
	s := newSample()
	n := &news.News{Since: "2026-2", Platforms: []*news.Platform{
		{Name: "Heron 7", Covered: make([]news.Change, 1), Changed: make([]news.Change, 2)}, {Name: "Wren 2", New: true}, {Name: "Old <b>", Gone: true},
	}}
	pages, dated := release(t, s, "2027-03-01", nil, n)
	text := pages["changes.atom"]
	var f struct {
		XMLName xml.Name `xml:"http://www.w3.org/2005/Atom feed"`
		ID      []string `xml:"id"`
		Title   []string `xml:"title"`
		Updated []string `xml:"updated"`
		Author  []struct {
			Name []string `xml:"name"`
		} `xml:"author"`
		Links   []link  `xml:"link"`
		Entries []entry `xml:"entry"`
	}
	require.NoError(t, xml.Unmarshal([]byte(text), &f))
	for _, one := range [][]string{f.ID, f.Title, f.Updated} {
		require.Len(t, one, 1)
		assert.NotEmpty(t, one[0])
	}
	require.Len(t, f.Author, 1)
	require.Len(t, f.Author[0].Name, 1)
	assert.Contains(t, f.Links, link{"self", "application/atom+xml", "https://guides.example/a/changes.atom"})
	_, err := time.Parse(time.RFC3339, f.Updated[0])
	require.NoError(t, err)
	ids := map[string]bool{}
	require.Len(t, f.Entries, 3)
	for _, e := range f.Entries {
		require.Len(t, e.ID, 1)
		require.Len(t, e.Title, 1)
		require.Len(t, e.Updated, 1)
		require.Len(t, e.Links, 1)
		assert.False(t, ids[e.ID[0]], "%s stands twice", e.ID[0])
		ids[e.ID[0]] = true
		_, err := time.Parse(time.RFC3339, e.Updated[0])
		require.NoError(t, err)
		assert.Equal(t, "alternate", e.Links[0].Rel)
		assert.Contains(t, pages, strings.TrimPrefix(e.Links[0].Href, "https://guides.example/a/"))
	}
	assert.Equal(t, "1 place is newly covered. Something else is said of 2 places.", f.Entries[0].Summary)
	assert.Equal(t, "There is a guide for it now.", f.Entries[1].Summary)
	assert.Equal(t, "It is no longer listed.", f.Entries[2].Summary)
	assert.Contains(t, pages["parts/wd-120.html"], `<link rel="alternate" type="application/atom+xml" title="What has changed" href="../changes.atom">`)

	again, _ := release(t, s, "2027-04-01", dated, n)
	assert.Equal(t, text, again["changes.atom"], "the same changes are no news")
	for name, o := range map[string]guide.Options{"no day": {News: n}, "draft": {News: n, Today: "2027-03-01", Draft: true}, "no earlier release": {Today: "2027-03-01"}} {
		pages := s.pages(t, o)
		assert.NotContains(t, pages, "changes.atom", name)
		assert.NotContains(t, pages["index.html"], "changes.atom", name)
	}
}

type link struct {
	Rel  string `xml:"rel,attr"`
	Type string `xml:"type,attr"`
	Href string `xml:"href,attr"`
}

type entry struct {
	ID      []string `xml:"id"`
	Title   []string `xml:"title"`
	Updated []string `xml:"updated"`
	Links   []link   `xml:"link"`
	Summary string   `xml:"summary"`
}

// What stands where no page is leads from the root of the server, at whatever address it comes up.
func TestMissing(t *testing.T) {
	s := newSample()
	for base, root := range map[string]string{"": "", "https://guides.example": "/", "https://guides.example/a&b": "/a&b/"} {
		s.Cat.Settings.BaseURL = base
		page := s.pages(t, guide.Options{})["404.html"]
		tree := parse(t, page)
		assert.Equal(t, "There is no such page", words(all(tree, tag("h1"))[0]))
		for _, n := range all(tree, func(n *html.Node) bool { return n.Data == "a" || n.Data == "link" || n.Data == "script" }) {
			href := attr(n, "href") + attr(n, "src")
			assert.True(t, strings.HasPrefix(href, "#") || strings.HasPrefix(href, root) && !strings.HasPrefix(href, "../"), "%q: %s", base, href)
		}
		assert.Contains(t, page, `<meta name="robots" content="noindex">`)
		assert.NotContains(t, page, "canonical")
	}
}

// Who shows a link to a page is given its picture, by the address that it has on the web.
func TestSharedPictures(t *testing.T) {
	s := illustrated(t)
	shown := 0
	for name, page := range s.pages(t, guide.Options{}) {
		for _, n := range all(parse(t, page), func(n *html.Node) bool { return attr(n, "property") == "og:image" }) {
			shown++
			assert.Regexp(t, `^https://guides\.example/pictures/[0-9a-z-]+\.(png|jpg|webp)$`, attr(n, "content"), name)
		}
	}
	assert.Positive(t, shown)
	s.Cat.Settings.BaseURL = ""
	for name, page := range s.pages(t, guide.Options{}) {
		if isPage(name) {
			assert.NotContains(t, page, "og:image", name)
		}
	}
}
