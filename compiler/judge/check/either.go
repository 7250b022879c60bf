package check

import (
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
)

// either holds the parts that go on either side of a vehicle: some pair has them at both
// of its positions, with the first cell of each that says so. A part of one side only, as
// a bracket that is made left and right, is at home on one side of each pair.
type either map[*model.Part][]finding.Cell

// spot is a part at a position.
type spot struct {
	part     *model.Part
	position *model.Position
}

func newEither(cat *model.Catalogue) either {
	first, out := map[spot]*model.FitCell{}, either{}
	for _, row := range cat.Fitments {
		for _, c := range row.Cells {
			if c.Position.Pair == nil || row.When.SetAside {
				continue
			}
			for _, a := range c.Fits.Alternatives {
				for _, item := range a {
					fitted(item.Part, func(part *model.Part) { out.add(first, c, part) })
				}
			}
		}
	}
	return out
}

// add notes a part in a cell, and that it goes on either side where the position opposite
// has it as well.
func (e either) add(first map[spot]*model.FitCell, c *model.FitCell, part *model.Part) {
	here := spot{part, c.Position}
	if first[here] != nil || part.Misread {
		return
	}
	first[here] = c
	opposite := first[spot{part, c.Position.Pair}]
	if opposite != nil && e[part] == nil && facing(c.Position, c.Position.Pair) {
		e[part] = finding.At(opposite.At, c.At)
	}
}

// facing tells whether two positions are each other's pair, and nothing says that they
// are not left and right of each other.
func facing(a, b *model.Position) bool {
	middle := func(side string) bool { return side == "centre" || side == "both" }
	return a != b && a.Pair == b && b.Pair == a && !middle(a.Side) && !middle(b.Side) && (a.Side == "" || a.Side != b.Side)
}
