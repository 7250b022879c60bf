package check

import (
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
)

var vehiclesEmpty = &Check{
	Kind: finding.Kind{Code: finding.VehiclesEmpty, Severity: "error",
		Summary: "a Vehicles row of which Breaks rows leave nothing",
		Doc:     "The row says that vehicles exist, and the Breaks rows say of each of them that it was not built. One of the two is wrong.",
		Before:  "Vehicles!A5  H7  B5  2004-2006  D5  Air\nBreaks!A3  H7  B3  Rear suspension  C3  Air  D3  2008+",
		After:   "Vehicles!A5  H7  B5  2008-2012  D5  Air"},
	Catalogue: func(c *Catalogue) {
		if len(c.Breaks) == 0 {
			return
		}
		for _, v := range c.Vehicles {
			if c.Reached[v] || v.When.SetAside {
				continue
			}
			on := v.When.On(c.Catalogue)
			if !slices.ContainsFunc(on, func(p *model.Platform) bool { return v.Weight(p).Sign() > 0 }) {
				continue // it is about no vehicle without them either, which is told by itself
			}
			f := &finding.Finding{Code: finding.VehiclesEmpty, Severity: finding.Error,
				Message: "nothing is left of this row: the Breaks rows say of each of its vehicles that it was not built",
				Cells:   finding.At(v.At),
				Fix:     "correct the row, or the conditions in Breaks"}
			for _, b := range c.Breaks {
				if excludes(b, v, on) {
					f.Cells = append(f.Cells, finding.Cell{Place: b.At, Note: "says when it was built"})
				}
			}
			c.Report(f)
		}
	},
}

// excludes tells whether a Breaks row is about vehicles of a Vehicles row.
func excludes(b *model.Break, v *model.Vehicles, on []*model.Platform) bool {
	return slices.ContainsFunc(on, func(p *model.Platform) bool {
		if !b.When.Concerns(p) || b.When.SetAside {
			return false
		}
		return v.When.Traits[b.Value.Trait.Index].Meets(b.Value, p)
	})
}
