package check

import (
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"fmt"
)

var traitUnused = &Check{
	Kind: finding.Kind{Code: finding.TraitUnused, Severity: "note",
		Summary: "a trait on which nothing depends",
		Doc:     "Vehicles are told apart by the trait, and no row of Fitment, Positions, Compatibility, Facts, Complaints or Inspections names it and no Air line does. Guides would ask the reader for nothing.",
		Before:  "Traits!A12  Cab   (only Vehicles has a column Cab)",
		After:   "Fitment!E1  Cab   E2  Long"},
	Catalogue: func(c *Catalogue) {
		used := map[*model.Trait]bool{}
		name := func(w *model.When) {
			for _, t := range w.Traits {
				used[t.Trait] = true
			}
		}
		for _, f := range c.Fitments {
			name(&f.When)
		}
		for _, r := range c.Rules {
			name(&r.When)
		}
		for _, r := range c.FactRows {
			name(&r.When)
		}
		for _, r := range c.Complaints {
			name(&r.When)
		}
		for _, r := range c.Inspections {
			name(&r.When)
		}
		for _, p := range c.Positions {
			for _, r := range p.Rows {
				name(&r.When)
				used[r.AirLine] = true
			}
		}
		for _, t := range c.Traits {
			if cause := c.owed.Naming(t); cause != nil && !used[t] {
				cause.Owe(finding.TraitUnused, 1)
			} else if !used[t] {
				c.Report(&finding.Finding{Code: finding.TraitUnused, Severity: finding.Note,
					Message: fmt.Sprintf("nothing depends on %s: no row of Fitment, Positions, Compatibility or Facts names it", t.Name), Cells: finding.At(t.At)})
			}
		}
	},
}
