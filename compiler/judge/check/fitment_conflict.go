package check

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// maxConflicts is how many pairs of cells are told per position.
const maxConflicts = 1000

var fitmentConflict = &Check{
	Kind: finding.Kind{Code: finding.FitmentConflict, Severity: "error",
		Summary: "two fitment cells say different things about one vehicle",
		Doc:     "Both cells decide on the vehicles that are named, and they disagree. Make the conditions of one narrower, make the cells say the same, or give the row that is the exception a higher Precedence. Guides print that this is not settled, also where the conflict is accepted.",
		Before:  "Fitment!A2  H7  B2  2004-2008  C2  HD-20\nFitment!A3  H7  B3  2008-2012  C3  HD-21",
		After:   "Fitment!A2  H7  B2  2004-2007  C2  HD-20\nFitment!A3  H7  B3  2008-2012  C3  HD-21"},
	Position: func(p *Position) {
		if p.Outcome[model.Conflict] == space.Empty {
			return
		}
		told := &tally{p: p, limit: maxConflicts}
		for i := range p.Levels {
			conflicts(p, &p.Levels[i], told)
		}
		told.report()
		if n := len(told.index); n > maxConflicts {
			p.Report(finding.Finding{Code: finding.FitmentConflict, Severity: finding.Error,
				Message: fmt.Sprintf("%d pairs of cells disagree at %s on %s; the first %d are told one by one, and these are the vehicles of all",
					n, p.Mount.Position.Name, p.Model.Name, maxConflicts),
				Constant: fmt.Sprintf("many pairs of cells disagree at %s on %s", p.Mount.Position.Name, p.Model.Name),
				Cells:    finding.At(p.Mount.Position.At),
			}, p.Outcome[model.Conflict])
		}
	},
}

// disagreement says that two cells disagree, whichever comes first.
func disagreement(a, b string) string { return fmt.Sprintf("%q and %q disagree", min(a, b), max(a, b)) }

// conflicts gathers the pairs of one level.
func conflicts(p *Position, level *decide.Level, told *tally) {
	boxes := make([]space.Box, len(level.Cells))
	for i, c := range level.Cells {
		boxes[i] = c.Box
	}
	p.Pairs(boxes, p.Outcome[model.Conflict], func(i, j int) bool {
		a, b := level.Cells[i], level.Cells[j]
		if cause := p.on.run.Owed.Unranked(a.At.Sheet, b.At.Sheet); cause != nil {
			p.on.owe(cause, finding.FitmentConflict)
			return true
		}
		told.add(a.At, b.At, "", p.Disagree(level, a, b), func() finding.Finding {
			return finding.Finding{Code: finding.FitmentConflict, Severity: finding.Error,
				Message: fmt.Sprintf("%s on %s: %s says %q and %s says %q", p.Mount.Position.Name, p.Model.Name,
					a.At.Pos, Says(a.Fits), b.At.Beside(a.At), Says(b.Fits)),
				Constant: disagreement(Says(a.Fits), Says(b.Fits)),
				Cells:    finding.At(a.At, b.At),
				Fix:      "narrow the conditions of one row, make both say the same, or give the exception a higher Precedence"}
		})
		return true
	})
}
