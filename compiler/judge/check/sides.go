package check

import (
	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/space"
)

// opposite gives the position's pair, nil where it has none or the pair comes first among
// the positions, so that each pair is looked at once.
func (p *Position) opposite() *decide.Mount {
	pair := p.Mount.Position.Pair
	if pair == nil || pair.Pair != p.Mount.Position || pair.Index < p.Mount.Position.Index {
		return nil
	}
	if p.pair == nil {
		p.pair = decide.NewMount(p.Platform, pair)
	}
	return p.pair
}

// deciding gives the cells of a position that decide somewhere in a region.
func deciding(pl *decide.Mount, region space.Region) []finding.Cell {
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
func (p *Position) reportSides(f finding.Finding, region space.Region, a, b *decide.Mount) {
	m := a.Mentioned()
	m.Add(b.Mentioned())
	p.on.report(f, region, m)
}
