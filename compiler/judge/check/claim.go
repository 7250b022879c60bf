package check

import (
	"cmp"
	"slices"
	"sync/atomic"

	"ferrule/compiler/formula"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// limits holds, for every part, the limits that are about it. It is made once and read
// by all platforms.
type limits struct {
	of      map[*model.Part][]*subject
	at      []bool // positions, by index, at which a limit can hold
	divides bool   // some limit may have no value
}

// subject is one limit on one part.
type subject struct {
	*model.Limit
	part    *model.Part
	values  []formula.Value // by the rule's Uses: the part's figures; facts are blank
	facts   []use
	lacking []*model.Figure // that the part does not state
	met     atomic.Bool     // the part is offered where the limit is about it, on some platform
}

// meet remembers that the limit was called for. Platforms share it, and it matters to
// none of them.
func (s *subject) meet() {
	if !s.met.Load() {
		s.met.Store(true)
	}
}

// use is a fact that a rule uses.
type use struct{ slot, fact int }

// newLimits gives nil where there is no limit.
func newLimits(cat *model.Catalogue) *limits {
	if len(cat.Limits) == 0 {
		return nil
	}
	out := &limits{of: map[*model.Part][]*subject{}, at: make([]bool, len(cat.Positions))}
	for _, l := range cat.Limits {
		if l.Rule == nil {
			continue // what is wrong with it has been told
		}
		out.divides = out.divides || l.Rule.Divides()
		for i, p := range cat.Positions {
			out.at[i] = out.at[i] || l.Holds(p)
		}
		for _, p := range cat.Parts {
			if l.About(p) {
				out.of[p] = append(out.of[p], newSubject(cat, l, p))
			}
		}
	}
	return out
}

// about gives the limits that are about a part.
func (l *limits) about(p *model.Part) []*subject {
	if l == nil {
		return nil
	}
	return l.of[p]
}

func newSubject(cat *model.Catalogue, l *model.Limit, p *model.Part) *subject {
	s := &subject{Limit: l, part: p, values: make([]formula.Value, len(l.Rule.Uses))}
	for i, id := range l.Rule.Uses {
		figure, fact := cat.Term(id)
		if fact != nil {
			s.facts = append(s.facts, use{i, fact.Index})
			continue
		}
		if r, ok := p.Reading(figure); ok {
			s.values[i] = r.Value
		} else {
			s.lacking = append(s.lacking, figure)
		}
	}
	return s
}

// claim is a fitment cell that offers a part which a limit is about.
type claim struct {
	*subject
	level *decide.Level
	cell  *decide.Cell
}

// claims gives the claims of a position whose cells decide somewhere, limit by limit.
func (p *Position) claims() []claim {
	if p.claimed != nil {
		return *p.claimed
	}
	out := claims(p.Place, p.on.run.limits)
	p.claimed = &out
	return out
}

func claims(place *decide.Place, limits *limits) []claim {
	if limits == nil || !limits.at[place.Position.Index] {
		return nil
	}
	var out []claim
	for i := range place.Levels {
		level := &place.Levels[i]
		for _, c := range level.Cells {
			if !place.Meets(level.Open, c.Box) {
				continue
			}
			c.Fits.Parts(func(part *model.Part) {
				for _, s := range limits.of[part] {
					if s.Holds(place.Position) {
						out = append(out, claim{s, level, c})
					}
				}
			})
		}
	}
	slices.SortStableFunc(out, func(a, b claim) int { return cmp.Compare(a.Index, b.Index) })
	return out
}

// meet remembers which limits are called for at a position.
func (p *Position) meet() {
	for _, c := range p.claims() {
		c.subject.meet()
	}
}

// maybeMet takes every limit that may be about what a position offers for one that is,
// where nobody can tell.
func (p *Platform) maybeMet(pos *model.Position) {
	for _, c := range p.Cells(pos) {
		c.Fits.Parts(func(part *model.Part) {
			for _, s := range p.run.limits.about(part) {
				if s.Holds(pos) {
					s.meet()
				}
			}
		})
	}
}
