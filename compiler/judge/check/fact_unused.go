package check

import (
	"ferrule/compiler/finding"
	"ferrule/compiler/judge/limits"
	"ferrule/compiler/model"
	"ferrule/schema/word"
	"fmt"
	"slices"
)

var factUnused = &Check{
	Kind: finding.Kind{Code: finding.FactUnused, Severity: "note",
		Summary: "a fact that no limit needs",
		Doc:     "The fact is stated, and neither side of any limit names it, so nothing depends on it.",
		Before:  "Facts!C1  Wheelbase   (no Limits row names Wheelbase)",
		After:   "Limits!C2  Wheelbase - Overhang"},
	Catalogue: func(c *Catalogue) {
		if slices.ContainsFunc(c.Limits, func(l *model.Limit) bool { return l.Rule == nil }) {
			return // it cannot be read, and may have meant the fact
		}
		used := limits.Needed(c.Catalogue)
		var names []string
		for _, f := range c.Facts {
			if used[f.Index] {
				names = append(names, f.Name)
			}
		}
		for _, f := range c.Facts {
			cause := c.owed.Why(finding.FactUnused)
			if head := c.owed.Partly(f.At.Sheet); head != nil && head.Cells[0].Place == f.At {
				cause = head // it is none
			}
			if cause != nil && !used[f.Index] {
				cause.Owe(finding.FactUnused, 1)
			} else if !used[f.Index] {
				c.Report(&finding.Finding{Code: finding.FactUnused, Severity: finding.Note,
					Message: fmt.Sprintf("no limit needs %s%s", f.Name, word.DidYouMean(f.Name, names)), Cells: finding.At(f.At)})
			}
		}
	},
}
