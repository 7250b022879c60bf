// Package offer knows where each part is offered, on all platforms: what the page of a
// part and its JSON say of where it fits.
//
// The guides of platforms come one by one and need not be kept. What they offer is
// written to a Ledger, which holds it in a file, each offer with the place of the part's
// offer before it: memory does not grow with the number of offers.
package offer

import (
	"slices"

	"ferrule/compiler/ask/yearmap"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// Offer is a part offered at a position to some vehicles of a platform, by itself or in
// a kit. Only what is settled and fitted is offered. Sets of traits on a line are ranges, as
// the catalogue says them.
type Offer struct {
	Platform *model.Platform
	Position *model.Position
	Where    []model.Box // tight; no two share a vehicle
	// Has holds, for each trait that Where speaks of, the values that occur on the platform.
	Has    []model.TraitSet
	Choice int         // which of the alternatives, from 0
	Of     int         // how many alternatives there are
	Kit    *model.Part // nil: by itself
	Count  int         // how many; 0: too many to say
	Glance *Glance     // of the part at the position, with the first of its offers there; nil: nothing to be told apart
}

// uses are the values of each trait that occur on a platform.
type uses map[*model.Trait]model.TraitSet

func usesOf(g *decide.Guide) uses {
	out := uses{}
	for _, u := range g.Traits {
		out[u.Trait] = u
	}
	return out
}

// add puts the values of the traits of a box to those known.
func (u uses) add(has []model.TraitSet, b model.Box) []model.TraitSet {
	for _, t := range slices.Concat(b.Traits, b.So) {
		if !slices.ContainsFunc(has, func(h model.TraitSet) bool { return h.Trait == t.Trait }) {
			has = append(has, model.TraitSet{Trait: t.Trait, Values: u[t.Trait].Values})
		}
	}
	return has
}

// key tells apart the offers of one answer.
type key struct {
	part, kit         *model.Part
	choice, of, count int
}

// offered lists what one answer offers, in the order of its cases.
func offered(g *decide.Guide, a *decide.Answer, in holdings, occurs uses) (parts []*model.Part, offers []*Offer) {
	at, cases := map[key]*Offer{}, map[*model.Part][]int{}
	add := func(part *model.Part, c *decide.Case, choice int, kit *model.Part, count int) {
		k := key{part, kit, choice, len(c.Alternatives), count}
		o := at[k]
		if o == nil {
			o = &Offer{Platform: g.Platform, Position: a.Position, Choice: choice, Of: k.of, Kit: kit, Count: count}
			at[k] = o
			parts, offers = append(parts, part), append(offers, o)
		}
		o.Where = append(o.Where, c.Where)
		o.Has = occurs.add(o.Has, c.Where)
	}
	for i := range a.Cases {
		c := &a.Cases[i]
		if c.Outcome != model.Fitted || c.Withheld() {
			continue
		}
		here := func(part *model.Part, choice int, kit *model.Part, count int) {
			add(part, c, choice, kit, count)
			if in := cases[part]; len(in) == 0 || in[len(in)-1] != i {
				cases[part] = append(in, i)
			}
		}
		for n, alternative := range c.Alternatives {
			for _, it := range alternative {
				here(it.Part, n, nil, it.Quantity)
				for _, h := range in[it.Part] {
					here(h.Part, n, it.Part, product(it.Quantity, h.Quantity))
				}
			}
		}
	}
	glance(g, a, parts, offers, cases)
	return parts, offers
}

// glance draws each part once, with the first of its offers.
func glance(g *decide.Guide, a *decide.Answer, parts []*model.Part, offers []*Offer, cases map[*model.Part][]int) {
	if len(parts) == 0 {
		return
	}
	d := &glances{guide: g, ground: yearmap.GroundOf(g, a)}
	for i, p := range parts {
		if in := cases[p]; in != nil {
			offers[i].Glance = d.of(a, in)
			delete(cases, p)
		}
	}
}
