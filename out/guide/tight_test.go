package guide_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"ferrule/out/guide"
)

// A number and its unit stand in one element that does not wrap, whoever has written them, and
// nothing else does; what the page says stays the same.
func TestNumbersKeepTheirUnits(t *testing.T) {
	s := newSample()
	s.Cat.Platforms[0].Tell = "Rated at 7.1 t, 10 000 lb or 1 1/2 in. Two of 3 hatches, M12 bolts; HN-7 in front; type 5 &amp; 6."
	root := parse(t, s.pages(t, guide.Options{})["platforms/heron-7.html"])
	is := all(root, class("is"))[0]
	var kept []string
	for _, n := range all(is, class("nb")) {
		kept = append(kept, words(n))
	}
	assert.Equal(t, []string{"7.1 t", "10 000 lb", "1 1/2 in"}, kept)
	assert.Contains(t, words(is), s.Cat.Platforms[0].Tell)
	within := func(n *html.Node) bool {
		for ; n != nil; n = n.Parent {
			if n.Data == "title" || n.Data == "svg" || n.Data == "script" {
				return true
			}
		}
		return false
	}
	for _, n := range all(root, class("nb")) {
		assert.False(t, within(n), words(n))
	}
}

// The words of headings, years, and what is kept together do not break; what would not fit may.
func TestLongWordsOfHeadingsMayBreak(t *testing.T) {
	s := newSample()
	s.Cat.Traits[0].Name = strings.Repeat("W", 30)
	page := s.pages(t, guide.Options{})["platforms/heron-7.html"]
	assert.Contains(t, page, `class="long"`)
	assert.Contains(t, page, `class="word"`)
	css := assetText(t, s.pages(t, guide.Options{}), "style.css")
	assert.Regexp(t, regexp.MustCompile(`thead th:not\(\.long\)[^{}]*\{overflow-wrap:normal\}`), css)
}

// What is folded on a screen stands behind its fold and not in it, so that paper shows it.
func TestNothingIsFoldedAwayFromPaper(t *testing.T) {
	for name, page := range newSample().pages(t, guide.Options{}) {
		if !isPage(name) {
			continue
		}
		for _, fold := range all(parse(t, page), class("fold")) {
			summary := all(fold, tag("summary"))
			require.Len(t, summary, 1, name)
			assert.Equal(t, words(summary[0]), words(fold), "%s: nothing else stands in it", name)
		}
	}
}

// The finder's first question stands in the page, with answers that are addresses.
func TestTheFirstQuestionNeedsNoScript(t *testing.T) {
	root := parse(t, newSample().pages(t, guide.Options{})["platforms/heron-7.html"])
	early := all(root, class("early"))
	require.Len(t, early, 1)
	assert.Contains(t, words(early[0]), "Question 1: Front suspension")
	var ways []string
	for _, a := range all(early[0], class("answer")) {
		ways = append(ways, attr(a, "href"))
	}
	assert.Equal(t, []string{"#?Front%20suspension=Air%20beam", "#?Front%20suspension=Twin%20arm", "#?Front%20suspension=Leaf", "#?Front%20suspension=any"}, ways)
	for _, s := range all(root, tag("script")) {
		assert.Empty(t, attr(s, "blocking"), "a late script must not keep the page from being shown")
	}
}

// A rule leads to the places where it stands, and from there back.
func TestRulesLeadToTheirPlacesAndBack(t *testing.T) {
	root := parse(t, newSample().pages(t, guide.Options{})["platforms/heron-7.html"])
	there := all(byID(t, root, "rule3"), tag("a"))
	assert.Equal(t, "#r2-rule3", attr(there[len(there)-1], "href"))
	back := all(byID(t, root, "r2-rule3"), tag("a"))
	require.NotEmpty(t, back)
	assert.Equal(t, "#rule3", attr(back[0], "href"))
}
