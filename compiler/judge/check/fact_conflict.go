package check

import (
	"ferrule/compiler/finding"
	"ferrule/compiler/judge/limits"
	"ferrule/compiler/space"
	"ferrule/sheets/cell"
	"fmt"
)

var factConflict = &Check{
	Kind: finding.Kind{Code: finding.FactConflict, Severity: "error",
		Summary: "two Facts cells state different values of one fact of a vehicle",
		Doc:     "Both cells decide on the vehicles that are named, and what they state is not the same (10 in and 254 mm are the same). Correct one, make the conditions of one row narrower, or give the row that is the exception a higher Precedence. Limits that need the fact cannot be worked out there, and guides print that what they are about is not settled, also where the conflict is accepted.",
		Before:  "Facts!A2  H7  B2  2004-2008  C2  240 mm\nFacts!A3  H7  B3  2008-2012  C3  255 mm",
		After:   "Facts!A2  H7  B2  2004-2007  C2  240 mm\nFacts!A3  H7  B3  2008-2012  C3  255 mm"},
	Requires: []Ground{Facts},
	Platform: func(p *Platform) {
		if p.facts == nil {
			return
		}
		told := joined(p)
		for _, d := range told[:min(len(told), maxConflicts)] {
			p.Report(factDispute(p, d), d.Where, p.facts.By[d.A.Fact.Index])
		}
		if n := len(told); n > maxConflicts {
			all, by := space.Empty, p.Mention()
			for _, d := range told {
				all = p.Union(all, d.Where)
				by.Add(p.facts.By[d.A.Fact.Index])
			}
			p.Report(finding.Finding{Code: finding.FactConflict, Severity: finding.Error,
				Message:  fmt.Sprintf("%d pairs of Facts cells disagree on %s; the first %d are told one by one, and these are the vehicles of all", n, p.Model.Name, maxConflicts),
				Constant: "many pairs of Facts cells disagree",
				Cells:    finding.At(p.Model.At)}, all, by)
		}
	},
}

// joined gives the disputes, those of one pair of cells as one: several rows can share
// a cell, since a merged range has the address of its first.
func joined(p *Platform) []*limits.Dispute {
	index := map[[2]cell.Place]*limits.Dispute{}
	var out []*limits.Dispute
	for _, d := range p.facts.Disputes {
		key := [2]cell.Place{d.A.At, d.B.At}
		if old := index[key]; old != nil {
			old.Where = p.Union(old.Where, d.Where)
			continue
		}
		index[key] = &d
		out = append(out, &d)
	}
	return out
}

func factDispute(p *Platform, d *limits.Dispute) finding.Finding {
	return finding.Finding{Code: finding.FactConflict, Severity: finding.Error,
		Message:  fmt.Sprintf("%s on %s: %s says %q and %s says %q", d.A.Fact.Name, p.Model.Name, d.A.At.Pos, d.A.Text, d.B.At.Beside(d.A.At), d.B.Text),
		Constant: d.A.Fact.Name + ": " + disagreement(d.A.Text, d.B.Text),
		Cells:    finding.At(d.A.At, d.B.At),
		Fix:      "correct one, narrow the conditions of one row, or give the exception a higher Precedence"}
}
