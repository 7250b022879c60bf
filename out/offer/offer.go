// Package offer knows where each part is offered, on all platforms: what the page of a
// part and its JSON say of where it fits.
//
// The guides of platforms come one by one and need not be kept. What they offer is
// written to a Ledger, which holds it in a file, each offer with the place of the part's
// offer before it: memory does not grow with the number of offers.
package offer

import (
	"slices"

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
func offered(p *model.Platform, a *decide.Answer, in holdings, occurs uses) (parts []*model.Part, offers []*Offer) {
	at := map[key]*Offer{}
	add := func(part *model.Part, c *decide.Case, choice int, kit *model.Part, count int) {
		k := key{part, kit, choice, len(c.Alternatives), count}
		o := at[k]
		if o == nil {
			o = &Offer{Platform: p, Position: a.Position, Choice: choice, Of: k.of, Kit: kit, Count: count}
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
		for n, alternative := range c.Alternatives {
			for _, it := range alternative {
				add(it.Part, c, n, nil, it.Quantity)
				for _, h := range in[it.Part] {
					add(h.Part, c, n, it.Part, product(it.Quantity, h.Quantity))
				}
			}
		}
	}
	return parts, offers
}
