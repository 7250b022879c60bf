package check

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

var factMissing = &Check{
	Kind: finding.Kind{Code: finding.FactMissing, Severity: "error, or warning where the limit's Effect is warning",
		Summary: "a limit needs a fact of some vehicles, and nobody states it",
		Doc:     "A part is offered that the limit is about, and no Facts row says what the fact is on these vehicles, so nobody knows whether the part can work. State the fact, or accept the finding with the reason why the part may be offered all the same.",
		Before:  "Limits!F2  Front wheel travel\nFacts!A2  H7  B2  2004-2008  C2  240 mm   (H7 was made to 2012)",
		After:   "Facts!A2  H7  B2  2004-2008  C2  240 mm\nFacts!A3  H7  B3  2009-2012  C3  255 mm"},
	Requires: []Ground{Limits, Facts},
	Platform: func(p *Platform) {
		m := missing{Platform: p, by: p.Mention()}
		for _, pos := range p.Cat.Positions {
			m.position(pos)
		}
		m.report()
	},
}

// missing gathers, for each limit and fact, where an offered part needs what nobody
// states.
type missing struct {
	*Platform
	by    decide.Mention
	where map[need]space.Region
}

type need struct {
	limit *model.Limit
	fact  int
}

func (m *missing) position(pos *model.Position) {
	if !m.needs(pos) {
		return
	}
	place := decide.Ground(m.Platform.Platform, pos)
	for _, c := range m.run.limits.Claims(place) {
		for _, u := range c.Facts {
			silent := m.facts.Silent[u.Fact]
			if silent == space.Empty {
				continue
			}
			if m.where == nil {
				m.where = map[need]space.Region{}
			}
			key := need{c.Limit, u.Fact}
			m.where[key] = m.Union(m.where[key], m.Intersect(silent, place.Decides(c.Level, c.Cell)))
			m.by.Add(place.Mentioned())
		}
	}
}

// needs tells whether a limit that may hold at a position uses a fact that is not
// stated everywhere.
func (m *missing) needs(pos *model.Position) bool {
	if m.facts == nil || !m.run.limits.Can(pos) {
		return false
	}
	for _, l := range m.Cat.Limits {
		if l.Rule == nil || !l.Holds(pos) {
			continue
		}
		for _, id := range l.Rule.Uses {
			if _, fact := m.Cat.Term(id); fact != nil && m.facts.Silent[fact.Index] != space.Empty {
				return true
			}
		}
	}
	return false
}

func (m *missing) report() {
	for _, l := range m.Cat.Limits {
		for i := range m.Facts {
			region := m.where[need{l, i}]
			if region == space.Empty {
				continue
			}
			by := m.Mention()
			by.Add(m.by)
			by.Add(m.facts.By[i])
			f := finding.Finding{Code: finding.FactMissing, Severity: severity(l),
				Message: fmt.Sprintf("nobody states %s of these vehicles of %s, and the limit %q needs it", m.Facts[i].Name, m.Model.Name, l.Name),
				Cells:   finding.At(l.At, m.Facts[i].At),
				Fix:     "state it in a row of a Facts sheet"}
			if l.Position != nil {
				f.Position = l.Position.Name
			}
			m.Report(f, m.owing(f, region, m.run.Owed.Stating(m.Cat.Facts[i]), m.Bounds), by)
		}
	}
}

// severity is that of what is wrong with a limit.
func severity(l *model.Limit) finding.Severity {
	if l.Warning {
		return finding.Warning
	}
	return finding.Error
}
