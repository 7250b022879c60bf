package check

import (
	"cmp"
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
)

var limitUnused = &Check{
	Kind: finding.Kind{Code: finding.LimitUnused, Severity: "note",
		Summary: "a limit that is about no offered part",
		Doc:     "No fitment cell that decides anything offers a part of the limit's family at its position, so the limit was never worked out. Family or Position may name something else than was meant.",
		Before:  "Limits!B2  Front damper  C2  Anti-roll bar",
		After:   "Limits!B2  Front damper  C2  Damper"},
	Requires: []Ground{Met},
	Catalogue: func(c *Catalogue) {
		used := map[*model.Limit]bool{}
		for _, part := range c.Parts {
			for _, s := range c.limits.About(part) {
				used[s.Limit] = used[s.Limit] || c.Met[s]
			}
		}
		for _, l := range c.Limits {
			if l.Rule == nil || used[l] || (&model.When{}).Partial(c.Catalogue) {
				continue
			}
			if cause := cmp.Or(c.owed.Why(finding.LimitUnused), c.owed.Bearing(l)); cause != nil {
				cause.Owe(finding.LimitUnused, 1)
			} else {
				c.Report(&finding.Finding{Code: finding.LimitUnused, Severity: finding.Note,
					Message: fmt.Sprintf("no fitment cell offers a part that the limit %q is about", l.Name), Cells: finding.At(l.At)})
			}
		}
	},
}
