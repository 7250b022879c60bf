package guide

import (
	"slices"

	"ferrule/compiler/line"
	"ferrule/compiler/model"
)

// aToZPage leads to everything without a script: all numbers by their first character,
// platforms by name, the makers, and what tells vehicles apart.
type aToZPage struct {
	frame
	Letters   []letter // with their numbers where there is room for all of them here
	Makers    []maker  // by name; their platforms stand on the index
	Filter    bool     // there are so many platforms that a field to narrow the list is of use
	Initials  []initial
	Platforms []platformEntry // in the order of their names, where they are not parted by letters
	Traits    []askedTrait
}

// letter is the numbers that begin with one character.
type letter struct {
	Name    string // "" for numbers that begin with none
	Anchor  string
	Numbers []number // none: they are on pages of their own
	Pages   []span
}

// span leads to a page of numbers by the first and the last of them.
type span struct{ First, Last, Href string }

// askedTrait is something to be looked at, with the guides that ask for it.
type askedTrait struct {
	Name, Anchor, Question string
	Values                 []string
	Platforms              []link // none: on very many platforms, or on none
	Count                  int    // how many platforms
}

// Limits of the A to Z.
const (
	hereAtMost   = 400 // numbers on the first page itself
	onPageAtMost = 500 // numbers on each of the others
	linkedAtMost = 60  // platforms that a trait leads to
	rangesAtMost = 20  // that a trait on a line names
)

// writeAToZ makes the pages of the A to Z, each laid out before the next is made.
func (s *site) writeAToZ(print func(page) error) error {
	first := &aToZPage{frame: s.frame(s.aToZFile(), s.tongue.Say("A to Z")), Traits: s.askedTraits()}
	first.Data = "catalogue.json"
	s.listPlatforms(first)
	first.describe(s.tongue.Say("All part numbers, their other numbers, platforms, and what tells vehicles apart."))
	groups, total := s.numbers()
	for _, g := range groups {
		if total <= hereAtMost {
			g.letter.Numbers = g.all
		} else if err := s.numberPages(g, print); err != nil {
			return err
		}
		first.Letters = append(first.Letters, g.letter)
	}
	return print(first)
}

// listPlatforms lists all platforms by name, and the makers.
func (s *site) listPlatforms(p *aToZPage) {
	var all []platformEntry
	for _, m := range s.makers {
		all = append(all, m.Platforms...)
		if m.Name != "" {
			p.Makers = append(p.Makers, m)
		}
	}
	slices.SortFunc(p.Makers, func(a, b maker) int { return byName(a.Name, b.Name) })
	if p.Initials = initials(all, "s"); p.Initials == nil {
		p.Platforms = named(all)
	}
	if p.Filter = s.manyPlatforms(); p.Filter {
		p.Script = filterScript
	}
}

// askedTraits lists what tells vehicles apart, as declared, with the guides that ask.
func (s *site) askedTraits() []askedTrait {
	var out []askedTrait
	for _, t := range s.cat.Traits {
		on := s.asked[t]
		a := askedTrait{Name: t.Name, Anchor: s.traits[t], Question: t.Question, Values: s.valueNames(t), Count: len(on)}
		slices.SortFunc(on, func(a, b *model.Platform) int { return a.Index - b.Index })
		if len(on) <= linkedAtMost {
			for _, p := range on {
				a.Platforms = append(a.Platforms, link{p.Name, s.platformFiles[p] + "#" + s.traits[t]})
			}
		}
		out = append(out, a)
	}
	return out
}

// valueNames names the values of a trait on all platforms: of one on a line the ranges that
// there are, and nothing where those are too many to be of use.
func (e *edition) valueNames(t *model.Trait) []string {
	var out []string
	for _, v := range t.Values {
		out = append(out, e.tr(v.Name))
	}
	if !t.Kind.OnLine() {
		return out
	}
	var all line.Set
	for _, e := range t.Extents {
		all = all.Or(e.Values)
	}
	if len(all) > rangesAtMost {
		return nil
	}
	for _, r := range all {
		out = append(out, e.onLine(t.Kind.Line(), r))
	}
	return out
}

// statusWord is "" for a current part.
func (e *edition) statusWord(p *model.Part) string {
	if p.Status == model.Current {
		return ""
	}
	return e.statusOf(p.Status)
}

// statusOf says whether a part can be ordered.
func (e *edition) statusOf(s model.Status) string {
	switch s {
	case model.Superseded:
		return e.tongue.Say("superseded")
	case model.Withdrawn:
		return e.tongue.Say("withdrawn")
	}
	return e.tongue.Say("current")
}
