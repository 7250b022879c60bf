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
	f.Position = cmp.Or(f.Position, p.Place.Position.Name)
	return p.run.owing(f, region, p.run.owed.At(at))
}

// owing is that for any rows that were set aside.
func (r *run) owing(f finding.Finding, region space.Region, maybe []owed.Maybe) space.Region {
	if region == space.Empty || len(maybe) == 0 {
		return region
	}
	f.Platform = r.p.Model.Name
	_, open := r.ledger.Split(r.p, &f, region, r.use)
	told := map[*finding.Finding]bool{}
	for i := range maybe {
		m := &maybe[i]
		if open == space.Empty {
			break
		}
		if !m.When.Concerns(r.p.Model) {
			continue
		}
		box := r.p.Bounds(&m.When)
		if !r.p.Meets(open, box) {
			continue
		}
		hit := r.p.Intersect(open, r.p.Box(box))
		region, open = r.p.Minus(region, hit), r.p.Minus(open, hit)
		if !told[m.Cause] {
			told[m.Cause] = true
			r.debts = append(r.debts, debt{m.Cause, f.Code})
		}
	}
	return region
}
