package guide_test

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/out/guide"
)

// pictured lists the rows of the picture of a place, each as it is read out, the heads before it.
func pictured(place *html.Node) []string {
	var out []string
	for _, m := range all(place, class("map")) {
		for _, row := range all(m, class("row")) {
			for _, bars := range all(row, class("bars")) {
				out = append(out, strings.TrimSpace(strings.Join(texts(all(row, class("lane"))), "")+" | "+attr(bars, "aria-label")))
			}
		}
	}
	return out
}

func TestPictureOfAPlace(t *testing.T) {
	root := parse(t, newSample().pages(t, guide.Options{})["platforms/heron-7.html"])
	got := map[string][]string{}
	for _, place := range all(root, class("place")) {
		if rows := pictured(place); rows != nil {
			got[attr(place, "id")] = rows
		}
	}
	assert.Equal(t, map[string][]string{
		"at-front-damper": {
			"Air beam or Twin arm | 2004\u00a0to\u00a02006: fitted, line 1; 2007\u00a0to\u00a02008: no such vehicle; 2010\u00a0to\u00a02011: no such vehicle",
			"Leaf | 2004\u00a0to\u00a02006: nothing on purpose, line 2; 2007\u00a0to\u00a02008: planned, line 3; 2010\u00a0to\u00a02011: planned, line 3",
		},
		"at-restrictor-left": {
			"1/4 in | 2004\u00a0to\u00a02008: ask first, line 2; 2010\u00a0to\u00a02011: ask first, line 2",
			"3/8 in | 2004\u00a0to\u00a02006: fitted, line 1; 2007\u00a0to\u00a02008: no such vehicle; 2010\u00a0to\u00a02011: no such vehicle",
			"does not apply | 2004\u00a0to\u00a02008: ask first, line 3; 2010\u00a0to\u00a02011: ask first, line 3",
		},
		"at-anti-roll-bar": {"| 2004\u00a0to\u00a02006: ask first, line 1; 2007\u00a0to\u00a02008: ask first, line 2; 2010\u00a0to\u00a02011: ask first, line 2"},
		"at-steering-damper": {
			"1/4 in | 2004: it depends, line 1; 2005\u00a0to\u00a02008: no such place; 2010\u00a0to\u00a02011: no such place",
			"3/8 in | 2004\u00a0to\u00a02006: no such place; 2007\u00a0to\u00a02008: no such vehicle; 2010\u00a0to\u00a02011: no such vehicle",
			"does not apply | 2004\u00a0to\u00a02008: no such place; 2010\u00a0to\u00a02011: no such place",
		},
	}, got)
}

// What cells disagree about, what no cell speaks of and what a check is against are one look, as the
// pages tell no more of them than to ask.
func TestPicturesTellNothingInternal(t *testing.T) {
	for _, change := range []func(*decide.Case){
		func(c *decide.Case) { c.Outcome = model.Conflict },
		func(c *decide.Case) { c.Outcome, c.Alternatives = model.Gap, nil },
		func(c *decide.Case) { c.Unsettled = true },
		func(c *decide.Case) { c.Outcome, c.Alternatives = model.Ask, nil },
	} {
		s := newSample()
		change(&s.Guides[0].Answers[0].Cases[0])
		page := s.pages(t, guide.Options{})["platforms/heron-7.html"]
		assert.Contains(t, pictured(byID(t, parse(t, page), "at-front-damper"))[0], ": ask first, line 1;")
	}
}

