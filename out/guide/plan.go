package guide

import (
	"slices"

	"ferrule/schema"
)

// plan is the chassis seen from above, the front at the top, in units of its drawing.
type plan struct {
	Height int
	Axles  []planAxle
	Spots  []spot
}

type planAxle struct {
	Y    int
	Twin bool // wheels
}

// spot marks a place; one at both sides has two.
type spot struct{ Place, X, Y int }

// The drawing: its columns for places, and how far they and the axles are apart.
const (
	planLeft, planCentre, planRight = 62, 110, 158
	planFirst                       = 52
	planRow                         = 26
	planGap                         = 34
)

// newPlan draws the places that say their axle; nil where none does. Two that are
// opposite each other are drawn so.
func newPlan(places []place) *plan {
	p := &plan{}
	y := planFirst
	for _, axle := range schema.Words(schema.Positions, "Axle") {
		free := map[int]int{} // the next free row of each column
		rows := 0
		put := func(n int, columns ...int) {
			row := 0
			for _, c := range columns {
				row = max(row, free[c])
			}
			for _, c := range columns {
				free[c] = row + 1
				p.Spots = append(p.Spots, spot{n, c, y + row*planRow})
			}
			rows = max(rows, row+1)
		}
		done := map[string]bool{}
		for i, pl := range places {
			if pl.Axle != axle || done[pl.Name] {
				continue
			}
			pair := slices.IndexFunc(places, func(o place) bool {
				return o.Name == pl.Pair.Text && o.Axle == axle && !done[o.Name] && o.Side != pl.Side && sides(o.Side, pl.Side)
			})
			switch {
			case pair >= 0:
				// Both rows are taken together, whichever of the two comes first.
				row := max(free[planLeft], free[planRight])
				free[planLeft], free[planRight] = row, row
				put(pl.Number, column(pl.Side))
				put(places[pair].Number, column(places[pair].Side))
				done[places[pair].Name] = true
			case pl.Side == "both":
				put(pl.Number, planLeft, planRight)
			default:
				put(places[i].Number, column(pl.Side))
			}
			done[pl.Name] = true
		}
		if rows > 0 {
			p.Axles = append(p.Axles, planAxle{y, axle == "drive"})
			y += max(rows*planRow, 2*planRow) + planGap
		}
	}
	if p.Axles == nil {
		return nil
	}
	slices.SortStableFunc(p.Spots, func(a, b spot) int { return a.Place - b.Place })
	p.Height = y
	return p
}

func sides(a, b string) bool { return a == "left" && b == "right" || a == "right" && b == "left" }

func column(side string) int {
	switch side {
	case "left":
		return planLeft
	case "right":
		return planRight
	}
	return planCentre
}
