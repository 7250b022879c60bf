package guide_test

import (
	"encoding/json"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"golang.org/x/net/html"

	"ferrule/out/guide"
)

// absolutes lists what on a page is an address on some server, each with what it stands in: attributes
// that hold addresses, and texts that search engines read as such.
func absolutes(t *testing.T, page string) map[string][]string {
	t.Helper()
	out := map[string][]string{}
	add := func(in, address string) {
		if u, err := url.Parse(strings.TrimSpace(address)); assert.NoError(t, err) && (u.Scheme != "" || u.Host != "") {
			out[in] = append(out[in], address)
		}
	}
	for _, n := range all(parse(t, page), func(n *html.Node) bool { return n.Type == html.ElementNode }) {
		in := strings.TrimSpace(n.Data + " " + attr(n, "rel") + attr(n, "property"))
		for _, a := range n.Attr {
			switch {
			case a.Key == "srcset":
				for one := range strings.SplitSeq(a.Val, ",") {
					file, _, _ := strings.Cut(strings.TrimSpace(one), " ")
					add(in, file)
				}
			case a.Key == "href" || a.Key == "src" || a.Key == "action" || a.Key == "data" || a.Key == "poster",
				a.Key == "content" && (strings.HasSuffix(in, "og:url") || strings.HasSuffix(in, "og:image")):
				add(in, a.Val)
			case a.Key == "content" && attr(n, "http-equiv") == "refresh":
				_, to, _ := strings.Cut(a.Val, "url=")
				add(in, to)
			}
		}
	}
	if p := product(t, page); p != nil {
		for _, name := range []string{"url", "image"} {
			if address, ok := p[name].(string); ok {
				add("product "+name, address)
			}
		}
	}
	return out
}

// said are the samples whose pages hold every kind of address: pictures, languages, what has changed.
func said(t *testing.T, base string) map[string]map[string]string {
	shown, spoken := illustrated(t), newSample()
	speaking(spoken, func(text string) string { return "fr " + text }, "fr", "de")
	out := map[string]map[string]string{}
	for name, s := range map[string]*sample{"pictures": shown, "languages": spoken} {
		s.Cat.Settings.BaseURL = base
		out[name] = s.pages(t, guide.Options{News: whatChanged(s, ""), Today: "2027-03-01"})
		s.Cat.Settings.BaseURL = "https://guides.example"
		out[name+" of a draft"] = s.pages(t, guide.Options{News: whatChanged(s, ""), Today: "2027-03-01", Draft: true})
	}
	return out
}

// TestAbsoluteAddresses holds that pages have absolute addresses where these are asked for (canonical, languages,
// og:url, og:image, JSON-LD), only there, only where Settings say where the pages will stand, and each of a file
// that is published.
func TestAbsoluteAddresses(t *testing.T) {
	const base = "https://guides.example/a&b/"
	used := map[string]bool{}
	for name, pages := range said(t, base) {
		for file, page := range pages {
			if !isPage(file) {
				continue
			}
			for in, addresses := range absolutes(t, page) {
				used[in] = true
				for _, a := range addresses {
					path, ours := strings.CutPrefix(a, base)
					assert.True(t, ours, "%s: %s has %s in %s", name, file, a, in)
					assert.Contains(t, pages, path, "%s: %s leads nowhere in %s", name, file, in)
					assert.NotContains(t, name, "draft", "%s has %s in %s", file, a, in)
				}
			}
		}
	}
	want := map[string]bool{"link canonical": true, "link alternate": true, "meta og:url": true, "meta og:image": true, "product url": true, "product image": true}
	assert.Equal(t, want, used)
	for name, pages := range said(t, "") {
		for file, page := range pages {
			if isPage(file) {
				assert.Empty(t, absolutes(t, page), "%s: %s", name, file)
				p := product(t, page)
				assert.NotContains(t, p, "url", file)
				assert.NotContains(t, p, "image", file)
				assert.NotContains(t, meta(t, page), "og:image", file)
			}
		}
	}
}

// ourNames are addresses that stand for names, and that nobody follows: of vocabularies and namespaces.
var ourNames = regexp.MustCompile(`https?://(schema\.org|www\.w3\.org/(2000/svg|1999/xhtml|2005/Atom)|www\.sitemaps\.org/schemas/sitemap/0\.9)\b`)

// Whatever kind of file, nothing in one is an address where nobody knows where the files will stand.
func TestNoFileHasAnAddressByItself(t *testing.T) {
	web := regexp.MustCompile(`(?i)(https?:)?(\\?/){2}[a-z0-9.-]+\.[a-z]+`)
	for name, pages := range said(t, "") {
		for file, text := range pages {
			if strings.HasPrefix(file, "pictures/") {
				continue
			}
			assert.Empty(t, web.FindAllString(ourNames.ReplaceAllString(text, ""), -1), "%s: %s", name, file)
		}
	}
}

// Who shows a link to a page knows what Open Graph asks for (https://ogp.me: og:title, og:type, og:url, og:image; a picture
// with its size and what it shows), each once; a page that has no picture of its own says none.
func TestOpenGraphOfPages(t *testing.T) {
	pictures := 0
	for name, pages := range said(t, "https://guides.example") {
		for file, page := range pages {
			if !isPage(file) || strings.HasSuffix(file, "404.html") {
				continue
			}
			m := meta(t, page)
			for _, key := range []string{"og:title", "og:type", "og:site_name"} {
				assert.NotEmpty(t, m[key], "%s: %s %s", name, file, key)
			}
			if strings.Contains(name, "draft") {
				assert.NotContains(t, m, "og:url", file)
				assert.NotContains(t, m, "og:image", file)
				continue
			}
			assert.Equal(t, "https://guides.example/"+file, m["og:url"], name)
			if m["og:image"] == "" {
				assert.NotContains(t, m, "og:image:alt", file)
				continue
			}
			pictures++
			assert.NotEmpty(t, m["og:image:alt"], file)
			for _, key := range []string{"og:image:width", "og:image:height"} {
				assert.Regexp(t, `^[1-9]\d*$`, m[key], file)
			}
		}
	}
	assert.Positive(t, pictures)
}

// JSON-LD of a page in a language says the page of that language, and the data are one object.
func TestProductsOfLanguages(t *testing.T) {
	v := readVocabulary(t)
	products := 0
	for file, page := range said(t, "https://guides.example")["languages"] {
		if !isPage(file) {
			continue
		}
		if p := product(t, page); p != nil {
			products++
			assert.Equal(t, "https://guides.example/"+file, p["url"])
			assert.Empty(t, v.faults(p, map[string]bool{}), file)
			text, err := json.Marshal(p)
			assert.NoError(t, err)
			assert.NotContains(t, string(text), "null", file)
		}
	}
	assert.Greater(t, products, 3*5)
}
