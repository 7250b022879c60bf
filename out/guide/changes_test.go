package guide_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/model"
	"ferrule/out/address"
	"ferrule/out/guide"
	"ferrule/out/news"
)

// whatChanged is news about the sample with every kind of answer. text stands where the
// earlier release has texts of its own.
func whatChanged(s *sample, text string) *news.News {
	damper, nowhere := s.Cat.Positions[0].Name, s.Cat.Positions[6].Name
	box := model.Box{Years: []model.Span{{From: 2004, To: 2006}}, Traits: []model.TraitSet{{Trait: s.Cat.Traits[0], Values: set(0, 1)}}}
	old := &model.Part{Number: text + "WD-90", Name: text}
	oldKit := &model.Part{Number: s.Cat.Parts[4].Number, Contents: []model.Component{{Part: old, Quantity: 3}}}
	fits := func(q int, parts ...*model.Part) news.Answer {
		a := news.Answer{Exists: true, Settled: true, Outcome: model.Fitted}
		for _, p := range parts {
			a.Alternatives = append(a.Alternatives, one(q, p))
		}
		return a
	}
	is := func(o model.Outcome) news.Answer { return news.Answer{Exists: true, Settled: true, Outcome: o} }
	all := news.Vehicles{Where: []model.Box{{}}}
	some := news.Vehicles{Where: []model.Box{box}}
	many := news.Vehicles{More: true}
	for range 30 {
		many.Where = append(many.Where, box)
	}
	return &news.News{Since: "2026-4" + text,
		Renames: []news.Rename{{What: "value", Trait: text + "Levelling", Old: text + "Mech", New: text + "Mechanical"}},
		Platforms: []*news.Platform{
			{Name: s.Cat.Platforms[0].Name, Unknown: true, Asked: []string{text + "Lift axle"}, Unasked: []string{text + "Tag axle"},
				Appeared: &some, Vanished: &many,
				Covered:   []news.Change{{Position: damper, Vehicles: some, Before: is(model.Gap), Now: fits(2, s.Cat.Parts[2])}},
				Changed:   []news.Change{{Position: nowhere, Vehicles: all, Before: fits(1, old, oldKit), Now: is(model.Ask)}, {Position: damper, Vehicles: many, Before: is(model.Planned), Now: is(model.None)}},
				Withdrawn: []news.Change{{Position: text + "Position of old", Vehicles: some, Before: news.Answer{Exists: true, Settled: true, Outcome: model.Fitted, With: s.Cat.Positions[0]}, Now: news.Answer{}}, {Position: damper, Vehicles: some, Before: fits(1, old), Now: news.Answer{Exists: true, Outcome: model.Conflict}}}},
			{Name: s.Cat.Platforms[1].Name, New: true, Appeared: &all},
			{Name: text + "Heron 6", Gone: true, Vanished: &all},
		}}
}

// TestOtherVehicles holds that the list says of each platform whether others of its
// vehicles are listed than were, be it more or fewer.
func TestOtherVehicles(t *testing.T) {
	s := newSample()
	some := &news.Vehicles{Where: []model.Box{{}}}
	for _, c := range []struct {
		appeared, vanished *news.Vehicles
		want               string
	}{{some, nil, "others are listed"}, {nil, some, "others are listed"}, {nil, nil, "the same"}} {
		pages := s.pages(t, guide.Options{News: &news.News{Since: "2026-4",
			Platforms: []*news.Platform{{Name: s.Cat.Platforms[0].Name, Appeared: c.appeared, Vanished: c.vanished}}}})
		assert.Equal(t, []string{"Heron 7", "none", "none", "none", c.want}, rows(section(t, parse(t, pages["changes.html"]), "changed"))[1])
	}
}

