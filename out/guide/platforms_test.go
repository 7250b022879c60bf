package guide_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"ferrule/compiler/model"
	"ferrule/out/guide"
)

// fleet is a catalogue of many platforms and nothing else, of so many makers; the name of a
// platform follows from its number.
func fleet(platforms, makers int, name func(int) string) *sample {
	s := newSample()
	s.Cat.Platforms, s.Cat.Parts, s.Cat.References, s.Guides = nil, nil, nil, nil
	for i := range platforms {
		pl := &model.Platform{Index: i, Name: name(i)}
		for y := 1996 + i%14; y <= 2003+i%17; y++ {
			pl.Years = append(pl.Years, y)
		}
		if makers > 0 {
			pl.Maker = fmt.Sprintf("%c%d Chassis", 'Z'-i%makers%26, i%makers)
		}
		s.Cat.Platforms = append(s.Cat.Platforms, pl)
	}
	return s
}

// short is a name of a letter and a number, as many have; long one of some words.
func short(i int) string { return fmt.Sprintf("%c%d", 'A'+i*7%26, 10+i) }

func long(i int) string {
	words := []string{"Heron", "Wren", "Stork", "Crane", "mobile library", "clinic", "low floor", "twin axle", "forward control", "export"}
	var out []string
	for n := i; len(out) < 4; n /= 3 {
		out = append(out, words[(n+len(out)*i)%len(words)])
	}
	return fmt.Sprintf("%s %d", strings.Join(out, " "), 10+i)
}

// Whatever the names and the makers of 2,000 platforms, the index and the A to Z list each
// of them once, have jumps that lead somewhere, and are sent in less than 100 KB.
func TestListsOf2000Platforms(t *testing.T) {
	for what, s := range map[string]*sample{
		"no maker": fleet(2000, 0, short), "30 makers": fleet(2000, 30, short),
		"500 makers": fleet(2000, 500, long), "long names": fleet(2000, 3, long),
	} {
		pages := s.pages(t, guide.Options{})
		for _, name := range []string{"index.html", "a-z.html"} {
			root := section(t, parse(t, pages[name]), "platforms")
			listed := map[string]int{}
			for _, a := range all(root, tag("a")) {
				listed[attr(a, "href")]++
			}
			for i, p := range s.Cat.Platforms {
				assert.Equal(t, 1, listed["platforms/"+strings.ToLower(slugOf(p.Name))+".html"], "%s, %s: platform %d", what, name, i)
			}
			jumps := 0
			for _, nav := range all(root, class("letters")) {
				for _, a := range all(nav, tag("a")) {
					to := byID(t, root, strings.TrimPrefix(attr(a, "href"), "#"))
					assert.Contains(t, []string{"h3", "h4"}, to.Data)
					assert.True(t, strings.HasPrefix(words(to), words(a)), "%s, %s: %s leads to %s", what, name, words(a), words(to))
					jumps++
				}
			}
			assert.Greater(t, jumps, 2, "%s, %s", what, name)
			assert.Len(t, all(root, class("filter")), 1)
			assert.Less(t, sent(t, pages[name]), 100_000, "%s, %s", what, name)
			t.Logf("%s, %s: %d bytes, %d sent, %d jumps", what, name, len(pages[name]), sent(t, pages[name]), jumps)
		}
	}
}

// slugOf is the file of a name that has spaces and nothing else that is not plain.
func slugOf(name string) string { return strings.ReplaceAll(name, " ", "-") }

// By maker on the index, and there by letter where a maker has many platforms; by name on
// the A to Z, which leads to the makers.
func TestJumps(t *testing.T) {
	s := fleet(130, 0, short)
	for i, p := range s.Cat.Platforms {
		if i < 120 {
			p.Maker = []string{"Tarn Chassis", "Otterby"}[i/60]
		}
	}
	s.Cat.Platforms[0].Name = "-"
	pages := s.pages(t, guide.Options{})
	index := section(t, parse(t, pages["index.html"]), "platforms")
	assert.Equal(t, []string{"Otterby Tarn Chassis Other platforms"}, navs(index, "Makers"))
	assert.Equal(t, []string{"Others A B C D E F G H I J K L M N O P Q R S T U V W X Y Z"}, navs(index, "Tarn Chassis by their first character"))
	assert.Empty(t, navs(index, "Platforms by their first character"), "ten of no maker")
	assert.Contains(t, words(index), "Otterby A B C")
	assert.Contains(t, words(byID(t, index, "letter-h-tarn-chassis").Parent), "H H11 ")
	aToZ := section(t, parse(t, pages["a-z.html"]), "platforms")
	assert.Equal(t, []string{"Others A B C D E F G H I J K L M N O P Q R S T U V W X Y Z"}, navs(aToZ, "Platforms by their first character"))
	assert.Contains(t, words(aToZ), "A A36 Tarn Chassis, 2008 to 2012 A62 Tarn Chassis")
	maker := byID(t, aToZ, "maker-otterby")
	assert.Equal(t, "index.html#maker-otterby", attr(all(maker, tag("a"))[0], "href"))
	checkStructure(t, map[string]string{"index.html": pages["index.html"], "a-z.html": pages["a-z.html"]})
}

// navs gives the words of each navigation with a label.
func navs(root *html.Node, label string) []string {
	var out []string
	for _, nav := range all(root, tag("nav")) {
		if attr(nav, "aria-label") == label {
			out = append(out, words(nav))
		}
	}
	return out
}

// Few platforms are seen at a glance; where scripts are off a field would do nothing.
func TestFilterIsForMany(t *testing.T) {
	for platforms, want := range map[int]int{20: 0, 21: 1} {
		pages := fleet(platforms, 2, short).pages(t, guide.Options{})
		for _, name := range []string{"index.html", "a-z.html"} {
			root := parse(t, pages[name])
			fields := all(root, class("filter"))
			require.Len(t, fields, want, "%s of %d", name, platforms)
			assert.Len(t, all(root, func(n *html.Node) bool { return attr(n, "src") == assetName(t, pages, "filter.js") }), want)
			for _, f := range fields {
				assert.Contains(t, f.Attr, html.Attribute{Key: "hidden"})
			}
		}
		fragments := fleet(platforms, 2, short).pages(t, guide.Options{Fragment: true})
		fragment := fragments["index.html"]
		assert.Equal(t, want, strings.Count(fragment, `<script src="`+assetName(t, fragments, "filter.js")+`" defer></script>`))
	}
}
