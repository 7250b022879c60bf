package guide_test

import (
	"cmp"
	"encoding/xml"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/address"
	"ferrule/out/guide"
)

// locations reads the addresses of a sitemap or of a list of them.
func locations(t *testing.T, text string) (root string, locs []string) {
	t.Helper()
	var doc struct {
		XMLName xml.Name
		All     []struct {
			Loc string `xml:"loc"`
		} `xml:",any"`
	}
	require.NoError(t, xml.Unmarshal([]byte(text), &doc))
	assert.Equal(t, "http://www.sitemaps.org/schemas/sitemap/0.9", doc.XMLName.Space)
	for _, a := range doc.All {
		locs = append(locs, a.Loc)
	}
	return doc.XMLName.Local, locs
}

// valid holds a sitemap against the schema of the protocol, in the npm package sitemap.
func valid(t *testing.T, text string) {
	t.Helper()
	_, _, modules, missing := tools()
	xmllint, err := exec.LookPath("xmllint")
	if missing != "" || err != nil {
		without(t, cmp.Or(missing, "xmllint"))
	}
	file := filepath.Join(t.TempDir(), "sitemap.xml")
	require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
	out, err := exec.Command(xmllint, "--nonet", "--noout", "--schema", filepath.Join(modules, "sitemap", "schema", "sitemap.xsd"), file).CombinedOutput()
	assert.NoError(t, err, string(out))
}

// The sitemap names every page that may be indexed, and no other.
func TestSitemap(t *testing.T) {
	s := newSample()
	s.Cat.Settings.BaseURL = "https://guides.example/a&b"
	gone := &address.Register{Gone: []address.Page{{Kind: address.KindPart, Name: "WD-90", Page: "parts/wd-90.html", Data: "parts/wd-90.json"}}}
	pages := s.pages(t, guide.Options{Addresses: address.New(s.Cat, gone)})
	valid(t, pages["sitemap.xml"])
	root, got := locations(t, pages["sitemap.xml"])
	assert.Equal(t, "urlset", root)
	var want []string
	for _, name := range sorted(pages) {
		if isPage(name) && name != "parts/wd-90.html" && name != "404.html" {
			want = append(want, "https://guides.example/a&b/"+name)
		}
	}
	assert.Equal(t, want, got)
	assert.Equal(t, "User-agent: *\nDisallow:\n\nSitemap: https://guides.example/a&b/sitemap.xml\n", pages["robots.txt"])
	assert.Contains(t, pages["parts/wd-90.html"], `<meta name="robots" content="noindex">`)
}

// More pages than one sitemap may hold.
func TestManySitemaps(t *testing.T) {
	var names []string
	for i := range 100_001 {
		names = append(names, fmt.Sprintf("parts/q-%d.html", i))
	}
	files := map[string]string{}
	require.NoError(t, guide.WriteSitemap("https://guides.example/", names, func(name string, data []byte) error {
		files[name] = string(data)
		return nil
	}))
	root, list := locations(t, files["sitemap.xml"])
	assert.Equal(t, "sitemapindex", root)
	assert.Equal(t, []string{"https://guides.example/sitemap-1.xml", "https://guides.example/sitemap-2.xml", "https://guides.example/sitemap-3.xml"}, list)
	seen := map[string]bool{}
	for i := range list {
		name := fmt.Sprintf("sitemap-%d.xml", i+1)
		valid(t, files[name])
		assert.LessOrEqual(t, len(files[name]), 52_428_800, "sitemaps.org, protocol 0.9: bytes of a file")
		root, locs := locations(t, files[name])
		assert.Equal(t, "urlset", root)
		assert.LessOrEqual(t, len(locs), 50_000)
		for _, l := range locs {
			assert.Less(t, len(l), 2048, "sitemaps.org, protocol 0.9: letters of an address")
			assert.False(t, seen[l], l)
			seen[l] = true
		}
	}
	assert.Len(t, seen, 100_001)
}

// Without an address there is no sitemap, and a draft has none: it asks on every page not
// to be indexed, and does not keep away those who would read that.
func TestWithoutSitemap(t *testing.T) {
	s := newSample()
	s.Cat.Settings.BaseURL = ""
	bare := s.pages(t, guide.Options{})
	draft := newSample().pages(t, guide.Options{Draft: true})
	for what, pages := range map[string]map[string]string{"no base url": bare, "draft": draft} {
		assert.NotContains(t, pages, "sitemap.xml", what)
		assert.Equal(t, "User-agent: *\nDisallow:\n", pages["robots.txt"], what)
	}
	for name, page := range draft {
		if isPage(name) {
			assert.Contains(t, page, `<meta name="robots" content="noindex">`, name)
			assert.NotContains(t, page, "guides.example", name)
		}
	}
	for name, page := range bare {
		if isPage(name) && name != "404.html" {
			assert.NotContains(t, page, "noindex", name)
			assert.NotContains(t, page, "canonical", name)
			assert.NotContains(t, page, "og:url", name)
		}
	}
}

// Addresses so long that fewer of them make a sitemap as large as one may be.
func TestSitemapsOfLongAddresses(t *testing.T) {
	var names []string
	for i := range 28_000 {
		names = append(names, fmt.Sprintf("parts/q-%d.html", i))
	}
	files := map[string]string{}
	base := "https://guides.example/" + strings.Repeat("d/", 950)
	require.NoError(t, guide.WriteSitemap(base, names, func(name string, data []byte) error {
		files[name] = string(data)
		return nil
	}))
	_, list := locations(t, files["sitemap.xml"])
	assert.Equal(t, []string{base + "sitemap-1.xml", base + "sitemap-2.xml"}, list)
	found := 0
	for name, text := range files {
		assert.LessOrEqual(t, len(text), 50<<20, name)
		found += strings.Count(text, "<url>")
	}
	assert.Equal(t, len(names), found)
}
