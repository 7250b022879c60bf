package check

import (
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

var cellRedundant = &Check{
	Kind: finding.Kind{Code: finding.CellRedundant, Severity: "note",
		Summary: "a fitment cell never decides anything that other cells do not already say",
		Doc:     "Other cells of its precedence say the same on all its vehicles, or cells of a higher precedence decide there first, or the position exists on none of them. All cells that are named can be emptied together without a change to what any vehicle gets; a note that stands only in such a row is no longer printed. A merged range is one cell, and stays where it is needed at one of its positions or on one platform. Of cells that say the same, the one with the most conditions is named.",
		Before:  "Fitment!A2  H7  B2  (any year)  C2  HD-20\nFitment!A3  H7  B3  2007        C3  HD-20",
		After:   "Fitment!A2  H7  B2  (any year)  C2  HD-20"},
	Requires: []Ground{Needed},
	Catalogue: func(c *Catalogue) {
		told := map[cell.Place]bool{}
		for _, f := range c.Fitments {
			for _, fc := range f.Cells {
				if c.Needed.Has(fc.At) || told[fc.At] || !c.mayBeIdle(f) {
					continue
				}
				told[fc.At] = true
				if cause := c.owed.Vacant(fc.Position); cause != nil {
					cause.Owe(finding.CellRedundant, 1) // the position may exist where the cell decides
					continue
				}
				c.Report(&finding.Finding{Code: finding.CellRedundant, Severity: finding.Note, Position: fc.Position.Name,
					Message: "the cell never decides anything that other cells do not already say",
					Cells:   finding.At(fc.At),
					Fix:     "empty it, or correct the conditions of its row"})
			}
		}
	},
}

// mayBeIdle tells whether all is known about a row that matches something.
func (c *Catalogue) mayBeIdle(f *model.Fitment) bool {
	return !f.When.SetAside && c.Reached[f] && !f.When.Partial(c.Catalogue)
}
