package check

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
)

var positionUnused = &Check{
	Kind: finding.Kind{Code: "position-unused", Severity: "note",
		Summary: "a position that no fitment cell is about",
		Doc:     "The position is declared, and no row says what is fitted there, on any platform.",
		Before:  "Positions!A9  Bell crank   (no Fitment sheet has a column Bell crank)",
		After:   "Fitment!K1  Bell crank   K2  BC-4"},
	Catalogue: func(c *Catalogue) {
		used := map[*model.Position]bool{}
		for _, f := range c.Fitments {
			for _, fc := range f.Cells {
				used[fc.Position] = true
			}
		}
		for _, p := range c.Positions {
			if !used[p] {
				c.Report(&finding.Finding{Code: "position-unused", Severity: finding.Note, Position: p.Name,
					Message: fmt.Sprintf("no fitment cell says what is fitted at %s", p.Name), Cells: finding.At(p.At)})
			}
		}
	},
}

var traitUnused = &Check{
	Kind: finding.Kind{Code: "trait-unused", Severity: "note",
		Summary: "a trait on which nothing depends",
		Doc:     "Vehicles are told apart by the trait, and no row of Fitment, Positions or Compatibility names it and no Air line does. Guides would ask the reader for nothing.",
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
		for _, p := range c.Positions {
			for _, r := range p.Rows {
				name(&r.When)
				used[r.AirLine] = true
			}
		}
		for _, t := range c.Traits {
			if !used[t] {
				c.Report(&finding.Finding{Code: "trait-unused", Severity: finding.Note,
					Message: fmt.Sprintf("nothing depends on %s: no row of Fitment, Positions or Compatibility names it", t.Name), Cells: finding.At(t.At)})
			}
		}
	},
}
