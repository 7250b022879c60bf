package check

import (
	"fmt"

	"ferrule/compiler/finding"
)

var familyMissing = &Check{
	Kind: finding.Kind{Code: finding.FamilyMissing, Severity: "error",
		Summary: "a part has no Family, and rules are about families or the part is one of an air line",
		Doc:     "What Compatibility, Limits and Calculated say of a family does not reach a part whose Family is blank, and nobody sees that. So every part has one as soon as any row names a family, and so has every part with a Line size. A kit needs none, since it is what it holds.",
		Before:  "Parts!C9  (blank)   I9  1/4 in\nCompatibility!B2  Flow restrictor  I2  forbid",
		After:   "Parts!C9  Flow restrictor"},
	Catalogue: func(c *Catalogue) {
		by := familyRule(c.Catalogue)
		for _, p := range c.Parts {
			if why := missesFamily(p, by); why != "" {
				c.Report(&finding.Finding{Code: finding.FamilyMissing, Severity: finding.Error, Part: p.Number,
					Message: fmt.Sprintf("%s has no Family, and %s", p.Number, why),
					Cells:   finding.At(p.FamilyAt),
					Fix:     "write what kind of part it is, as the other parts of its kind say it"})
			}
		}
	},
}
