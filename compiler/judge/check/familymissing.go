package check

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
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

// missesFamily says why a part needs the family that it lacks, "" where it lacks none.
func missesFamily(p *model.Part, by string) string {
	switch {
	case p.Family != "" || p.Kit() || !p.Listed:
		return ""
	case by != "":
		return by + ", so no such row is about it"
	case p.Line != nil:
		return "a part with a Line size is of some kind"
	}
	return ""
}

// familyRule says which sheet names a family, with the first one; "" for none.
func familyRule(cat *model.Catalogue) string {
	for _, r := range cat.Rules {
		if r.Family != "" {
			return "Compatibility has rules for families (" + r.Family + ")"
		}
	}
	for _, l := range cat.Limits {
		if l.Family != "" {
			return "Limits has rules for families (" + l.Family + ")"
		}
	}
	for _, f := range cat.Figures {
		for _, k := range f.Computed {
			if k.Family != "" {
				return "Calculated has rows for families (" + k.Family + ")"
			}
		}
	}
	return ""
}
