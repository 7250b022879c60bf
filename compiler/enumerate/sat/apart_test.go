package sat

import (
	"maps"
	"slices"
	"strings"

	"ferrule/compiler/model"
)

// apart asks for two configurations that need different parts at a position and look
// the same: in the year, and in every trait that Traits says how to tell.
func (a *audit) apart(p *model.Platform, pos *model.Position) {
	pr := newProver()
	one, two := newPlace(newWorld(pr, a.cat, p), pos), newPlace(newWorld(pr, a.cat, p), pos)
	for t := range one.is {
		if t > 0 && !tells(a.cat.Traits[t-1], p) {
			continue
		}
		for v, l := range one.is[t] {
			pr.add(-l, two.is[t][v])
		}
	}
	terms := []int{one.settled(), two.settled()}
	for _, key := range slices.Sorted(maps.Keys(one.saying)) {
		terms = append(terms, -pr.and(one.saying[key], two.saying[key]))
	}
	c := a.claim(one.world, "indistinguishable", one.about("indistinguishable"), terms...)
	c.local = false
	a.settle(one.world, []*claim{c})
	a.questions += pr.asked
}

// settled gives where deciding cells agree on a part, or that nothing belongs there.
func (pl *place) settled() int {
	var lits []int
	for _, key := range slices.Sorted(maps.Keys(pl.saying)) {
		if !strings.HasPrefix(key, "- ") || key == "- none" {
			lits = append(lits, pl.and(pl.only(key)...))
		}
	}
	return pl.or(lits...)
}

// tells tells whether Traits says how to tell the trait on a vehicle of the platform.
func tells(t *model.Trait, p *model.Platform) bool {
	texts := slices.Clone(t.Tell)
	for _, v := range t.Values {
		texts = append(texts, v.Tell...)
	}
	return slices.ContainsFunc(texts, func(x model.Tell) bool {
		return x.Text != "" && (x.Platform == nil || x.Platform == p)
	})
}
