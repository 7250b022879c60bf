package check

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/schema/word"
)

var indistinguishable = &Check{
	Kind: finding.Kind{Code: finding.Indistinguishable, Severity: "warning",
		Summary: "vehicles that need different parts and that nothing one can see tells apart",
		Doc:     "Only the model year and traits with a How to tell can be settled on a vehicle. Where the part depends on another trait, a caller cannot find out which part is right. Write how to tell the trait, or ask and whom to ask in the fitment cells.",
		Before:  "Traits!A6  Beam arm  B6  Cast  E6  (How to tell is blank)",
		After:   "Traits!A6  Beam arm  B6  Cast  E6  Rounded edges, no weld"},
	Position: func(p *Position) {
		observable, hidden := p.observable()
		if len(hidden) == 0 {
			return
		}
		classes := p.needs()
		if len(classes) < 2 {
			return
		}
		region := p.Apart(classes, observable)
		if region == space.Empty {
			return
		}
		names, cells := p.matter(hidden, region)
		p.Report(finding.Finding{Code: finding.Indistinguishable, Severity: finding.Warning,
			Message: fmt.Sprintf("the part at %s on these vehicles of %s depends on %s, and Traits does not say how to tell that on a vehicle",
				p.Mount.Position.Name, p.Model.Name, word.List(names, "and")),
			Cells: cells,
			Fix:   "write a How to tell, or write ask and whom to ask in the fitment cells",
		}, region)
	},
}

// observable splits the traits that the position's rows name into those that can be
// settled on a vehicle (the year always can), as traits of the space, and the others.
func (p *Position) observable() (seen []int, hidden []*model.Trait) {
	seen = []int{0}
	m := p.Mentioned()
	for _, t := range p.Cat.Traits {
		switch {
		case t.Tells(p.Model):
			seen = append(seen, t.Index+1)
		case m[t.Index+1]:
			hidden = append(hidden, t)
		}
	}
	return seen, hidden
}

// needs gives where the position needs what: a region for each different answer that
// is a part, or that nothing belongs there.
func (p *Position) needs() []space.Region {
	index := map[string]int{}
	var out []space.Region
	settled := p.Union(p.Outcome[model.Fitted], p.Outcome[model.None])
	for i := range p.Levels {
		for _, v := range p.Variants {
			for _, c := range p.Levels[i].Cells {
				if c.Fits.Outcome != model.Fitted && c.Fits.Outcome != model.None {
					continue
				}
				region := p.Intersect(p.Intersect(settled, v.Where), p.Decides(&p.Levels[i], c))
				key := p.Key(c.Fits, v.Row.Quantity)
				k, ok := index[key]
				if !ok {
					k = len(out)
					index[key] = k
					out = append(out, space.Empty)
				}
				out[k] = p.Union(out[k], region)
			}
		}
	}
	return out
}

// matter gives the hidden traits that have several values in the region, with the
// cells that declare them.
func (p *Position) matter(hidden []*model.Trait, region space.Region) (names []string, cells []finding.Cell) {
	for _, t := range hidden {
		if p.Values(region, t.Index+1).Len() > 1 {
			names = append(names, t.Name)
			cells = appendCell(cells, t.At)
		}
	}
	if len(names) > 0 {
		return names, cells
	}
	for _, t := range hidden {
		names, cells = append(names, t.Name), appendCell(cells, t.At)
	}
	return names, cells
}
