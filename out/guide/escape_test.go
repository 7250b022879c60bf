package guide_test

import (
	"maps"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"golang.org/x/net/html"

	"ferrule/out/address"
	"ferrule/out/guide"
)

// hostile holds what a workbook cell may hold at worst: markup that closes whatever
// it stands in, scripts, an override of direction that is never closed, an address
// that runs, a template, and length.
const hostile = `</title></style></td></a>"'><script>alert(1)</script><img src=x onerror=alert(2)>` +
	"\u202edrawkcab\u2067 javascript:alert(3) {{.Name}} &amp; <!-- \x00 \x1b[31m\n"

// poison fills every text of the sample. What the binder only lets through as one of
// a few words is left alone, since nothing else can stand there.
func poison(s *sample, text string) {
	words := []string{"Axle", "Side", "Level", "Kind", "BaseURL"}
	fields(s, func(owner reflect.Type, field string, v reflect.Value) {
		if v.Kind() == reflect.String && !slices.Contains(words, field) {
			v.SetString(text)
		}
	})
}

// worst is a sample in which every text is a given one, with a part and a platform that
// have gone, and changes of every kind.
func worst(text string) (*sample, guide.Options) {
	s := newSample()
	poison(s, text)
	earlier := &address.Register{Gone: []address.Page{
		{Kind: address.KindPart, Name: text + "1", Label: text, Page: "parts/gone.html", Data: "parts/gone.json", Status: "withdrawn",
			ReplacedBy: [][]address.Item{{{Part: text, Quantity: 1}, {Part: text + "2", Quantity: 2}}}},
		{Kind: address.KindPlatform, Name: text + "3", Page: "platforms/gone.html", Data: "guides/gone.json"},
	}}
	return s, guide.Options{Addresses: address.New(s.Cat, earlier), News: whatChanged(s, text)}
}

func TestHostileTextIsShownAsText(t *testing.T) {
	s, o := worst("as it was")
	clean := structure(t, s.pages(t, o))
	s, o = worst("\u05d0\u05d1\u05d2") // letters that run to the left, which have elements of their own
	maps.Copy(clean, structure(t, s.pages(t, o)))
	s, o = worst(hostile)
	pages := s.pages(t, o)
	seen := 0
	for name, page := range pages {
		if !isPage(name) {
			continue
		}
		seen++
		root := parse(t, page)
		assert.Contains(t, words(byID(t, root, "main")), "<script>alert(1)</script><img src=x onerror=alert(2)>", name)
		for n := range root.Descendants() {
			if n.Type == html.CommentNode {
				t.Errorf("%s: a comment: %s", name, n.Data)
			}
			if n.Type == html.ElementNode {
				checkElement(t, name, n, clean)
			}
		}
		title := words(all(root, tag("title"))[0])
		assert.False(t, strings.ContainsAny(title, "\u202e\u2067"), "%s: marks of direction in the title", name)
	}
	assert.Equal(t, 18, seen, "index, A to Z, 2 platforms, 9 parts, 2 that have gone, 2 of changes, and what stands where there is no page")
}

// structure lists which attributes each element has on pages of harmless texts.
func structure(t *testing.T, pages map[string]string) map[string]bool {
	seen := map[string]bool{}
	for name, page := range pages {
		if !isPage(name) {
			continue
		}
		for _, n := range all(parse(t, page), func(*html.Node) bool { return true }) {
			seen[n.Data] = true
			for _, a := range n.Attr {
				seen[n.Data+" "+a.Key] = true
			}
		}
	}
	return seen
}

func checkElement(t *testing.T, name string, n *html.Node, clean map[string]bool) {
	t.Helper()
	assert.True(t, clean[n.Data], "%s: <%s> comes from a workbook", name, n.Data)
	for _, a := range n.Attr {
		assert.True(t, clean[n.Data+" "+a.Key], "%s: <%s %s> comes from a workbook", name, n.Data, a.Key)
		switch a.Key {
		case "href", "src", "class", "id":
			if attr(n, "rel") != "canonical" {
				assert.Regexp(t, `^([a-z0-9./# -]*|#\?[A-Za-z0-9%._~-]+=[A-Za-z0-9%._~-]+)$`, a.Val, "%s: %s", name, a.Key)
			}
		}
	}
}

// Direction: every text of a workbook stands in an element that keeps it to itself.
func TestTextKeepsItsDirectionToItself(t *testing.T) {
	s, o := worst("\u202eabc")
	for name, page := range s.pages(t, o) {
		if !isPage(name) {
			continue
		}
		for n := range parse(t, page).Descendants() {
			if n.Type == html.TextNode && strings.Contains(n.Data, "\u202e") {
				contained := false
				for p := n.Parent; p != nil; p = p.Parent {
					contained = contained || p.Data == "bdi" || attr(p, "dir") == "auto"
				}
				assert.True(t, contained, "%s: %q in <%s>", name, n.Data, n.Parent.Data)
			}
		}
	}
}

func TestLongTextIsWhole(t *testing.T) {
	long := strings.Repeat("0123456789", 1000)
	s, o := worst(long)
	for name, page := range s.pages(t, o) {
		assert.LessOrEqual(t, len(name), 120)
		if isPage(name) {
			assert.Contains(t, words(parse(t, page)), long, name)
		}
	}
}

// The base url is the only text of a workbook that becomes an address.
func TestBaseURL(t *testing.T) {
	for setting, want := range map[string]string{
		"https://guides.example":         "https://guides.example/platforms/wren-2.html",
		" http://guides.example/a/b/ ":   "http://guides.example/a/b/platforms/wren-2.html",
		"javascript:alert(1)":            "",
		"//guides.example":               "",
		"guides.example":                 "",
		"https://":                       "",
		"https://a:b@guides.example":     "",
		"https://guides.example/?x=1":    "",
		"https://guides.example/?":       "",
		"https://guides.example/#x":      "",
		"https://:443/":                  "",
		"ftp://guides.example":           "",
		`https://guides.example/"><b>`:   "https://guides.example/%22%3E%3Cb%3E/platforms/wren-2.html",
		"https://guides.example/\x00":    "",
		"https://guides.example:99999x/": "",
	} {
		s := newSample()
		s.Cat.Settings.BaseURL = setting
		root := parse(t, s.pages(t, guide.Options{})["platforms/wren-2.html"])
		got := ""
		for _, l := range all(root, func(n *html.Node) bool { return attr(n, "rel") == "canonical" }) {
			got = attr(l, "href")
		}
		assert.Equal(t, want, got, "%q", setting)
	}
}

// A level that is none of the four cannot make a class of its own.
func TestUnknownLevel(t *testing.T) {
	s := newSample()
	s.Cat.Cautions[0].Level = "x\" onclick=\"alert(1)"
	place := byID(t, parse(t, s.pages(t, guide.Options{})["platforms/heron-7.html"]), "at-front-damper")
	assert.Contains(t, words(place), "Note Let the line cool before you cut it.")
	s.Cat.References[0].Kind = "of old"
	assert.Contains(t, words(parse(t, s.pages(t, guide.Options{})["parts/wd-120.html"])), "Tarn Chassis of old")
}
