package check

import (
	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// companions tells where the parts that Compatibility rows name under With are offered.
type companions map[*model.Part]*offers

// offers holds a region for each position, by its index, and the traits that the rows
// name which offer the part.
type offers struct {
	at []space.Region
	by decide.Mention
}

// newCompany goes through all positions of a platform. It runs inside Try.
func newCompany(p *decide.Platform) companions {
	c := companions{}
	for _, r := range p.Rules {
		if r.With != nil && r.Effect != model.Care {
			c[r.With] = &offers{make([]space.Region, len(p.Cat.Positions)), p.Mention()}
		}
	}
	if len(c) == 0 {
		return c
	}
	for _, pos := range p.Cat.Positions {
		place := decide.Ground(p, pos)
		for i := range place.Levels {
			for _, cell := range place.Levels[i].Cells {
				cell.Fits.Parts(func(part *model.Part) {
					if o := c[part]; o != nil {
						o.at[pos.Index] = p.Union(o.at[pos.Index], place.Decides(&place.Levels[i], cell))
						o.by.Add(place.Mentioned())
					}
				})
			}
		}
	}
	return c
}

// offered gives where a part is offered at any position but one; -1 stands for none.
func (p *Position) offered(part *model.Part, but int) space.Region {
	out := space.Empty
	if o := p.on.company[part]; o != nil {
		for i, r := range o.at {
			if i != but {
				out = p.Union(out, r)
			}
		}
	}
	return out
}

// eachCompanion tells, for every cell of the position and every part of it that a row
// with With is about, where the row is broken.
func (p *Position) eachCompanion(effect model.Effect, code finding.Code,
	broken func(*model.Rule, *model.Part, *model.Fits) space.Region,
	words func(*decide.Cell, *model.Part, *model.Rule) (message, fix string)) {
	for _, rule := range p.Rules {
		bounds := p.Bounds(&rule.When)
		if rule.With == nil || rule.Effect != effect || !p.Meets(p.Exists, bounds) {
			continue
		}
		by := p.Mention()
		by.Box(bounds)
		if o := p.on.company[rule.With]; o != nil {
			by.Add(o.by)
		}
		told := tally{p: p, by: by}
		for i := range p.Levels {
			for _, c := range p.Levels[i].Cells {
				parts := subjects(rule, c.Fits)
				if len(parts) == 0 {
					continue
				}
				here := p.Intersect(p.Decides(&p.Levels[i], c), p.Box(bounds))
				for _, part := range parts {
					region := p.Intersect(here, broken(rule, part, c.Fits))
					if effect == model.Forbid {
						p.unsettle(region, by, code, part.Number)
					}
					told.add(c.At, rule.PartAt, part.Number, region, func() finding.Finding {
						message, fix := words(c, part, rule)
						return finding.Finding{Code: code, Severity: finding.Error, Part: part.Number, Message: message, Cells: finding.At(c.At, rule.PartAt), Fix: fix}
					})
				}
			}
		}
		told.report()
	}
}
