package check

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/accept"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/judge/limits"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Platform is what a platform check sees: one platform, with what the run has found on it.
type Platform struct {
	*decide.Platform
	run     *Run
	found   *Result
	packer  *finding.Packer
	facts   *limits.Facts
	company companions
	walker  limits.Walker
	misfits map[*misplaced]bool // those that are told
}

// On runs the checks of a platform as a whole. What comes after it is about its positions.
func (r *Run) On(p *decide.Platform) *Platform {
	c := r.bare(p)
	p.Reached(func(row any) { c.found.reached = append(c.found.reached, row) })
	// Where that is too irregular to be told, the Breaks rows behind it are not named.
	_ = p.Try(func() {
		p.RuledOut(func(row any, by []*model.Break) { c.found.ruledOut = append(c.found.ruledOut, ruledOut{row, by}) })
	})
	c.whole()
	return c
}

// Undecided is for a platform of which nobody can tell what vehicles there are: nothing is
// said about it, and nothing of it may go.
func (r *Run) Undecided(p *decide.Platform) *Platform {
	c := r.bare(p)
	c.Irregular("", "the vehicles of "+p.Model.Name+" that exist", nil)
	for _, pos := range p.Cat.Positions {
		c.found.needs.keep(p.Cells(pos))
	}
	return c
}

func (r *Run) bare(p *decide.Platform) *Platform {
	return &Platform{Platform: p, run: r, found: &Result{use: accept.Use{}}, packer: finding.NewPacker(), misfits: map[*misplaced]bool{}}
}

// Result gives what was found so far.
func (p *Platform) Result() *Result { return p.found }

// whole makes what checks of the platform and of its positions stand on, and runs those of
// the platform.
func (p *Platform) whole() {
	if p.run.requires(Facts) {
		mark := p.Mark()
		if err := p.Try(func() { p.facts = limits.NewFacts(p.Platform, p.run.facts) }); err != nil {
			p.facts = nil
			p.Irregular("", "what the Facts sheets say of "+p.Model.Name, p.Example(p.All))
		} else if p.facts.Sound() {
			p.Release(mark) // no region is kept
		}
	}
	for _, c := range p.run.Checks {
		if c.Platform == nil {
			continue
		}
		if err := p.Try(func() { c.Platform(p) }); err != nil {
			p.Irregular("", fmt.Sprintf("where %s holds on %s", c.Kind.Code, p.Model.Name), p.Example(p.All))
		}
	}
	if !p.run.requires(Offers) {
		return
	}
	if err := p.Try(func() { p.company = newCompany(p.Platform) }); err != nil {
		p.Irregular("", "which parts are offered together on "+p.Model.Name, p.Example(p.All))
	}
}

// Position runs the checks of a position. Their regions are the caller's to release.
func (p *Platform) Position(place *decide.Mount) {
	pass := &Position{Mount: place, on: p}
	for _, c := range p.run.Checks {
		if c.Position == nil {
			continue
		}
		if err := p.Try(func() { c.Position(pass) }); err != nil {
			at := place.Position
			if p.Broke() {
				p.beyond(at, "what is wrong at "+at.Name+" on "+p.Model.Name)
				break
			}
			p.Irregular(at.Name, fmt.Sprintf("where %s holds at %s on %s", c.Kind.Code, at.Name, p.Model.Name), p.somewhere(at))
		}
	}
	pass.gather()
}

// gather keeps of a position what checks of the catalogue stand on.
func (p *Position) gather() {
	if p.on.run.requires(Met) {
		if err := p.Try(p.meet); err != nil {
			p.on.maybeMet(p.Mount.Position)
		}
	}
	if p.on.run.requires(Needed) {
		for i := range p.Levels {
			p.needed(&p.Levels[i])
		}
	}
}

// BeyondAt is for a position that is not looked at, because the others have used up what all may
// take together.
func (p *Platform) BeyondAt(pos *model.Position) {
	p.maybeMet(pos)
	p.found.needs.keep(p.Cells(pos))
	p.beyond(pos, "what is said of "+pos.Name+" on "+p.Model.Name)
}

// UndecidedAt is for a position of which nobody can tell what is said of it.
func (p *Platform) UndecidedAt(pos *model.Position) {
	p.maybeMet(pos)
	p.found.needs.keep(p.Cells(pos))
	if example := p.outside(pos); example != nil {
		p.Irregular(pos.Name, "what is said of "+pos.Name+" on "+p.Model.Name+" (nothing is said of the vehicle in the example)", example)
	} else {
		p.Irregular(pos.Name, "what is said of "+pos.Name+" on "+p.Model.Name, p.somewhere(pos))
	}
}

// Report tells a finding about a region of the platform that depends on some traits; an
// empty region is none. It runs inside Try.
func (p *Platform) Report(f finding.Finding, region space.Region, by decide.Mention) {
	p.report(f, region, by)
}

// Position is what a position check sees.
type Position struct {
	*decide.Mount
	on *Platform
	// made when a check first asks for them
	pair    *decide.Mount
	claimed *[]limits.Claim
}

// unsettle keeps what is fitted in a region from being published, for a finding of the
// position about a part; "" stands for none.
func (p *Position) unsettle(region space.Region, by decide.Mention, code finding.Code, part string) {
	p.Unsettle(region, by, decide.Cause{Code: code, Position: p.Mount.Position.Name, Part: part})
}

// Report tells a finding about a region of the platform that depends on what the
// position's rows name; an empty region is none. What an Accepted row names becomes
// an entry of its own. It runs inside Try, as checks do.
func (p *Position) Report(f finding.Finding, region space.Region) { p.ReportBy(f, region, nil) }

// ReportBy is Report for a region that depends on further traits. It runs inside Try.
func (p *Position) ReportBy(f finding.Finding, region space.Region, by decide.Mention) {
	f.Position = p.Mount.Position.Name
	m := p.Mentioned()
	m.Add(by)
	p.on.report(f, region, m)
}

// claims gives the fitment cells that offer a part which a limit is about.
func (p *Position) claims() []limits.Claim {
	if p.claimed == nil {
		all := p.on.run.limits.Claims(p.Mount)
		p.claimed = &all
	}
	return *p.claimed
}

// meet remembers which limits are called for at a position.
func (p *Position) meet() {
	for _, c := range p.claims() {
		p.on.found.meet(c.Subject)
	}
}

// maybeMet takes every limit that may be about what a position offers for one that is,
// where nobody can tell.
func (p *Platform) maybeMet(pos *model.Position) {
	for _, c := range p.Cells(pos) {
		c.Fits.Parts(func(part *model.Part) {
			for _, s := range p.run.limits.About(part) {
				if s.Holds(pos) {
					p.found.meet(s)
				}
			}
		})
	}
}
