package check

import (
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"fmt"
)

var positionUnused = &Check{
	Kind: finding.Kind{Code: finding.PositionUnused, Severity: "note",
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
			if maybe := c.owed.At(p); len(maybe) > 0 && !used[p] {
				maybe[0].Cause.Owe(finding.PositionUnused, 1)
			} else if !used[p] {
				c.Report(&finding.Finding{Code: finding.PositionUnused, Severity: finding.Note, Position: p.Name,
					Message: fmt.Sprintf("no fitment cell says what is fitted at %s", p.Name), Cells: finding.At(p.At)})
			}
		}
	},
}
