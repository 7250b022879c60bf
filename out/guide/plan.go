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

// spot marks a place and leads there; one at both sides has two.
type spot struct {
	Place, X, Y  int
	Name, Anchor string
	Side         string // left or right of one that has two; else ""
}

// The drawing: its columns for places, and how far they and the axles are apart. A row is as high as
// what a gloved finger hits: 44 of the 255 pixels of a screen on which the drawing is 220 wide.
const (
	planLeft, planCentre, planRight = 62, 110, 158
	planFirst                       = 52
	planRow                         = 38
	planGap                         = 34
)

// newPlan draws the places that say their axle; nil where none does. Two that are
// opposite each other are drawn so.
func newPlan(places []place) *plan {
	p := &plan{}
	y := planFirst
	for _, axle := range schema.Words(schema.Positions, "Axle") {
		free := map[int]int{} // the next free row of each column
		rows, first := 0, len(p.Spots)
		put := func(at place, columns ...int) {
			row := 0
			for _, c := range columns {
				row = max(row, free[c])
			}
			for _, c := range columns {
				free[c] = row + 1
				p.Spots = append(p.Spots, spot{at.Number, c, y + row*planRow, at.Name, at.Anchor, ""})
				if len(columns) > 1 {
					p.Spots[len(p.Spots)-1].Side = map[int]string{planLeft: "left", planRight: "right"}[c]
				}
			}
			rows = max(rows, row+1)
		}
		done := map[string]bool{}
		for _, pl := range places {
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
				put(pl, column(pl.Side))
				put(places[pair], column(places[pair].Side))
				done[places[pair].Name] = true
			case pl.Side == "both":
				put(pl, planLeft, planRight)
			default:
				put(pl, column(pl.Side))
			}
			done[pl.Name] = true
		}
		if rows > 0 {
			middle(p.Spots[first:], free, rows)
			p.Axles = append(p.Axles, planAxle{y + (rows-1)*planRow/2, axle == "drive"})
			y += rows*planRow + planGap
		}
	}
	if p.Axles == nil {
		return nil
	}
	slices.SortStableFunc(p.Spots, func(a, b spot) int { return a.Place - b.Place })
	p.Height = y
	return p
}

// middle moves the places of an axle so that in each column as many are before it as behind it; those
// at the sides stay beside each other.
func middle(spots []spot, free map[int]int, rows int) {
	for i := range spots {
		in := free[planCentre]
		if spots[i].X != planCentre {
			in = max(free[planLeft], free[planRight])
		}
		spots[i].Y += (rows - in) * planRow / 2
	}
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
