package guide

import (
	"reflect"
	"slices"

	"ferrule/compiler/model"
	"ferrule/out/offer"
)

// partRule is a compatibility row as the page of a part says it: what must not be done
// with the part, or needs company or care.
type partRule struct {
	Effect string    // forbid, require or caution
	Of     []partRef // what the kit holds that it is about; none: the part of the page
	// Company is what the part must or must not go with, or takes care with; nil: the row
	// is about the part alone.
	Company *company
	Behind  bool    // Effect is on the company, which goes with the part or does not
	Where   []where // none: all vehicles of the platform
	Reason  string
}

// company is a part, or any of a family.
type company struct {
	Part   *partRef
	Family string
}

// rulesElsewhere is a rule on platforms where the page does not say in full what fits.
type rulesElsewhere struct {
	Platforms []link
	Rule      partRule
}

// partRules says rules about a part.
func (s *site) partRules(p *model.Part, rules []offer.Rule) []partRule {
	var out []partRule
	for _, r := range rules {
		out = append(out, s.partRule(p, r))
	}
	return out
}

func (s *site) partRule(p *model.Part, r offer.Rule) partRule {
	out := partRule{Effect: r.Effect.String(), Where: s.occurringOf(r.Has).wheres(r.Where), Reason: s.tr(r.Reason)}
	about := r.Of
	if slices.Contains(r.Of, p) {
		about = []*model.Part{p}
	}
	out.Behind = !slices.ContainsFunc(about, func(q *model.Part) bool { return q != r.With })
	for _, q := range about {
		if q != p && (out.Behind || q != r.With) {
			out.Of = append(out.Of, s.partRef(q))
		}
	}
	switch {
	case out.Behind:
		out.Company = &company{s.partOrNone(r.Part), r.Family}
	case r.With != nil:
		out.Company = &company{s.partOrNone(r.With), ""}
	}
	return out
}

// elsewhere says rules once for all platforms on which they read the same.
func (s *site) elsewhere(p *model.Part, rules []offer.Rule) []rulesElsewhere {
	var out []rulesElsewhere
	for _, r := range rules {
		rule, platform := s.partRule(p, r), s.platformLink(r.Platform)
		i := slices.IndexFunc(out, func(e rulesElsewhere) bool { return reflect.DeepEqual(e.Rule, rule) })
		if i < 0 {
			i, out = len(out), append(out, rulesElsewhere{Rule: rule})
		}
		out[i].Platforms = append(out[i].Platforms, platform)
	}
	return out
}
