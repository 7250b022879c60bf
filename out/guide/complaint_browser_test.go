package guide_test

import (
	"maps"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/out/guide"
)

// complained is what testdata/browser/complaint.mjs prints.
type complained struct {
	Off []struct {
		Page, Name, Place string
		Height            float64
		Says              []string
	}
	On []struct {
		Page, Hash string
		Places     map[string][]struct {
			Place, Fit string
			Way        bool
		}
		Looks, Listed []string
		First         bool
	}
	Messages, Violations []string
}

type complaintPage struct {
	Page string   `json:"page"`
	Told []string `json:"told"`
}

// Without scripts a complaint leads to what fits at each of its places, or to a stop, by two taps; with
// scripts it shows the places of the vehicle that was told, in their order, with what fits there, and
// the list of parts begins with what to look at on it.
func TestComplaintsInBrowser(t *testing.T) {
	demo := demoSample(t)
	dir := t.TempDir()
	write(t, dir, demo.pages(t, guide.Options{}))
	r := rand.New(rand.NewPCG(7, 7))
	var ask []complaintPage
	var told []vehicle
	var of []*decide.Guide
	guides := demo.Guides
	if os.Getenv("CI") == "" {
		guides = guides[:2] // all five take a minute and a half
	}
	for _, g := range guides {
		all := vehicles(demo.Cat, g)
		page := complaintPage{Page: pageOf(g), Told: []string{}}
		for _, i := range r.Perm(len(all))[:min(6, len(all))] {
			v := full(g, all[i])
			told, of, page.Told = append(told, all[i]), append(of, g), append(page.Told, fragment(r, demo.Cat, g.Platform, v))
		}
		ask = append(ask, page)
	}
	var got complained
	play(t, "complaint.mjs", ask, &got, dir)
	assert.Empty(t, got.Messages)
	assert.Empty(t, got.Violations)
	assert.Greater(t, len(got.Off), 5*len(ask))
	for _, at := range got.Off {
		assert.GreaterOrEqual(t, at.Height, 44.0, "%s: %s", at.Page, at.Place)
		assert.NotEmpty(t, at.Says, "%s: %s at %s leads to no table", at.Page, at.Name, at.Place)
		assert.NotContains(t, at.Says, "", "%s: a line of %s says nothing", at.Page, at.Place)
	}
	require.Len(t, got.On, len(told))
	for i, on := range got.On {
		g, v := of[i], told[i]
		want := map[string][]string{}
		for _, u := range g.Complaints {
			list := want[u.Row.Name]
			for _, p := range u.Places {
				if holdsFor(p.Where, g, v) {
					list = append(list, p.Position.Name)
				}
			}
			want[u.Row.Name] = list
		}
		assert.Equal(t, slices.Sorted(maps.Keys(want)), slices.Sorted(maps.Keys(on.Places)), on.Hash)
		for name, list := range want {
			var places []string
			for _, p := range on.Places[name] {
				places = append(places, p.Place)
				assert.True(t, p.Fit != "" || p.Way, "%s: %s says nothing", on.Hash, p.Place)
			}
			assert.Equal(t, list, places, "%s %s: %s", on.Page, on.Hash, name)
		}
		var looks []string
		for _, u := range g.Inspections {
			if holdsFor(u.Where, g, v) {
				looks = append(looks, u.Row.Look)
			}
		}
		assert.Equal(t, looks, on.Looks, on.Hash)
		if on.Listed != nil {
			assert.Equal(t, looks, on.Listed, on.Hash)
		}
		assert.True(t, on.First, "the list of parts begins with what to look at")
	}
}

// holdsFor tells whether a vehicle is in one of some boxes; no boxes hold everything.
func holdsFor(boxes []model.Box, g *decide.Guide, v vehicle) bool {
	year, _ := strconv.Atoi(v["Model year"])
	return len(boxes) == 0 || slices.ContainsFunc(boxes, func(b model.Box) bool {
		in := b.Years == nil || slices.ContainsFunc(b.Years, func(s model.Span) bool { return s.From <= year && year <= s.To })
		return in && !slices.ContainsFunc(b.Traits, func(c model.TraitSet) bool { return !meets(c, g, v) })
	})
}
