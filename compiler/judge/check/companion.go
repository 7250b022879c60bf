package check

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// company tells where the parts that Compatibility rows name under With are offered.
type company map[*model.Part]*offers

// offers holds a region for each position, by its index, and the traits that the rows
// name which offer the part.
type offers struct {
	at []space.Region
	by decide.Mention
}

// newCompany goes through all positions of a platform. It runs inside Try.
func newCompany(p *decide.Platform) company {
	c := company{}
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

var companionMissing = &Check{
	Kind: finding.Kind{Code: finding.CompanionMissing, Severity: "error",
		Summary: "a part is offered where the part that it requires is offered at no position",
		Doc:     "A Compatibility row with the effect require says that the part needs another on these vehicles, and no fitment cell offers that one there, at any position. Each part of a cell that the row is about is a finding of its own.",
		Before:  "Compatibility!A2  SD-7  C2  BK-7  E2  require\nFitment!D4  SD-7   (no cell offers BK-7)",
		After:   "Fitment!D4  SD-7 + BK-7"},
	Requires: []Ground{Offers},
	Position: func(p *Position) {
		p.eachCompanion(model.Require, finding.CompanionMissing, func(rule *model.Rule, _ *model.Part, _ *model.Fits) space.Region {
			return p.Minus(p.Exists, p.offered(rule.With, -1))
		}, func(c *decide.Cell, part *model.Part, rule *model.Rule) (message, fix string) {
			return fmt.Sprintf("%q at %s offers %s, which needs %s, and %s is offered nowhere on these vehicles of %s: %s",
				Says(c.Fits), p.Place.Position.Name, named(part, rule), rule.With.Number, rule.With.Number, p.Model.Name, rule.Reason), "offer what it needs beside it or at another position, or take these vehicles out of the row"
		})
	},
}

var companionForbidden = &Check{
	Kind: finding.Kind{Code: finding.CompanionForbidden, Severity: "error",
		Summary: "a part is offered together with one that it must not be fitted with",
		Doc:     "A Compatibility row with the effect forbid and a part under With rules the two out on one vehicle, and fitment cells offer both there: at two positions, or joined in one alternative. Two choices of one cell are never fitted together. Each part of a cell that the row is about is a finding of its own, and guides print of it that this is not settled, also where it is accepted; the part under With is not in doubt.",
		Before:  "Compatibility!A2  HD-20  C2  AR-9  E2  forbid\nFitment!D4  HD-20   G4  AR-9",
		After:   "Fitment!D4  HD-20   G4  AR-10"},
	Requires: []Ground{Offers},
	Position: func(p *Position) {
		p.eachCompanion(model.Forbid, finding.CompanionForbidden, func(rule *model.Rule, part *model.Part, f *model.Fits) space.Region {
			if together(part, rule.With, f) {
				return p.Exists
			}
			return p.Intersect(p.Exists, p.offered(rule.With, p.Place.Position.Index))
		}, func(c *decide.Cell, part *model.Part, rule *model.Rule) (message, fix string) {
			return fmt.Sprintf("%q at %s offers %s, which must not be fitted with %s, and both are offered on these vehicles of %s: %s",
				Says(c.Fits), p.Place.Position.Name, named(part, rule), rule.With.Number, p.Model.Name, rule.Reason), "offer only one of the two on these vehicles, or correct the Compatibility row"
		})
	},
}

// together tells whether one alternative holds both of two parts.
func together(part, with *model.Part, f *model.Fits) bool {
	for _, a := range f.Alternatives {
		one, other := false, false
		fits := model.Fits{Outcome: model.Fitted, Alternatives: []model.Alternative{a}}
		fits.Parts(func(p *model.Part) {
			one, other = one || p == part, other || p == with
		})
		if one && other {
			return true
		}
	}
	return false
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
