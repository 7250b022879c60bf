package guide_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/out/guide"
)

// ruled gives what stands beside the front damper and beside its first line of a rule
// about dampers that holds for some boxes.
func ruled(t *testing.T, change func(*sample, *decide.RuleUse)) (place []string, line string) {
	s := newSample()
	g := s.Guides[0]
	g.Rules = g.Rules[1:2]
	change(s, &g.Rules[0])
	at := byID(t, parse(t, s.pages(t, guide.Options{})["platforms/heron-7.html"]), "at-front-damper")
	for _, ul := range all(at, class("ruled")) {
		switch ul.Data {
		case "ul":
			for _, li := range all(ul, tag("li")) {
				place = append(place, words(li))
			}
		case "p":
			line = words(ul)
		}
	}
	return place, line
}

// The first line is about 2004 to 2006, with an air beam or twin arms.
func TestRulesStandWhereTheirPartsAreOffered(t *testing.T) {
	in := func(boxes ...model.Box) func(*sample, *decide.RuleUse) {
		return func(_ *sample, u *decide.RuleUse) { u.Where = boxes }
	}
	years := func(from, to int) model.Box { return model.Box{Years: []model.Span{{From: from, To: to}}} }

	place, line := ruled(t, in())
	assert.Equal(t, []string{"any Dampers: Only together with WK-9, on all vehicles of this platform. The mount is shared."}, place)
	assert.Equal(t, "any Dampers: Only together with WK-9", line)

	place, line = ruled(t, in(years(2007, 2011)))
	assert.Equal(t, []string{"any Dampers: Only together with WK-9, on: 2007 to 2011 The mount is shared."}, place, "of vehicles to which the place offers none")
	assert.Empty(t, line, "no vehicle of the line")

	_, line = ruled(t, in(years(2005, 2008)))
	assert.Equal(t, "any Dampers: Only together with WK-9, on some of these vehicles", line)
	_, line = ruled(t, in(years(2008, 2008), years(2004, 2006)))
	assert.Equal(t, "any Dampers: Only together with WK-9", line, "one of its boxes holds the line")

	place, line = ruled(t, func(s *sample, u *decide.RuleUse) {
		u.Where = []model.Box{{Traits: []model.TraitSet{{Trait: s.Cat.Traits[0], Values: set(3)}}}}
	})
	assert.Empty(t, place, "no vehicle of the platform has it")
	assert.Empty(t, line)

	place, _ = ruled(t, func(_ *sample, u *decide.RuleUse) { u.Rule.Family = "Bars" })
	assert.Empty(t, place, "nothing that is offered here")
	place, _ = ruled(t, func(s *sample, u *decide.RuleUse) {
		u.Rule.Family, u.Rule.Part, u.Rule.With, u.Rule.Effect = "", s.Cat.Parts[3], s.Cat.Parts[2], model.Forbid
	})
	assert.Equal(t, []string{"WR-38: Never together with WD-120, on all vehicles of this platform. The mount is shared."}, place, "what is about company is about either")
}

// The script reads which rules are about what a line offers, and where they hold.
func TestRulesForTheScript(t *testing.T) {
	s := newSample()
	s.Guides[0].Rules[1].Where = []model.Box{{Years: []model.Span{{From: 2005, To: 2007}}, Traits: []model.TraitSet{{Trait: s.Cat.Traits[0], Values: set(1, 3)}}}}
	root := parse(t, s.pages(t, guide.Options{})["platforms/heron-7.html"])
	line := byID(t, root, "r1-1")
	assert.Equal(t, "2", attr(line.LastChild, "data-rules"))
	assert.Empty(t, attr(byID(t, root, "r1-2").LastChild, "data-rules"), "nothing is fitted")
	assert.Equal(t, "0=1-3 1=1", attr(byID(t, root, "rule2"), "data-in"))
	assert.Empty(t, attr(byID(t, root, "rule3"), "data-in"), "for all vehicles")
}

// A way that no vehicle takes is left out, and a question with one way is not asked.
func TestNothingIsAskedThatFollows(t *testing.T) {
	s := newSample()
	s.Guides[0].Vehicles = s.Guides[0].Vehicles[:1]
	damper := func() string {
		list := all(parse(t, s.pages(t, guide.Options{})["platforms/heron-7.html"]), class("steps"))[0]
		text, _, _ := strings.Cut(words(list), " 2 Restrictor left")
		return text
	}
	assert.Equal(t, "1 Front damper 2 × WD-120 or 2 × WD-110 2 × WD-120 or 2 × WD-110 so: 2004 to 2006", damper(), "beside its name, and with what it hangs on")
	s.Guides[0].Vehicles = nil
	assert.Equal(t, "1 Front damper: read the table", damper(), "where it is not known what exists, nothing is answered")
}

// Traits that differ and that nothing on the page depends on can be told all the same.
func TestIdleTraitsCanBeTold(t *testing.T) {
	s := newSample()
	s.Guides[0].Traits[4].Values = set(0, 1, 2)
	root := parse(t, s.pages(t, guide.Options{})["platforms/heron-7.html"])
	li := byID(t, root, "q5")
	assert.Equal(t, "Tee at air spring : Yes, No or Does not apply", words(li))
	assert.Equal(t, "5", attr(li, "data-ask"), "behind the year, three that are asked and one that is spoken of")
}
