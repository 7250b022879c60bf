package check

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/space"
)

var vehiclesOverlap = &Check{
	Kind: finding.Kind{Code: finding.VehiclesOverlap, Severity: "warning",
		Summary: "two Vehicles rows hold the same vehicles, and both say how many are on the road",
		Doc:     "A configuration that several rows hold is counted once, but what each row says is on the road is added up, so these vehicles are probably counted twice.",
		Before:  "Vehicles!A2  H7  B2  2004-2011  H2  300\nVehicles!A3  H7  B3  2010-2019  H3  700",
		After:   "Vehicles!A2  H7  B2  2004-2009  H2  300\nVehicles!A3  H7  B3  2010-2019  H3  700"},
	Platform: func(p *Platform) {
		rows := p.Roads()
		boxes := make([]space.Box, len(rows))
		for i, r := range rows {
			boxes[i] = r.Box
		}
		p.Pairs(boxes, p.All, func(i, j int) bool {
			a, b := rows[i], rows[j]
			if a.Row.Road.Sign() == 0 || b.Row.Road.Sign() == 0 {
				return true
			}
			both, _ := a.Box.Intersect(b.Box)
			m := p.Mention()
			m.Box(both)
			p.Report(finding.Finding{Code: finding.VehiclesOverlap, Severity: finding.Warning,
				Message: fmt.Sprintf("%s and %s say how many are on the road of the same vehicles of %s, so these are counted twice",
					a.Row.RoadAt, b.Row.RoadAt, p.Model.Name),
				Constant: "two rows say how many are on the road of the same vehicles",
				Cells:    finding.At(a.Row.RoadAt, b.Row.RoadAt),
				Fix:      "narrow one of the two rows, or take these vehicles out of its number",
			}, p.Intersect(p.All, p.Box(both)), m)
			return true
		})
	},
}
