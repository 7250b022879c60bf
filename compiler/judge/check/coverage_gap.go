package check

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
)

var coverageGap = &Check{
	Kind: finding.Kind{Code: finding.CoverageGap, Severity: "error where the position's Coverage is required, warning where it is wanted",
		Summary: "no fitment cell says what is fitted at a position of some vehicles",
		Doc:     "A vehicle that exists has the position, and no row that matches it says anything there. Say what is known: a part, none and the reason where nothing belongs, planned where something will come, ask where it depends on what no trait records. A position that need not be filled has Coverage wanted or optional.",
		Before:  "Fitment!A2  H7  B2  2004-2008  C2  HD-20   (H7 was made from 2002)",
		After:   "Fitment!A2  H7  B2  2004-2008  C2  HD-20\nFitment!A3  H7  B3  2002-2003  C3  none: the axle has no damper mounts"},
	Position: func(p *Position) {
		severity := finding.Error
		switch p.Mount.Position.Coverage {
		case model.Wanted:
			severity = finding.Warning
		case model.Optional:
			return
		}
		f := finding.Finding{Code: finding.CoverageGap, Severity: severity,
			Message: fmt.Sprintf("no fitment cell says what is fitted at %s on these vehicles of %s", p.Mount.Position.Name, p.Model.Name),
			Cells:   finding.At(p.Mount.Position.At),
			Fix:     "add them to a Fitment row: a part, none and the reason, planned, or ask and what to find out",
		}
		p.Report(f, p.owing(f, p.Mount.Position, p.Outcome[model.Gap]))
	},
}
