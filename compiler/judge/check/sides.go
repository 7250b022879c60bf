package check

import (
	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/space"
)

// opposite gives the position's pair, nil where it has none or the pair comes first among
// the positions, so that each pair is looked at once.
func (p *Position) opposite() *decide.Place {
	pair := p.Place.Position.Pair
	if pair == nil || pair.Pair != p.Place.Position || pair.Index < p.Place.Position.Index {
		return nil
	}
	if p.pair == nil {
		p.pair = decide.NewPlace(p.Platform, pair)
	}
	return p.pair
}

// deciding gives the cells of a position that decide somewhere in a region.
func deciding(pl *decide.Place, region space.Region) []finding.Cell {
	var cells []finding.Cell
	for i := range pl.Levels {
		open := pl.Intersect(region, pl.Levels[i].Open)
		for _, c := range pl.Levels[i].Cells {
			if pl.Meets(open, c.Box) {
				cells = appendCell(cells, c.At)
			}
		}
	}
	return cells
}

// reportSides is Report for what depends on two positions.
func (p *Position) reportSides(f finding.Finding, region space.Region, a, b *decide.Place) {
	m := a.Mentioned()
	m.Add(b.Mentioned())
	p.on.report(f, region, m)
}
