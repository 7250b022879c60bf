package guide_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"ferrule/compiler/model"
	"ferrule/out/guide"
)

// Each place is a tree of answers, and each way ends at what fits, with the lines that
// say so.
func TestPlaceByPlace(t *testing.T) {
	root := parse(t, newSample().pages(t, guide.Options{})["platforms/heron-7.html"])
	list := all(root, class("steps"))[0]
	var got []string
	for _, li := range all(list, func(n *html.Node) bool { return attr(n, "data-at") != "" }) {
		got = append(got, attr(li, "data-at")+": "+words(li))
	}
	assert.Equal(t, []string{
		"at-front-damper: 1 Front damper Model year 2004 to 2006 Front suspension " +
			"Air beam or Twin arm: 2 × WD-120 or 2 × WD-110 Leaf: nothing is fitted here 2007 to 2008, 2010 to 2011: a part is planned so: Front suspension Leaf",
		"at-restrictor-left: 2 Restrictor left Front air line 1/4 in: find out first 3/8 in: 1 × WR-38 so: 2004 to 2006 does not apply: not listed: ask",
		"at-restrictor-right: 3 Restrictor right supplied by the item at Restrictor left supplied by the item at Restrictor left",
		"at-anti-roll-bar: 4 Anti-roll bar not settled: ask not settled: ask",
		"at-bell-crank: 5 Bell crank: read the table",
		"at-steering-damper: 6 Steering damper Front suspension Air beam: looking does not tell which line is yours: it depends on Lift axle. " +
			"Order nothing before, and ask " + whom + ". line 1 so: 2004 to 2006 Twin arm or Leaf: no such place on your vehicle",
	}, got)
	links := map[string]string{}
	for _, a := range all(list, tag("a")) {
		links[words(a)] = attr(a, "href")
	}
	assert.Equal(t, "#r1-1", links["2 × WD-120 or 2 × WD-110"])
	assert.Equal(t, "#r1-3", links["a part is planned"])
	assert.Equal(t, "#r6-1", links["line 1"])
	assert.Contains(t, words(byID(t, root, "r2-2")), "Measure the tube.")
	assert.Equal(t, "0=0-2 1=0-1;0=0-6 1=2 2=0,2", attr(byID(t, root, "find"), "data-exist"))
}

// A way without numbers is the one of its place among the ways.
func TestWaysAreNumberedByTheAnswers(t *testing.T) {
	root := parse(t, newSample().pages(t, guide.Options{})["platforms/heron-7.html"])
	numbers := map[string]string{}
	for _, li := range all(all(root, class("steps"))[0], tag("li")) {
		if len(all(li, tag("details"))) == 0 {
			numbers[words(li)] = attr(li, "data-v")
		}
	}
	assert.Equal(t, "0-1", numbers["Air beam or Twin arm: 2 × WD-120 or 2 × WD-110"])
	assert.Equal(t, "2", numbers["Leaf: nothing is fitted here"])
	assert.Equal(t, "3-6", numbers["2007 to 2008, 2010 to 2011: a part is planned so: Front suspension Leaf"])
	assert.Equal(t, "", numbers["1/4 in: find out first"], "value 0 of way 0")
	assert.Equal(t, "", numbers["3/8 in: 1 × WR-38 so: 2004 to 2006"], "value 1 of way 1")
}

func TestHiddenTraitSaysWhatToFindOut(t *testing.T) {
	s := newSample()
	lift := s.Cat.Traits[3]
	place := func() string {
		return words(all(parse(t, s.pages(t, guide.Options{})["platforms/heron-7.html"]), class("hid"))[0])
	}
	lift.Kind = model.Size
	assert.Contains(t, place(), "it depends on Lift axle. Measure it. Order nothing before")
	lift.Question = "Does a third axle lift?"
	assert.Contains(t, place(), "it depends on Lift axle. Does a third axle lift? Order nothing before")
}

func TestPlanOfTheChassis(t *testing.T) {
	root := parse(t, newSample().pages(t, guide.Options{})["platforms/heron-7.html"])
	plan := all(root, class("plan"))
	require.Len(t, plan, 1)
	assert.Equal(t, "group", attr(plan[0], "role"), "what is in an img cannot be reached")
	assert.Contains(t, attr(plan[0], "aria-label"), "seen from above")
	at := map[string][]string{}
	for _, g := range all(plan[0], class("spot")) {
		circle := all(g, tag("circle"))[0]
		at[attr(g, "data-n")] = append(at[attr(g, "data-n")], attr(circle, "cx"))
		place := byID(t, root, strings.TrimPrefix(attr(g, "href"), "#"))
		assert.Contains(t, attr(g, "aria-label"), attr(g, "data-n")+" "+words(all(all(place, tag("h3"))[0], tag("span"))[0]))
	}
	assert.Equal(t, "1 Front damper, left side", attr(all(plan[0], class("spot"))[0], "aria-label"))
	assert.Equal(t, map[string][]string{"1": {"62", "158"}, "2": {"62"}, "3": {"158"}, "4": {"110"}, "5": {"110"}, "6": {"110"}}, at,
		"both sides, left, right, and in the middle")

	s := newSample()
	for _, p := range s.Cat.Positions {
		p.Axle = ""
	}
	root = parse(t, s.pages(t, guide.Options{})["platforms/heron-7.html"])
	assert.Empty(t, all(root, class("plan")), "no place says its axle")
}

// A code that comes round within the platform's years stands for two of them.
func TestYearCodeThatStandsForTwoYears(t *testing.T) {
	s := newSample()
	s.Cat.Platforms[1].Years = []int{1979, 1980, 2010}
	card := words(byID(t, parse(t, s.pages(t, guide.Options{})["platforms/wren-2.html"]), "years").Parent)
	assert.Contains(t, card, "go by the years of this platform. A stands for two of them: ask. 1979 1980 (A) 2010 (A)")
	s.Cat.Platforms[1].Years = []int{1978}
	card = words(byID(t, parse(t, s.pages(t, guide.Options{})["platforms/wren-2.html"]), "years").Parent)
	assert.NotContains(t, card, "VIN, below")
}
