package check

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

var sideMissing = &Check{
	Kind: finding.Kind{Code: finding.SideMissing, Severity: "warning",
		Summary: "a part is fitted on one side of the vehicle and nothing is said of the other",
		Doc:     "The positions are a pair, one of them is fitted on these vehicles, and for the other no cell says anything or something is planned. Where the position must be covered, coverage-gap tells of the gap as an error as well. It is meant so where the other side says none and the reason, or with and the position that serves both; ask is an answer too, and cells in conflict are told of by themselves. Where the other position does not exist, nothing is missing.",
		Before:  "Fitment!D4  Restrictor left HD-50   E4  Restrictor right (blank)",
		After:   "Fitment!D4  Restrictor left HD-50   E4  Restrictor right with Restrictor left"},
	Position: func(p *Position) {
		if other := p.opposite(); other != nil {
			lacking(p, p.Mount, other)
			lacking(p, other, p.Mount)
		}
	},
}

// lacking tells where one of a pair is fitted and the other is not, without saying why.
func lacking(p *Position, has, lacks *decide.Mount) {
	gap := p.Intersect(has.Outcome[model.Fitted], lacks.Outcome[model.Gap])
	gap = p.owing(finding.Finding{Code: finding.SideMissing, Position: lacks.Position.Name}, lacks.Position, gap)
	planned := p.Intersect(has.Outcome[model.Fitted], lacks.Outcome[model.Planned])
	what := "no cell says anything there"
	switch {
	case gap == space.Empty:
		what = "something is planned there"
	case planned != space.Empty:
		what += ", or something is planned"
	}
	region := p.Union(gap, planned)
	if region == space.Empty {
		return
	}
	cells := append(finding.At(lacks.Position.At), deciding(lacks, region)...)
	p.reportSides(finding.Finding{Code: finding.SideMissing, Severity: finding.Warning, Position: lacks.Position.Name,
		Message: fmt.Sprintf("%s is fitted on these vehicles of %s and %s, opposite, is not: %s", has.Position.Name, p.Model.Name, lacks.Position.Name, what),
		Cells:   append(cells, deciding(has, region)...),
		Fix:     fmt.Sprintf("say what is fitted at %s: a part, none and the reason, or with %s where one item serves both sides", lacks.Position.Name, has.Position.Name),
	}, region, has, lacks)
}
