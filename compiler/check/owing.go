package check

import (
	"cmp"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/compiler/owed"
	"ferrule/compiler/space"
)

// debt is a finding, or a part of one, that is counted under another.
type debt struct {
	cause *finding.Finding
	code  finding.Code
}

// owing takes out of a region what cells of a position that were set aside may be about:
// there the finding is counted under what tells of them. What someone has accepted stays
// a finding. It gives what is left.
func (p *Position) owing(f finding.Finding, at *model.Position, region space.Region) space.Region {
	return p.settle(f, region, p.run.owed.At(at))
}

// settle is owing for any cells that were set aside.
func (p *Position) settle(f finding.Finding, region space.Region, maybe []owed.Maybe) space.Region {
	if region == space.Empty || len(maybe) == 0 {
		return region
	}
	f.Platform = p.Model.Name
	f.Position = cmp.Or(f.Position, p.Place.Position.Name)
	_, open := p.run.ledger.Split(p.run.p, &f, region, p.run.use)
	told := map[*finding.Finding]bool{}
	for i := range maybe {
		m := &maybe[i]
		if open == space.Empty {
			break
		}
		if !m.When.Concerns(p.Model) {
			continue
		}
		box := p.Bounds(&m.When)
		if !p.Meets(open, box) {
			continue
		}
		hit := p.Intersect(open, p.Box(box))
		region, open = p.Minus(region, hit), p.Minus(open, hit)
		if !told[m.Cause] {
			told[m.Cause] = true
			p.run.debts = append(p.run.debts, debt{m.Cause, f.Code})
		}
	}
	return region
}
