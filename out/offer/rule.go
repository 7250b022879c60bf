package offer

import (
	"cmp"
	"slices"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// Rule is a compatibility row about a part, or about what it holds, with the vehicles of
// a platform on which it holds.
type Rule struct {
	*model.Rule
	Platform *model.Platform
	Of       []*model.Part    // what the row is about: the part, or parts that it holds
	Where    []model.Box      // tight; empty: all of the platform
	Has      []model.TraitSet // as in an Offer
}

// Rules lists the compatibility rows about a part, as the part or of its family, as what
// others go with, or for what it holds; platforms and rows in the order of the catalogue.
func (l *Store) Rules(p *model.Part) ([]Rule, error) {
	var out []Rule
	var inside []*model.Part
	p.Within(func(in *model.Part) { inside = append(inside, in) })
	for i, r := range l.cat.Rules {
		of := concerned(r, inside)
		if of == nil {
			continue
		}
		err := l.each(&l.lastRule[i], func(on *model.Platform, text []byte) {
			has, where := l.where(&reader{text})
			out = append(out, Rule{r, on, of, where, has})
		})
		if err != nil {
			return nil, err
		}
	}
	slices.SortStableFunc(out, func(a, b Rule) int { return cmp.Compare(a.Platform.Index, b.Platform.Index) })
	return out, nil
}

// concerned gives those of some parts that a row is about, or with which it asks or
// forbids others to go.
func concerned(r *model.Rule, parts []*model.Part) []*model.Part {
	var out []*model.Part
	for _, p := range parts {
		if r.About(p) || p == r.With {
			out = append(out, p)
		}
	}
	return out
}

// encodeRule appends where a row holds on a platform.
func (l *Store) encodeRule(to []byte, u decide.RuleUse, occurs uses) []byte {
	var has []model.TraitSet
	for _, b := range u.Where {
		has = occurs.add(has, b)
	}
	return encodeWhere(to, has, u.Where)
}
