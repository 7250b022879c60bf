package check

import (
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"fmt"
)

var coveragePlanned = &Check{
	Kind: finding.Kind{Code: finding.CoveragePlanned, Severity: "note",
		Summary: "vehicles for which something is planned and nothing is listed yet",
		Doc:     "Guides say that a part is planned and nothing of the note behind it.",
		Before:  "Fitment!C5  planned: tooling in spring",
		After:   "Fitment!C5  HD-24"},
	Position: func(p *Position) { coverageNote(p, finding.CoveragePlanned, model.Planned, "something is planned for") },
}

func coverageNote(p *Position, code finding.Code, outcome model.Outcome, words string) {
	region := p.Outcome[outcome]
	var cells []finding.Cell
	for i := range p.Levels {
		for _, c := range p.Levels[i].Cells {
			if c.Fits.Outcome == outcome && p.Meets(region, c.Box) {
				cells = appendCell(cells, c.At)
			}
		}
	}
	p.Report(finding.Finding{Code: code, Severity: finding.Note,
		Message: fmt.Sprintf("%s %s on these vehicles of %s", words, p.Mount.Position.Name, p.Model.Name),
		Cells:   cells,
	}, region)
}
