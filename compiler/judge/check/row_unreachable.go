package check

import (
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

var rowUnreachable = &Check{
	Kind: finding.Kind{Code: finding.RowUnreachable, Severity: "warning",
		Summary: "a row matches no vehicle that exists",
		Doc:     "No configuration of the Vehicles sheets meets all conditions of the row, so it says nothing. Either a condition is wrong, or the vehicles it is about are missing in Vehicles.",
		Before:  "Fitment!A7  H7  B7  2020+   (H7 was made to 2016)",
		After:   "Fitment!A7  H7  B7  2010+"},
	Catalogue: func(c *Catalogue) {
		for _, f := range c.Fitments {
			unreachable(c, f, &f.When, f.At)
		}
		for _, p := range c.Positions {
			for _, r := range p.Rows {
				unreachable(c, r, &r.When, r.At)
			}
		}
		for _, r := range c.Rules {
			unreachable(c, r, &r.When, r.At)
		}
		for _, r := range c.FactRows {
			unreachable(c, r, &r.When, r.At)
		}
		for _, r := range c.Complaints {
			unreachable(c, r, &r.When, r.At)
		}
		for _, r := range c.Inspections {
			unreachable(c, r, &r.When, r.At)
		}
	},
}

func unreachable(c *Catalogue, row any, w *model.When, at cell.Place) {
	if w.SetAside || c.Reached[row] || w.Partial(c.Catalogue) {
		return
	}
	on := w.On(c.Catalogue)
	if len(on) > 0 && !slices.ContainsFunc(on, func(p *model.Platform) bool { return c.Exists[p] }) {
		return // only about platforms of which no vehicle is stated, which is told by itself
	}
	f := &finding.Finding{Code: finding.RowUnreachable, Severity: finding.Warning,
		Message: "no vehicle that exists meets all conditions of this row",
		Cells:   finding.At(at),
		Fix:     "correct a condition, or add the vehicles to Vehicles"}
	if by := c.RuledOut[row]; len(by) > 0 {
		f.Message += ": Breaks rows say of those that Vehicles lists that they were not built"
		f.Fix = "correct a condition here or in Breaks"
		f.Cells = append(f.Cells, breakCells(by)...)
	}
	c.Report(f)
}

// breakCells names Breaks rows, each once.
func breakCells(rows []*model.Break) []finding.Cell {
	var out []finding.Cell
	for i, b := range rows {
		if !slices.Contains(rows[:i], b) {
			out = append(out, finding.Cell{Place: b.At, Note: "says when it was built"})
		}
	}
	return out
}
