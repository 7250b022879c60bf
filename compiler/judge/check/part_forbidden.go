package check

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
)

var partForbidden = &Check{
	Kind: finding.Kind{Code: finding.PartForbidden, Severity: "error",
		Summary: "a part is offered on vehicles where a Compatibility row forbids it",
		Doc:     "The cell offers the part, itself or in a kit, as its first choice or a later one, on vehicles for which a row with the effect forbid rules it out. Take the vehicles out of the fitment row, or correct the Compatibility row. Each part is a finding of its own, so that accepting one accepts no other. Guides print that this is not settled, also where it is accepted.",
		Before:  "Fitment!D4  FR-38   (any levelling)\nCompatibility!B2  Flow restrictor  D2  Levelling Electronic  E2  forbid",
		After:   "Fitment!C4  Mechanical  D4  FR-38\nFitment!C5  Electronic  D5  none: the levelling hunts for its height"},
	Position: func(p *Position) {
		for _, rule := range p.Rules {
			if rule.Effect == model.Forbid && rule.With == nil {
				forbid(p, rule)
			}
		}
	},
}

// forbid holds one row against all cells of the position.
func forbid(p *Position, rule *model.Rule) {
	bounds := p.Bounds(&rule.When)
	if !p.Meets(p.Exists, bounds) {
		return
	}
	by := p.Mention()
	by.Box(bounds)
	told := tally{p: p, by: by}
	for i := range p.Levels {
		level := &p.Levels[i]
		for _, c := range level.Cells {
			parts := subjects(rule, c.Fits)
			if len(parts) == 0 || !p.Meets(level.Open, c.Box) {
				continue
			}
			region := p.Intersect(p.Decides(level, c), p.Box(bounds))
			for _, part := range parts {
				p.unsettle(region, by, finding.PartForbidden, part.Number)
				told.add(c.At, rule.PartAt, part.Number, region, func() finding.Finding {
					return finding.Finding{Code: finding.PartForbidden, Severity: finding.Error, Part: part.Number,
						Message: fmt.Sprintf("%q at %s offers %s, which is forbidden on these vehicles of %s: %s",
							Says(c.Fits), p.Mount.Position.Name, named(part, rule), p.Model.Name, rule.Reason),
						Cells: finding.At(c.At, rule.PartAt),
						Fix:   "take these vehicles out of the fitment row, or correct the Compatibility row"}
				})
			}
		}
	}
	told.report()
}

// subjects gives the parts of a cell that the row is about, other than the one under
// With. Each is a finding of its own, so that accepting one says nothing of another.
func subjects(rule *model.Rule, f *model.Fits) []*model.Part {
	var found []*model.Part
	f.Parts(func(part *model.Part) {
		if part != rule.With && rule.About(part) {
			found = append(found, part)
		}
	})
	return found
}

func named(part *model.Part, rule *model.Rule) string {
	if rule.Part == nil {
		return part.Number + " (" + rule.Family + ")"
	}
	return part.Number
}
