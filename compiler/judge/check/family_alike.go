package check

import (
	"ferrule/compiler/finding"
	"ferrule/schema/word"
	"fmt"
)

var familyAlike = &Check{
	Kind: finding.Kind{Code: finding.FamilyAlike, Severity: "warning",
		Summary: "a family of one part that is nearly called like a family of several",
		Doc:     "Families need no declaration: a misspelt one is a family of its own, and what Limits, Compatibility and Calculated say of the right one does not reach the part.",
		Before:  "Parts!C9  Dampr    (C2 to C8 say Damper)",
		After:   "Parts!C9  Damper"},
	Catalogue: func(c *Catalogue) {
		count := map[string]int{}
		var several []string
		for _, p := range c.Parts {
			key := word.Fold(p.Family)
			if count[key]++; count[key] == 2 && key != "" {
				several = append(several, p.Family)
			}
		}
		for _, p := range c.Parts {
			if p.Family == "" || count[word.Fold(p.Family)] > 1 {
				continue
			}
			if near := word.Slip(p.Family, several); near != "" {
				c.Report(&finding.Finding{Code: finding.FamilyAlike, Severity: finding.Warning, Part: p.Number,
					Message: fmt.Sprintf("%s is the only part of the family %s, and others are of the family %s", p.Number, p.Family, near),
					Cells:   finding.At(p.FamilyAt),
					Fix:     fmt.Sprintf("write %s if that is meant", near)})
			}
		}
	},
}
