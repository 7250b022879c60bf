package guide_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/tidy/share"
	"ferrule/out/guide"
)

// What the page of a part shows at a glance is true of every vehicle of the demo.
func TestPartPicturesAreExact(t *testing.T) {
	s := demoSample(t)
	pages := s.pages(t, guide.Options{})
	guides, every := map[string]*decide.Guide{}, map[string][]vehicle{}
	for _, g := range s.Guides {
		guides[g.Platform.Name], every[g.Platform.Name] = g, vehicles(s.Cat, g)
	}
	seen := map[string]int{}
	step := max(1, share.Step(t)/2)
	for i := 0; i < len(s.Cat.Parts); i += step {
		p := s.Cat.Parts[i]
		root := parse(t, pages["parts/"+strings.ToLower(p.Number)+".html"])
		for _, m := range all(root, class("map")) {
			href := attr(all(m, tag("a"))[0], "href")
			file, _, _ := strings.Cut(strings.TrimPrefix(href, "../platforms/"), ".html")
			g := guides[strings.ToUpper(file)]
			require.NotNil(t, g, href)
			place := words(all(m, tag("a"))[0])
			runs, by := runsOf(t, all(m, class("small"))[0])
			hits, misses := make([]int, len(runs)), make([]int, len(runs))
			for _, v := range every[g.Platform.Name] {
				at := slices.IndexFunc(runs, func(r tableRun) bool { return r.holds(by, v) })
				require.GreaterOrEqual(t, at, 0, "%s: %v", href, v)
				if offeredTo(g, place, p, v) {
					hits[at]++
				} else {
					misses[at]++
				}
			}
			for i, r := range runs {
				seen[r.says]++
				want := map[[2]bool]string{{true, false}: "fits", {true, true}: "fits some of them", {false, true}: "not offered", {}: "no such vehicle"}
				assert.Equal(t, want[[2]bool{hits[i] > 0, misses[i] > 0}], r.says, "%s at %s: %v", p.Number, href, r)
			}
		}
	}
	t.Log(seen)
	require.Len(t, seen, 4)
}

// offeredTo tells whether a part, or a kit with it, is offered at a place of a vehicle.
func offeredTo(g *decide.Guide, place string, p *model.Part, v vehicle) bool {
	for _, a := range g.Answers {
		if a.Position.Name != place {
			continue
		}
		for _, c := range a.Cases {
			if inBox(g, v, c.Where) && c.Outcome == model.Fitted && !c.Withheld() {
				return slices.ContainsFunc(c.Alternatives, func(a model.Alternative) bool {
					return slices.ContainsFunc(a, func(i model.Item) bool { return holdsPart(i.Part, p) })
				})
			}
		}
	}
	return false
}

func holdsPart(kit, p *model.Part) (in bool) {
	kit.Within(func(o *model.Part) { in = in || o == p })
	return in
}
