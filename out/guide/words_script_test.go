package guide_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"ferrule/out/guide"
)

// keysOf gives what the finder calls what it asks, with its values, and the places.
func keysOf(root *html.Node) (asks map[string][]string, places []string) {
	key := func(n *html.Node) string {
		if k := attr(n, "data-key"); k != "" {
			return k
		}
		return words(n)
	}
	asks = map[string][]string{}
	for _, card := range all(root, func(n *html.Node) bool { return attr(n, "data-ask") != "" }) {
		name := all(card, tag("h4", "span"))[0]
		for _, b := range all(card, tag("b")) {
			if b.Parent == card || has(b.Parent, "data-absent") || b.Parent.Data == "li" {
				value := key(b)
				if has(b, "data-absent") || has(b.Parent, "data-absent") {
					value = "n/a"
				}
				asks[key(name)] = append(asks[key(name)], value)
			}
		}
	}
	for _, place := range all(root, class("place")) {
		for _, h := range all(place, tag("h3")) {
			places = append(places, key(all(h, tag("span"))[0]))
			break
		}
	}
	return asks, places
}

func has(n *html.Node, name string) bool {
	for _, a := range n.Attr {
		if a.Key == name {
			return true
		}
	}
	return false
}

// What the finder's addresses are made of is the workbook's in every language; a page has it where it shows
// something else, and nowhere else.
func TestAddressesHaveTheWorkbooksNames(t *testing.T) {
	for name, s := range map[string]*sample{"heron-7": newSample(), "stork-5": lineSample(t)} {
		speaking(s, func(text string) string { return "‹" + text + "›" }, "fr", "de")
		pages := s.pages(t, guide.Options{})
		own := pages["platforms/"+name+".html"]
		assert.NotContains(t, own, "data-key", "the page shows what addresses have")
		asks, places := keysOf(parse(t, own))
		require.NotEmpty(t, asks)
		require.NotEmpty(t, places)
		delete(asks, "Model year")
		for _, language := range []string{"fr", "de"} {
			page := pages[language+"/platforms/"+name+".html"]
			there, placesThere := keysOf(parse(t, page))
			for _, year := range []string{"Année-modèle", "Modelljahr"} {
				delete(there, year)
			}
			assert.Equal(t, asks, there, language)
			assert.Equal(t, places, placesThere, language)
			assert.Greater(t, strings.Count(page, "data-key"), len(asks), language)
		}
	}
}
