package check

import (
	"cmp"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/accept"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/owed"
	"ferrule/compiler/space"
	"ferrule/sheets/cell"
)

// maxBoxes is how many boxes of a finding's vehicles are listed.
const maxBoxes = 1000

// report tells a finding about a region, in entries: what each Accepted row names,
// and first what nobody has accepted.
func (p *Platform) report(f finding.Finding, region space.Region, m decide.Mention) {
	if region == space.Empty {
		return
	}
	f.Platform = p.Model.Name
	shares, rest := p.run.Ledger.Split(p.Platform, &f, region, p.found.use)
	for _, s := range shares {
		m.Box(p.Bounds(&s.Row.When))
	}
	causes, rest := p.run.lost.Split(p.Platform, &f, rest)
	for _, cause := range causes {
		p.owe(cause, f.Code)
	}
	if rest != space.Empty {
		p.tell(f, rest, m)
	}
	for _, s := range shares {
		f.Accepted = accept.Mark(s.Row)
		p.tell(f, s.Region, m)
	}
}

func (p *Platform) tell(f finding.Finding, region space.Region, m decide.Mention) {
	f.Region = p.packer.Pack(p.inWords(region, m))
	p.found.findings = append(p.found.findings, &f)
}

// inWords says how many vehicles a region holds, and which, as far as that is asked for.
func (p *Platform) inWords(region space.Region, m decide.Mention) *finding.Region {
	if p.run.Brief {
		return &finding.Region{Exact: true}
	}
	r := &finding.Region{Exact: true, Configurations: p.Count(region), OnTheRoad: p.Road(region), Example: p.Example(region)}
	var boxes []space.Box
	rest := region
	if err := p.Try(func() { boxes, rest = p.Describe(region, m, maxBoxes) }); err != nil {
		boxes, rest = nil, region // the count stands; no box does
	}
	for _, b := range boxes {
		r.Where = append(r.Where, p.Words(b))
	}
	if rest != space.Empty {
		r.Rest = p.Count(rest)
	}
	return r
}

// debt is a finding, or a part of one, that is counted under another.
type debt struct {
	cause *finding.Finding
	code  finding.Code
}

func (p *Platform) owe(cause *finding.Finding, code finding.Code) {
	p.found.debts = append(p.found.debts, debt{cause, code})
}

// owing takes out of a region what cells of a position that were set aside may be about:
// there the finding is counted under what tells of them. What someone has accepted stays
// a finding. It gives what is left.
func (p *Position) owing(f finding.Finding, at *model.Position, region space.Region) space.Region {
	f.Position = cmp.Or(f.Position, p.Mount.Position.Name)
	return p.on.owing(f, region, p.on.run.Owed.At(at), p.Bounds)
}

// owing is that for any rows that were set aside; about gives the vehicles that one is about.
func (p *Platform) owing(f finding.Finding, region space.Region, maybe []owed.Maybe, about func(*model.When) space.Box) space.Region {
	if region == space.Empty || len(maybe) == 0 {
		return region
	}
	f.Platform = p.Model.Name
	_, open := p.run.Ledger.Split(p.Platform, &f, region, p.found.use)
	told := map[*finding.Finding]bool{}
	for i := range maybe {
		m := &maybe[i]
		if open == space.Empty {
			break
		}
		if !m.When.Concerns(p.Model) {
			continue
		}
		box := about(&m.When)
		if !p.Meets(open, box) {
			continue
		}
		hit := p.Intersect(open, p.Box(box))
		region, open = p.Minus(region, hit), p.Minus(open, hit)
		if !told[m.Cause] {
			told[m.Cause] = true
			p.owe(m.Cause, f.Code)
		}
	}
	return region
}

// appendCell adds a place that is not there yet: a merged range is one cell.
func appendCell(cells []finding.Cell, at cell.Place) []finding.Cell {
	for _, c := range cells {
		if c.Place == at {
			return cells
		}
	}
	return append(cells, finding.Cell{Place: at})
}
