package limits

import (
	"slices"

	"ferrule/compiler/formula"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Facts is what the Facts sheets say on a platform, as checks need it.
type Facts struct {
	hulls    []formula.Value  // by fact: what holds all that is stated of it
	By       []decide.Mention // by fact: the traits that its rows name
	Disputes []Dispute
	Disputed []space.Region // by fact
	Silent   []space.Region // by fact that a limit needs: where nobody states it
}

// Dispute is two cells that decide a fact on the same vehicles and do not agree.
type Dispute struct {
	A, B  *decide.FactCell
	Where space.Region
}

// NewFacts goes through the facts of a platform. It runs inside Try.
func NewFacts(p *decide.Platform, needed []bool) *Facts {
	n := len(p.Facts)
	g := &Facts{hulls: make([]formula.Value, n), By: make([]decide.Mention, n), Disputed: make([]space.Region, n), Silent: make([]space.Region, n)}
	all := make([]space.Region, n) // silent, of all facts
	meet := make([]bool, n)        // two cells of the fact decide on one vehicle
	for i := range p.Facts {
		f := &p.Facts[i]
		if like := f.Like; like < i {
			g.By[i], all[i], meet[i] = g.By[like], all[like], meet[like]
		} else {
			g.By[i], meet[i] = p.FactMention(f), p.FactsMeet(f)
			if len(f.Levels) != 1 || meet[i] || !p.FactComplete(f, g.By[i]) {
				all[i] = p.FactSilent(f)
			}
		}
		if meet[i] {
			g.dispute(p, f)
		}
		if needed[i] {
			g.Silent[i], g.hulls[i] = all[i], hull(f)
		}
	}
	return g
}

// dispute gathers the disputes of a fact.
func (g *Facts) dispute(p *decide.Platform, f *decide.Fact) {
	p.FactDisputes(f, func(a, b *decide.FactCell, where space.Region) {
		g.Disputes = append(g.Disputes, Dispute{a, b, where})
		g.Disputed[f.Index] = p.Union(g.Disputed[f.Index], where)
	})
}

// Sound tells whether all facts are stated wherever they are needed, and undisputed.
func (g *Facts) Sound() bool {
	return len(g.Disputes) == 0 && !slices.ContainsFunc(g.Silent, func(r space.Region) bool { return r != space.Empty })
}

// hull gives what holds all values of a fact; it is blank where there are none.
func hull(f *decide.Fact) formula.Value {
	var out formula.Value
	first := true
	for _, l := range f.Levels {
		for _, c := range l.Cells {
			v := f.Values[c.Value]
			if first {
				out, first = v, false
			}
			out = out.Hull(v)
		}
	}
	return out
}

// Needed tells which facts a limit uses.
func Needed(cat *model.Catalogue) []bool {
	out := make([]bool, len(cat.Facts))
	for _, l := range cat.Limits {
		if l.Rule == nil {
			continue
		}
		for _, id := range l.Rule.Uses {
			if _, fact := cat.Term(id); fact != nil {
				out[fact.Index] = true
			}
		}
	}
	return out
}

// Under gives where a claim's cell decides and its facts have the values chosen. It
// runs inside Try.
func (g *Facts) Under(place *decide.Mount, c Claim, chosen []int) space.Region {
	region := place.Decides(c.Level, c.Cell)
	for i, u := range c.Facts {
		if region == space.Empty {
			return region
		}
		region = place.Minus(place.Intersect(region, place.FactIs(&place.Platform.Facts[u.Fact], chosen[i])), g.Disputed[u.Fact])
	}
	return region
}

// Mention gives the traits on which the facts of a limit depend.
func (g *Facts) Mention(p *decide.Platform, s *Subject) decide.Mention {
	m := p.Mention()
	for _, u := range s.Facts {
		m.Add(g.By[u.Fact])
	}
	return m
}
