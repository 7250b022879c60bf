package check

import (
	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"fmt"
)

var companionForbidden = &Check{
	Kind: finding.Kind{Code: finding.CompanionForbidden, Severity: "error",
		Summary: "a part is offered together with one that it must not be fitted with",
		Doc:     "A Compatibility row with the effect forbid and a part under With rules the two out on one vehicle, and fitment cells offer both there: at two positions, or joined in one alternative. Two choices of one cell are never fitted together. Each part of a cell that the row is about is a finding of its own, and guides print of it that this is not settled, also where it is accepted; the part under With is not in doubt.",
		Before:  "Compatibility!A2  HD-20  C2  AR-9  E2  forbid\nFitment!D4  HD-20   G4  AR-9",
		After:   "Fitment!D4  HD-20   G4  AR-10"},
	Requires: []Ground{Offers},
	Position: func(p *Position) {
		p.eachCompanion(model.Forbid, finding.CompanionForbidden, func(rule *model.Rule, part *model.Part, f *model.Fits) space.Region {
			if together(part, rule.With, f) {
				return p.Exists
			}
			return p.Intersect(p.Exists, p.offered(rule.With, p.Mount.Position.Index))
		}, func(c *decide.Cell, part *model.Part, rule *model.Rule) (message, fix string) {
			return fmt.Sprintf("%q at %s offers %s, which must not be fitted with %s, and both are offered on these vehicles of %s: %s",
				Says(c.Fits), p.Mount.Position.Name, named(part, rule), rule.With.Number, p.Model.Name, rule.Reason), "offer only one of the two on these vehicles, or correct the Compatibility row"
		})
	},
}

// together tells whether one alternative holds both of two parts.
func together(part, with *model.Part, f *model.Fits) bool {
	for _, a := range f.Alternatives {
		one, other := false, false
		fits := model.Fits{Outcome: model.Fitted, Alternatives: []model.Alternative{a}}
		fits.Parts(func(p *model.Part) {
			one, other = one || p == part, other || p == with
		})
		if one && other {
			return true
		}
	}
	return false
}