// Each vehicle of the demo stands in a row and a run that name the line that is its own, and nobody
// stands where no such vehicle is told.
func TestPicturesAreExact(t *testing.T) {
	s := demoSample(t)
	pages := s.pages(t, guide.Options{})
	told, bare := 0, 0
	for _, g := range s.Guides {
		root := parse(t, pages["platforms/"+strings.ToLower(g.Platform.Name)+".html"])
		every := vehicles(s.Cat, g)
		for _, place := range all(root, class("place")) {
			for _, table := range all(place, class("small")) {
				rows, by := runsOf(t, table)
				seen := map[int]bool{}
				for _, v := range every {
					at := slices.IndexFunc(rows, func(r tableRun) bool { return r.holds(by, v) })
					require.GreaterOrEqual(t, at, 0, "%s: %v", attr(place, "id"), v)
					seen[at] = true
					line := lineOf(g, place, v)
					require.Equal(t, line > 0, slices.Contains(rows[at].lines, line), "%s: line %d of %v in %v", attr(place, "id"), line, v, rows[at])
					told++
				}
				for i, r := range rows {
					assert.Equal(t, seen[i], r.says != "no such vehicle", "%s: %v", attr(place, "id"), r)
					if !seen[i] {
						bare++
					}
				}
			}
		}
	}
	t.Logf("%d vehicles in pictures, %d runs without any", told, bare)
	require.NotZero(t, bare)
	require.Greater(t, told, 1000)
}

// tableRun is a row of the table behind a picture.
type tableRun struct {
	values   string
	names    []string
	but      bool
	from, to int
	says     string
	lines    []int
}

// holds tells whether a vehicle is one of the run.
func (r tableRun) holds(by string, v vehicle) bool {
	year, err := strconv.Atoi(v["Model year"])
	if err != nil || year < r.from || year > r.to {
		return false
	}
	is, has := v[by]
	if !has {
		is = "does not apply"
	}
	if r.values == "any, where it applies" {
		return has
	}
	return r.values == "all" || slices.ContainsFunc(r.names, func(n string) bool { return n == is || within(n, is) }) != r.but
}

func runsOf(t *testing.T, table *html.Node) (out []tableRun, by string) {
	t.Helper()
	head := ""
	for _, tr := range all(table, tag("tr"))[1:] {
		if th := all(tr, tag("th")); len(th) > 0 {
			head = words(th[0])
		}
		td := texts(all(tr, tag("td")))
		r := tableRun{values: head, but: strings.HasPrefix(head, "any but ")}
		listed := strings.TrimPrefix(strings.Replace(head, " and ", "|", 1), "any but ")
		by := texts(all(table, tag("th")))[0]
		r.names = strings.Split(strings.NewReplacer(", or ", "|", " or ", "|", ", ", "|").Replace(listed), "|")
		for i, n := range r.names {
			if strings.HasSuffix(n, " (no "+by+")") {
				r.names[i] = "does not apply"
			}
		}
		if _, err := fmt.Sscanf(td[0], "%d to %d", &r.from, &r.to); err != nil {
			r.from, _ = strconv.Atoi(td[0])
			r.to = r.from
		}
		says, lines, _ := strings.Cut(td[1], ", line")
		r.says = says
		for _, n := range strings.FieldsFunc(lines, func(c rune) bool { return c < '0' || c > '9' }) {
			line, err := strconv.Atoi(n)
			require.NoError(t, err)
			r.lines = append(r.lines, line)
		}
		out = append(out, r)
	}
	return out, texts(all(table, tag("th")))[0]
}

// lineOf gives the line of a place's table that is a vehicle's; 0 where it has no such place.
func lineOf(g *decide.Guide, place *html.Node, v vehicle) int {
	name := words(all(all(place, tag("h3"))[0], tag("span"))[0])
	for _, a := range g.Answers {
		if a.Position.Name == name {
			return 1 + slices.IndexFunc(a.Cases, func(c decide.Case) bool { return inBox(g, v, c.Where) })
		}
	}
	return -1
}

// inBox tells whether a vehicle is in a box of its platform.
func inBox(g *decide.Guide, v vehicle, b model.Box) bool {
	year, _ := strconv.Atoi(v["Model year"])
	if b.Years != nil && !slices.ContainsFunc(b.Years, func(s model.Span) bool { return s.From <= year && year <= s.To }) {
		return false
	}
	return !slices.ContainsFunc(b.Traits, func(t model.TraitSet) bool { return !meets(t, g, v) })
}
