package check

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

var inspectionAlike = &Check{
	Kind: finding.Kind{Code: finding.InspectionAlike, Severity: "warning",
		Summary: "two rows of Inspections say the same, or nearly so, of one place of the same vehicles",
		Doc:     "Guides print both. Where the levels differ, nobody knows which was meant. Such a row was copied and not changed, or one of the two is misspelt. Rows about different vehicles, or different places, may say the same.",
		Before:  "Inspections!A2  Broken leaves   B2  any\nInspections!A5  Broken leafs   B5  H7",
		After:   "Inspections!A2  Broken leaves   B2  any"},
	Platform: func(p *Platform) {
		if len(p.Inspections) == 0 {
			return
		}
		defer p.Release(p.Mark())
		for i, n := range p.Inspections {
			for _, o := range p.Inspections[:i] {
				if o.Position == n.Position && (word.Fold(o.Look) == word.Fold(n.Look) || word.Slip(n.Look, []string{o.Look}) != "") {
					p.inspectTwice(o, n)
				}
			}
		}
	},
}

// inspectTwice tells where two rows that say the same both hold.
func (p *Platform) inspectTwice(first, second *model.Inspection) {
	one, other, by := p.Bounds(&first.When), p.Bounds(&second.When), p.Mention()
	both, ok := one.Intersect(other)
	if !ok {
		return
	}
	by.Box(one)
	by.Box(other)
	f := finding.Finding{Code: finding.InspectionAlike, Severity: finding.Warning, Cells: []finding.Cell{{Place: second.At}, {Place: first.At, Note: "the other"}},
		Message: fmt.Sprintf("guides print %s twice for these vehicles of %s", quoted(first.Look), p.Model.Name),
		Fix:     "delete one of the rows, or write conditions that no vehicle meets both of"}
	if word.Fold(first.Look) != word.Fold(second.Look) {
		f.Message = fmt.Sprintf("guides print %s and %s for the same vehicles of %s", quoted(first.Look), quoted(second.Look), p.Model.Name)
	}
	if first.Level != second.Level {
		f.Message += fmt.Sprintf(", under Level %s and %s", first.Level, second.Level)
		f.Fix += "; keep the graver level unless it is wrong"
	}
	p.Report(f, p.Intersect(p.All, p.Box(both)), by)
}
