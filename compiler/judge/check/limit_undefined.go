package check

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/limits"
)

var limitUndefined = &Check{
	Kind: finding.Kind{Code: finding.LimitUndefined, Severity: "error, or warning where the limit's Effect is warning",
		Summary: "a limit cannot be worked out for an offered part",
		Doc:     "With the part's properties and the facts of these vehicles the formula divides by what is or may be zero, so nobody knows whether the part can work. Where the Effect is error, guides print that this is not settled, also where it is accepted.",
		Before:  "Limits!D2  Axle rating / Air springs\nFacts!D4  Air springs 0",
		After:   "Facts!D4  Air springs 2"},
	Requires: []Ground{Limits, Facts},
	Position: func(p *Position) {
		if !p.on.run.limits.Divides() {
			return
		}
		told := tally{p: p, by: p.Mention()}
		for _, c := range p.claims() {
			if c.Rule.Divides() && len(c.Lacking) == 0 && p.on.facts != nil {
				told.by.Add(p.on.facts.Mention(p.Platform, c.Subject))
				p.undefined(c, &told)
			}
		}
		told.report()
	},
}

// undefined gathers where a claim cannot be worked out. That it must not be published
// is settled with what is broken.
func (p *Position) undefined(c limits.Claim, told *tally) {
	for _, chosen := range p.on.walker.Suspects(p.Platform, p.on.facts, c.Subject, c.Cell.Box) {
		_, err := c.Rule.Judge(c.With(p.Platform, chosen))
		if err == nil {
			continue
		}
		told.add(c.Cell.At, c.At, c.Part.Number+" "+err.Error(), p.on.facts.Under(p.Mount, c, chosen), func() finding.Finding {
			return finding.Finding{Code: finding.LimitUndefined, Severity: severity(c.Limit), Part: c.Part.Number,
				Message: fmt.Sprintf("the limit %q cannot be worked out for %s at %s on these vehicles of %s: %s",
					c.Name, c.Part.Number, p.Mount.Position.Name, p.Model.Name, err),
				Cells: finding.At(c.Cell.At, c.At),
				Fix:   "correct the property or the fact, or write the limit without dividing by it"}
		})
	}
}
