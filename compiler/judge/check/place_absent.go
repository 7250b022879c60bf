package check

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/sheets/cell"
)

var placeAbsent = &Check{
	Kind: finding.Kind{Code: finding.PlaceAbsent, Severity: "warning",
		Summary: "a complaint or an inspection is about a place that its vehicles lack",
		Doc:     "No vehicle of the platform that meets the conditions of the row has the position, so the row is printed for none of them. Either the position or a condition is wrong, or the position is missing in Positions. A row about any platform is told only where no platform has such a vehicle.",
		Before:  "Inspections!A2  the welds of the bracket  B2  C4  C2  Tag damper   (C4 has no tag axle)",
		After:   "Inspections!A2  the welds of the bracket  B2  H7  C2  Tag damper"},
	Platform: func(p *Platform) {
		defer p.Release(p.Mark())
		for _, c := range p.Complaints {
			p.lacks(c, &c.When, c.Position, c.PlaceAt, fmt.Sprintf("the complaint %q", c.Name))
		}
		for _, n := range p.Inspections {
			p.lacks(n, &n.When, n.Position, n.PlaceAt, "the inspection")
		}
	},
	Catalogue: func(c *Catalogue) {
		for _, row := range c.Complaints {
			c.lacked(row, &row.When, row.Position, row.PlaceAt, fmt.Sprintf("the complaint %q", row.Name))
		}
		for _, row := range c.Inspections {
			c.lacked(row, &row.When, row.Position, row.PlaceAt, "the inspection")
		}
	},
}

// lacks tells of a row that names the platform, and of which all vehicles there lack the position.
// Of one about any platform it notes that some have it.
func (p *Platform) lacks(row any, w *model.When, at *model.Position, cell cell.Place, what string) {
	if at == nil || slices.ContainsFunc(at.Rows, func(r *model.PositionRow) bool { return r.When.SetAside && w.Platforms != nil }) {
		return // of one whose rows were set aside nobody knows where it is
	}
	box, by := p.Bounds(w), p.Mention()
	in := p.Intersect(p.All, p.Box(box))
	by.Box(box)
	place := decide.Ground(p.Platform, at)
	by.Add(place.Mentioned())
	switch {
	case in == space.Empty:
	case p.Intersect(in, place.Exists) != space.Empty:
		p.found.placed = append(p.found.placed, row)
	case w.Platforms != nil:
		p.Report(finding.Finding{Code: finding.PlaceAbsent, Severity: finding.Warning, Position: at.Name,
			Message: fmt.Sprintf("%s is about %s, which none of its vehicles of %s has", what, at.Name, p.Model.Name),
			Cells:   finding.At(cell),
			Fix:     "name a position that they have, or leave these vehicles out of the conditions"}, in, by)
	}
}

// lacked tells of a row about any platform that no vehicle which meets its conditions has the position.
func (c *Catalogue) lacked(row any, w *model.When, at *model.Position, cell cell.Place, what string) {
	if at == nil || w.SetAside || w.Platforms != nil || !c.Reached[row] || c.placed[row] || w.Partial(c.Catalogue) {
		return
	}
	if slices.ContainsFunc(at.Rows, func(r *model.PositionRow) bool { return r.When.SetAside }) {
		return // where it exists is not known
	}
	c.Report(&finding.Finding{Code: finding.PlaceAbsent, Severity: finding.Warning, Position: at.Name,
		Message: fmt.Sprintf("%s is about %s, which no vehicle that meets its conditions has", what, at.Name),
		Cells:   finding.At(cell),
		Fix:     "name a position that they have, or correct a condition"})
}
