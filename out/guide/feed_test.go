package guide_test

import (
	"encoding/xml"
	"net/url"
	"strings"
	"testing"
	"time"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/guide"
	"ferrule/out/news"
)

const atom = "http://www.w3.org/2005/Atom"

// node is an element of any document.
type node struct {
	XMLName xml.Name
	Attrs   []xml.Attr `xml:",any,attr"`
	Nodes   []node     `xml:",any"`
	Text    string     `xml:",chardata"`
}

func (n node) all(name string) []node {
	var out []node
	for _, below := range n.Nodes {
		if below.XMLName == (xml.Name{Space: atom, Local: name}) {
			out = append(out, below)
		}
	}
	return out
}

func (n node) attr(name string) string {
	for _, a := range n.Attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// atomFaults lists where a feed or an entry of one is not what RFC 4287 asks for.
func atomFaults(n node) []string {
	var out []string
	must := func(ok bool, what string) {
		if !ok {
			out = append(out, n.XMLName.Local+": "+what)
		}
	}
	for _, name := range []string{"id", "title", "updated"} { // 4.1.1 and 4.1.2: exactly one
		must(len(n.all(name)) == 1, "one "+name)
	}
	for _, e := range n.all("id") { // 4.2.6: an absolute IRI, the same letter by letter for ever
		u, err := url.Parse(e.Text)
		must(err == nil && u.IsAbs() && e.Text == strings.TrimSpace(e.Text), "id "+e.Text)
	}
	for _, e := range n.all("updated") { // 3.3: RFC 3339, capitals
		_, err := time.Parse(time.RFC3339, e.Text)
		must(err == nil && e.Text == strings.ToUpper(e.Text), "updated "+e.Text)
	}
	for _, e := range n.all("title") { // 3.1.1.1: text without child elements
		must(strings.TrimSpace(e.Text) != "" && len(e.Nodes) == 0 && (e.attr("type") == "" || e.attr("type") == "text"), "title "+e.Text)
	}
	must(len(n.all("summary")) <= 1, "at most one summary")
	alternates := map[string]bool{}
	for _, e := range n.all("link") { // 4.2.7
		u, err := url.Parse(e.attr("href"))
		must(err == nil && u.IsAbs(), "link "+e.attr("href"))
		if e.attr("rel") == "alternate" {
			kind := e.attr("type") + " " + e.attr("hreflang")
			must(!alternates[kind], "alternate twice for "+kind)
			alternates[kind] = true
		}
	}
	must(len(n.all("content")) > 0 || len(alternates) > 0, "an alternate where there is no content") // 4.1.2; for a feed ours
	return out
}

// Whatever the names of platforms are, the feed has what RFC 4287 asks for and says the names as they are.
func TestFeedsAreAtom(t *testing.T) {
	s := newSample()
	s.Cat.Settings.BaseURL = "https://guides.example/a&b"
	s.Cat.Settings.Publisher = hostile
	s.Cat.Settings.Title = hostile
	s.Cat.Platforms[0].Name = hostile
	n := &news.News{Since: "2026-2", Platforms: []*news.Platform{
		{Name: hostile, Unknown: true}, {Name: "Wren 2", Withdrawn: make([]news.Change, 1)},
		{Name: "Gone & <b>", Gone: true}, {Name: "Gone #2", Gone: true}, {Name: "Gone?2", Gone: true},
	}}
	for _, languages := range [][]string{nil, {"fr", "de"}} {
		s.Cat.Settings.Languages = languages
		pages := s.pages(t, guide.Options{News: n, Today: "2027-03-01"})
		var feed node
		require.NoError(t, xml.Unmarshal([]byte(pages["changes.atom"]), &feed))
		assert.Equal(t, xml.Name{Space: atom, Local: "feed"}, feed.XMLName)
		assert.Equal(t, "en", feed.attr("lang"), "of its texts")
		assert.Empty(t, atomFaults(feed))
		assert.Len(t, feed.all("author"), 1, "4.1.1: of all entries without one")
		self := feed.all("link")[0]
		assert.Equal(t, []string{"self", "https://guides.example/a&b/changes.atom"}, []string{self.attr("rel"), self.attr("href")})
		ids := map[string]bool{feed.all("id")[0].Text: true}
		entries := feed.all("entry")
		require.Len(t, entries, 5)
		for i, e := range entries {
			assert.Empty(t, atomFaults(e))
			assert.False(t, ids[e.all("id")[0].Text], "%s stands twice", e.all("id")[0].Text)
			ids[e.all("id")[0].Text] = true
			title := e.all("title")[0].Text
			assert.False(t, strings.ContainsFunc(title, func(r rune) bool { return unicode.Is(unicode.Bidi_Control, r) || r == '\n' }), title)
			if i > 0 {
				assert.Equal(t, n.Platforms[i].Name, title)
			}
			assert.NotEmpty(t, e.all("summary")[0].Text)
			assert.Contains(t, pages, strings.TrimPrefix(e.all("link")[0].attr("href"), "https://guides.example/a&b/"))
		}
	}
}

// The rules themselves notice what is wrong.
func TestAtomFaults(t *testing.T) {
	var feed node
	require.NoError(t, xml.Unmarshal([]byte(`<feed xmlns="`+atom+`"><id>changes.atom</id><id>urn:x</id><title type="html"> </title><updated>2027-03-01</updated>`+
		`<link rel="alternate" href="x.html"/><link rel="alternate" href="https://guides.example/"/></feed>`), &feed))
	assert.Equal(t, []string{"feed: one id", "feed: id changes.atom", "feed: updated 2027-03-01", "feed: title  ", "feed: link x.html", "feed: alternate twice for  "}, atomFaults(feed))
	feed = node{XMLName: xml.Name{Local: "entry"}}
	assert.Equal(t, []string{"entry: one id", "entry: one title", "entry: one updated", "entry: an alternate where there is no content"}, atomFaults(feed))
}
