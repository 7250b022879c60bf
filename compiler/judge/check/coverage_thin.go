package check

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

var coverageThin = &Check{
	Kind: finding.Kind{Code: finding.CoverageThin, Severity: "warning",
		Summary: "a required position for which only superseded parts are offered",
		Doc:     "Every alternative on these vehicles holds a part that is superseded, so nothing will be left to offer when the stock is gone.",
		Before:  "Fitment!C4  HD-10   (Parts: HD-10 superseded)",
		After:   "Fitment!C4  HD-20 or HD-10"},
	Position: func(p *Position) {
		if p.Mount.Position.Coverage != model.Required {
			return
		}
		thin := space.Empty
		var cells []finding.Cell
		for i := range p.Levels {
			for _, c := range p.Levels[i].Cells {
				if !superseded(c) {
					continue
				}
				region := p.Intersect(p.Outcome[model.Fitted], p.Decides(&p.Levels[i], c))
				if region != space.Empty {
					cells = appendCell(cells, c.At)
				}
				thin = p.Union(thin, region)
			}
		}
		p.Report(finding.Finding{Code: finding.CoverageThin, Severity: finding.Warning,
			Message: fmt.Sprintf("only superseded parts are offered at %s on these vehicles of %s", p.Mount.Position.Name, p.Model.Name),
			Cells:   cells,
			Fix:     "offer what replaces them, as the first choice",
		}, thin)
	},
}

// superseded tells whether every alternative of a cell holds a superseded part.
func superseded(c *decide.Cell) bool {
	for _, a := range c.Fits.Alternatives {
		old := false
		one := model.Fits{Outcome: model.Fitted, Alternatives: []model.Alternative{a}}
		one.Parts(func(p *model.Part) { old = old || p.Status == model.Superseded })
		if !old {
			return false
		}
	}
	return len(c.Fits.Alternatives) > 0
}
