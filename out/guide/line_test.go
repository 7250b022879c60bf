package guide_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"ferrule/out/guide"
)

// cellsOf gives the texts of the cells of a place's table, without the row of headings.
func cellsOf(t *testing.T, page, place string) [][]string {
	t.Helper()
	return rows(byID(t, parse(t, page), place))[1:]
}

// Tables, the questions beside them and what follows say ranges; stretches that a rule or
// another place tells apart are one where the same fits.
func TestLinesOnAGuide(t *testing.T) {
	pages := lineSample(t).pages(t, guide.Options{})
	page := pages[stork]
	assert.Equal(t, [][]string{
		{"All", "10001 to 41199", "2 × SD-1 Damper"}, {"All", "41200 to 43999", "2 × SD-2 Damper, firm"}, {"All", "44000 to 46999", "2 × SD-3 Damper, long"},
	}, trimmed(cellsOf(t, page, "at-damper")))
	assert.Equal(t, [][]string{{"All", "2003-01-01 to 2004-03-14", "1 × SV-1 Valve"}, {"All", "2004-03-15 to 2006-12-31", "1 × SV-2 Valve, quick"}}, trimmed(cellsOf(t, page, "at-valve")))
	root := parse(t, page)
	steps := words(all(root, class("steps"))[0])
	for _, want := range []string{"10001 to 41199: 2 × SD-1 so: Brake Drum", "Disc: 2 × SH-2 so: Chassis number 44000 to 46999"} {
		assert.Contains(t, steps, want)
	}
	number := byID(t, root, "trait-chassis-number")
	assert.Equal(t, "serial", attr(number, "data-line"))
	assert.Equal(t, []string{"10001 to 20000", "20001 to 41199", "41200 to 43999", "44000 to 46999"}, texts(all(number, tag("b"))),
		"what is accepted for the staff cuts no stretch of a page")
	assert.NotContains(t, page, "42500")
	assert.Equal(t, "date", attr(byID(t, root, "trait-built"), "data-line"))
	assert.Contains(t, words(byID(t, root, "r1-rule1")), "on: all years Chassis number: 10001 to 20000", "a rule")
	assert.Contains(t, page, `src="../`+assetName(t, pages, "line.js")+`"`)
}

// A guide that asks for neither a number nor a date does without the script for them.
func TestOnlyGuidesWithLinesReadThem(t *testing.T) {
	for name, page := range newSample().pages(t, guide.Options{}) {
		if isPage(name) {
			assert.NotRegexp(t, `line\.[0-9a-f]{12}\.js`, page, name)
			assert.NotContains(t, page, "data-line", name)
		}
	}
}

// The picture of a place has one row for stretches that another place tells apart and this one not.
func TestLanesOfLines(t *testing.T) {
	root := parse(t, lineSample(t).pages(t, guide.Options{})["platforms/egret-1.html"])
	assert.Equal(t, []string{"1 to 40", "41 to 99"}, texts(all(byID(t, root, "at-lamp"), class("lane"))))
}

// What Breaks rule out is among no vehicles of a guide.
func TestVehiclesThatBreaksLeave(t *testing.T) {
	root := parse(t, lineSample(t).pages(t, guide.Options{})[stork])
	assert.Equal(t, "2=0 3=0-3;0=3 3=0-3", attr(byID(t, root, "find"), "data-exist"), "a disc brake has the last stretch alone")
	assert.Equal(t, []string{"all years Brake: Drum", "all years Chassis number: 44000 to 46999"}, texts(all(all(root, class("exist"))[0], tag("li"))))
}

// Part pages read the ranges back from where offers are kept, letters included.
func TestLinesOfAPart(t *testing.T) {
	pages := lineSample(t).pages(t, guide.Options{})
	uses := words(byID(t, parse(t, pages["parts/sd-1.html"]), "main"))
	for _, want := range []string{"all years Chassis number: 10001 to 41199 so: Brake Drum", "all years Chassis number: A100 to A499", "Take care where Chassis number is 10001 to 20000"} {
		assert.Contains(t, uses, want)
	}
	assert.Contains(t, words(byID(t, parse(t, pages["parts/sd-2.html"]), "main")), "all years Chassis number: A500 to A999 or B100 to B450")
	assert.Contains(t, words(byID(t, parse(t, pages["parts/sv-1.html"]), "main")), "all years Built: 2003-01-01 to 2004-03-14, or does not apply")
}

// The A to Z and the search name what numbers there are on all platforms.
func TestLinesInTheAToZ(t *testing.T) {
	pages := lineSample(t).pages(t, guide.Options{})
	root := parse(t, pages["a-z.html"])
	number := byID(t, root, "trait-chassis-number")
	assert.Equal(t, "1 to 99, 10001 to 46999, A100 to A999 or B100 to B450.", following(number, "p", 2))
	for _, a := range all(root, tag("a")) {
		if strings.HasSuffix(attr(a, "href"), "#trait-chassis-number") {
			file, anchor, _ := strings.Cut(attr(a, "href"), "#")
			require.NotNil(t, byID(t, parse(t, pages[file]), anchor), "the guide that asks for it")
		}
	}
	assert.Contains(t, pages["search/0.js"], "1 to 99, 10001 to 46999, A100 to A999, B100 to B450")
}

func trimmed(rows [][]string) [][]string {
	for _, r := range rows {
		for i := range r {
			r[i], _, _ = strings.Cut(r[i], " SD-1: Take care")
		}
	}
	return rows
}

func texts(nodes []*html.Node) []string {
	var out []string
	for _, n := range nodes {
		out = append(out, words(n))
	}
	return out
}

// following gives the text of the nth element of a kind behind another.
func following(n *html.Node, kind string, nth int) string {
	for n = n.NextSibling; n != nil; n = n.NextSibling {
		if n.Type == html.ElementNode && n.Data == kind {
			if nth--; nth == 0 {
				return words(n)
			}
		}
	}
	return ""
}
