package check

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

var coverageGap = &Check{
	Kind: finding.Kind{Code: finding.CoverageGap, Severity: "error where the position's Coverage is required, warning where it is wanted",
		Summary: "no fitment cell says what is fitted at a position of some vehicles",
		Doc:     "A vehicle that exists has the position, and no row that matches it says anything there. Say what is known: a part, none and the reason where nothing belongs, planned where something will come, ask where it depends on what no trait records. A position that need not be filled has Coverage wanted or optional.",
		Before:  "Fitment!A2  H7  B2  2004-2008  C2  HD-20   (H7 was made from 2002)",
		After:   "Fitment!A2  H7  B2  2004-2008  C2  HD-20\nFitment!A3  H7  B3  2002-2003  C3  none: the axle has no damper mounts"},
	Position: func(p *Position) {
		severity := finding.Error
		switch p.Place.Position.Coverage {
		case model.Wanted:
			severity = finding.Warning
		case model.Optional:
			return
		}
		f := finding.Finding{Code: finding.CoverageGap, Severity: severity,
			Message: fmt.Sprintf("no fitment cell says what is fitted at %s on these vehicles of %s", p.Place.Position.Name, p.Model.Name),
			Cells:   finding.At(p.Place.Position.At),
			Fix:     "add them to a Fitment row: a part, none and the reason, planned, or ask and what to find out",
		}
		p.Report(f, p.owing(f, p.Place.Position, p.Outcome[model.Gap]))
	},
}

var coveragePlanned = &Check{
	Kind: finding.Kind{Code: finding.CoveragePlanned, Severity: "note",
		Summary: "vehicles for which something is planned and nothing is listed yet",
		Doc:     "Guides say that a part is planned and nothing of the note behind it.",
		Before:  "Fitment!C5  planned: tooling in spring",
		After:   "Fitment!C5  HD-24"},
	Position: func(p *Position) { coverageNote(p, finding.CoveragePlanned, model.Planned, "something is planned for") },
}

var coverageAsk = &Check{
	Kind: finding.Kind{Code: finding.CoverageAsk, Severity: "note",
		Summary: "vehicles for which the guide sends the reader to measure or to ask",
		Doc:     "The part depends on what no trait records. Where many callers ask, a trait that can be seen on the vehicle is worth adding.",
		Before:  "Fitment!C5  ask which bracket the body builder fitted",
		After:   "Fitment!C5  HD-24   (with a trait Damper bracket)"},
	Position: func(p *Position) { coverageNote(p, finding.CoverageAsk, model.Ask, "the reader has to ask about") },
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
		Message: fmt.Sprintf("%s %s on these vehicles of %s", words, p.Place.Position.Name, p.Model.Name),
		Cells:   cells,
	}, region)
}

// appendCell adds a place that is not there yet: a merged range is one cell.
func appendCell(cells []finding.Cell, at cell.Place) []finding.Cell {
	for _, c := range cells {
		if c.Place == at {
			return cells
		}
	}
	return append(cells, finding.Cell{Place: at})
}