func TestChanges(t *testing.T) {
	s := newSample()
	pages := s.pages(t, guide.Options{News: whatChanged(s, "")})
	root := parse(t, pages["changes.html"])
	assert.Equal(t, [][]string{
		{"Platform", "Newly covered", "Changed", "Withdrawn", "Vehicles"},
		{"Heron 7", "1", "2", "2", "others are listed"},
	}, rows(section(t, root, "changed")))
	assert.Equal(t, "New guides Wren 2", words(section(t, root, "new")))
	assert.Equal(t, "Platforms that are no longer listed Heron 6", words(section(t, root, "gone")))
	assert.Equal(t, "Other names The value Mech of Levelling is called Mechanical now.", words(section(t, root, "names")))
	assert.Contains(t, words(byID(t, root, "main")), "did not say in release 2026-4.")

	root = parse(t, pages["changes/heron-7.html"])
	vehicles := "2004 to 2006, Front suspension Air beam or Twin arm"
	assert.Equal(t, [][]string{{"Place", "Vehicles", "Before", "Now"},
		{"Front damper", vehicles, "not listed", "2 × WD-120 Front damper, long travel"}}, rows(section(t, root, "covered")))
	changed := rows(section(t, root, "changed"))
	assert.Equal(t, []string{"Tag damper", "all that were listed before and are listed now",
		"First choice 1 × WD-90 or 1 × WK-9 Steering damper kit Kit of: 3 × WD-90", "to be found out"}, changed[1])
	assert.Equal(t, []string{"Front damper", "a part is planned", "nothing is fitted"}, []string{changed[2][0], changed[2][2], changed[2][3]})
	assert.Len(t, all(section(t, root, "changed"), tag("li")), 21+1, "20 boxes, 'and others', and the kit's bag")
	assert.Equal(t, [][]string{{"Place", "Vehicles", "Before", "Now"},
		{"Position of old", vehicles, "supplied by the item at Front damper", "no such place"},
		{"Front damper", vehicles, "1 × WD-90", "not settled"}}, rows(section(t, root, "withdrawn")))
	text := words(section(t, root, "vehicles"))
	assert.Contains(t, text, "apart by Lift axle now. The guide no longer tells vehicles apart by Tag axle. Listed now "+vehicles+" No longer listed")
	assert.Contains(t, words(root), "Not everything could be compared")

	assert.Contains(t, pages["index.html"], `<a href="changes.html">`)
	assert.Contains(t, pages["platforms/heron-7.html"], `<a href="../changes/heron-7.html">`)
	assert.NotContains(t, pages["platforms/wren-2.html"], "changes", "a new guide has not changed")
	require.NotContains(t, pages, "changes/wren-2.html")
	checkLinks(t, pages, "https://guides.example/")
	checkStructure(t, pages)
}

// What the pages about changes name is led to.
func TestChangesLead(t *testing.T) {
	s := newSample()
	n := whatChanged(s, "")
	n.Platforms[0].Asked = []string{"Lift axle", "Tee at air spring", "Front air line"}
	n.Renames = append(n.Renames, news.Rename{What: "platform", Old: "Heron VII", New: "Heron 7"}, news.Rename{What: "part", Old: "WD-90", New: "WD-120"},
		news.Rename{What: "trait", Old: "Air line", New: "Front air line"}, news.Rename{What: "position", Old: "Damper", New: "Front damper"})
	earlier := &address.Register{Gone: []address.Page{{Kind: address.KindPlatform, Name: "Heron 6", Page: "platforms/heron-6.html", Data: "guides/Heron-6.json"}}}
	pages := s.pages(t, guide.Options{News: n, Addresses: address.New(s.Cat, earlier)})
	leads := func(page, section string) map[string]string {
		out := map[string]string{}
		for _, a := range all(byID(t, parse(t, pages[page]), section).Parent, tag("a")) {
			out[words(a)] = attr(a, "href")
		}
		return out
	}
	assert.Equal(t, map[string]string{"Heron 6": "platforms/heron-6.html"}, leads("changes.html", "gone"))
	assert.Equal(t, map[string]string{"Heron 7": "platforms/heron-7.html", "WD-120": "parts/wd-120.html", "Mechanical": "a-z.html#trait-levelling",
		"Front air line": "a-z.html#trait-front-air-line"}, leads("changes.html", "names"))
	assert.Equal(t, map[string]string{"Front air line": "../platforms/heron-7.html#trait-front-air-line", "Lift axle": "../platforms/heron-7.html#trait-lift-axle"},
		leads("changes/heron-7.html", "vehicles"), "the guide does not tell how to see the third")
	checkStructure(t, pages)
}

// The list says of which platforms other vehicles are listed: more, fewer, or both.
func TestChangesOfVehicles(t *testing.T) {
	s := newSample()
	some := &news.Vehicles{Where: []model.Box{{Years: []model.Span{{From: 2004, To: 2006}}}}}
	for _, c := range []struct {
		appeared, vanished *news.Vehicles
		want               string
	}{{some, some, "others are listed"}, {some, nil, "others are listed"}, {nil, some, "others are listed"}, {nil, nil, "the same"}} {
		n := &news.News{Platforms: []*news.Platform{{Name: s.Cat.Platforms[0].Name, Appeared: c.appeared, Vanished: c.vanished}}}
		root := parse(t, s.pages(t, guide.Options{News: n})["changes.html"])
		assert.Equal(t, []string{"Heron 7", "none", "none", "none", c.want}, rows(section(t, root, "changed"))[1])
	}
}

// Without an earlier release nothing is said of changes; without any change the page says
// so.
func TestNoChanges(t *testing.T) {
	for name, page := range newSample().pages(t, guide.Options{}) {
		assert.NotContains(t, name, "changes")
		if isPage(name) {
			assert.NotContains(t, page, "changes", name)
		}
	}
	pages := newSample().pages(t, guide.Options{News: &news.News{}})
	assert.Contains(t, words(parse(t, pages["changes.html"])), "did not say in the release before. Whoever has ordered by that release looks here first. No guide says anything else of the same vehicles.")
	for name := range pages {
		assert.NotContains(t, name, "changes/")
	}
	assert.Contains(t, fmt.Sprint(sorted(pages)), "changes.html")
}
