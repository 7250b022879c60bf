package check

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
)

var breakIdle = &Check{
	Kind: finding.Kind{Code: finding.BreakIdle, Severity: "warning",
		Summary: "a Breaks row that excludes nothing",
		Doc:     "A vehicle of the platform with a value that Breaks rows name exists only where the conditions of one of these rows hold. Here they hold for every vehicle with the value that Vehicles lists, so the row changes nothing: a condition is too wide, or the vehicles are listed without the others, which makes the row needless.",
		Before:  "Vehicles!A2  H7  B2  2004-2011  D2  Air\nBreaks!A3  H7  B3  Rear suspension  C3  Air  D3  2004+",
		After:   "Breaks!A3  H7  B3  Rear suspension  C3  Air  D3  2008+"},
	Catalogue: func(c *Catalogue) {
		for _, b := range c.Breaks {
			if c.Reached[b] || b.When.SetAside || b.When.Partial(c.Catalogue) || !slices.ContainsFunc(b.When.On(c.Catalogue), func(p *model.Platform) bool { return c.Exists[p] }) {
				continue
			}
			c.Report(&finding.Finding{Code: finding.BreakIdle, Severity: finding.Warning,
				Message: fmt.Sprintf("the row excludes nothing: every vehicle with this value of %s that Vehicles lists meets its conditions, or those of another row about the value", b.Value.Trait.Name),
				Cells:   finding.At(b.At),
				Fix:     "narrow its conditions, or delete the row"})
		}
	},
}
