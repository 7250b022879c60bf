package check

import (
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"fmt"
)

var positionConflict = &Check{
	Kind: finding.Kind{Code: finding.PositionConflict, Severity: "error",
		Summary: "two Positions rows of one position meet and differ in Quantity or Air line",
		Doc:     "Several rows of one position may say where it has which quantity and line, each for its own vehicles. Where two rows are about one vehicle they must agree; until they do, the first one holds.",
		Before:  "Positions!A4  Drive damper  C4  any        D4  4\nPositions!A5  Drive damper  C5  2008+      D5  2",
		After:   "Positions!A4  Drive damper  C4  to 2007    D4  4\nPositions!A5  Drive damper  C5  2008+      D5  2"},
	Position: func(p *Position) {
		rows := p.Mount.Position.Rows
		for i, a := range rows {
			for _, b := range rows[i+1:] {
				if a.Quantity == b.Quantity && a.AirLine == b.AirLine || a.When.SetAside || b.When.SetAside || !p.Concerns(a) || !p.Concerns(b) {
					continue
				}
				both, ok := p.Bounds(&a.When).Intersect(p.Bounds(&b.When))
				if !ok || !p.Meets(p.All, both) {
					continue
				}
				p.Report(finding.Finding{Code: finding.PositionConflict, Severity: finding.Error,
					Message: fmt.Sprintf("two rows of %s are about the same vehicles of %s and differ in %s; the first one holds", p.Mount.Position.Name, p.Model.Name, difference(a, b)),
					Cells:   finding.At(a.At, b.At),
					Fix:     "narrow the conditions of one of the two rows",
				}, p.Intersect(p.All, p.Box(both)))
			}
		}
	},
}

func difference(a, b *model.PositionRow) string {
	if a.Quantity != b.Quantity {
		return fmt.Sprintf("Quantity (%d and %d)", a.Quantity, b.Quantity)
	}
	return fmt.Sprintf("Air line (%s and %s)", lineName(a.AirLine), lineName(b.AirLine))
}

func lineName(t *model.Trait) string {
	if t == nil {
		return "none"
	}
	return t.Name
}
