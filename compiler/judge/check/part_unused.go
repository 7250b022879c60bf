package check

import (
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"fmt"
)

var partUnused = &Check{
	Kind: finding.Kind{Code: finding.PartUnused, Severity: "note",
		Summary: "a current part that no fitment cell offers",
		Doc:     "The part is listed and fits nowhere, neither by itself nor in a kit that is offered. It may be new, and its fitment still to be written.",
		Before:  "Parts!A9  HD-24   (no Fitment cell names it)",
		After:   "Fitment!C5  HD-24"},
	Catalogue: func(c *Catalogue) {
		offered, seen := map[*model.Part]bool{}, map[*model.Fits]bool{}
		for _, f := range c.Fitments {
			for _, fc := range f.Cells {
				if seen[fc.Fits] {
					continue // cells with one text share their Fits
				}
				seen[fc.Fits] = true
				fc.Fits.Parts(func(p *model.Part) { offered[p] = true })
			}
		}
		for _, p := range c.Parts {
			if maybe := c.owed.Offering(p); len(maybe) > 0 && p.Status == model.Current && !offered[p] {
				maybe[0].Cause.Owe(finding.PartUnused, 1)
			} else if p.Status == model.Current && !offered[p] {
				c.Report(&finding.Finding{Code: finding.PartUnused, Severity: finding.Note, Part: p.Number,
					Message: fmt.Sprintf("no fitment cell offers %s", p.Number), Cells: finding.At(p.At)})
			}
		}
	},
}
