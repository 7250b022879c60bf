package check

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

var companionMissing = &Check{
	Kind: finding.Kind{Code: finding.CompanionMissing, Severity: "error",
		Summary: "a part is offered where the part that it requires is offered at no position",
		Doc:     "A Compatibility row with the effect require says that the part needs another on these vehicles, and no fitment cell offers that one there, at any position. Each part of a cell that the row is about is a finding of its own.",
		Before:  "Compatibility!A2  SD-7  C2  BK-7  E2  require\nFitment!D4  SD-7   (no cell offers BK-7)",
		After:   "Fitment!D4  SD-7 + BK-7"},
	Requires: []Ground{Offers},
	Position: func(p *Position) {
		p.eachCompanion(model.Require, finding.CompanionMissing, func(rule *model.Rule, _ *model.Part, _ *model.Fits) space.Region {
			return p.Minus(p.Exists, p.offered(rule.With, -1))
		}, func(c *decide.Cell, part *model.Part, rule *model.Rule) (message, fix string) {
			return fmt.Sprintf("%q at %s offers %s, which needs %s, and %s is offered nowhere on these vehicles of %s: %s",
				Says(c.Fits), p.Mount.Position.Name, named(part, rule), rule.With.Number, rule.With.Number, p.Model.Name, rule.Reason), "offer what it needs beside it or at another position, or take these vehicles out of the row"
		})
	},
}
