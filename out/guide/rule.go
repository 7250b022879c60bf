package guide

import (
	"ferrule/compiler/decide"
	"ferrule/compiler/model"
)

// rule is a compatibility row: what must not be fitted, what needs company or care.
type rule struct {
	Effect string // forbid, require or caution
	Part   *partRef
	Family string
	With   *partRef
	Where  []where // none: all vehicles of the platform
	Reason string
}

func (s *site) rules(g *decide.Guide, has occurring) []rule {
	var out []rule
	for _, u := range g.Rules {
		out = append(out, rule{
			Effect: u.Rule.Effect.String(), Part: s.partOrNone(u.Rule.Part), Family: u.Rule.Family,
			With: s.partOrNone(u.Rule.With), Where: has.wheres(u.Where), Reason: u.Rule.Reason,
		})
	}
	return out
}

func (s *site) partOrNone(p *model.Part) *partRef {
	if p == nil {
		return nil
	}
	r := s.partRef(p)
	return &r
}
