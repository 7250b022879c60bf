package check

import (
	"slices"

	"ferrule/compiler/formula"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// factGround is what the Facts sheets say on a platform, as checks need it.
type factGround struct {
	hulls    []formula.Value  // by fact: what holds all that is stated of it
	by       []decide.Mention // by fact: the traits that its rows name
	disputes []dispute
	disputed []space.Region // by fact
	silent   []space.Region // by fact that a limit needs: where nobody states it
}

// dispute is two cells that decide a fact on the same vehicles and do not agree.
type dispute struct {
	a, b  *decide.FactCell
	where space.Region
}

// newFactGround goes through the facts of a platform. It runs inside Try.
func newFactGround(p *decide.Platform, needed []bool) *factGround {
	n := len(p.Facts)
	g := &factGround{hulls: make([]formula.Value, n), by: make([]decide.Mention, n), disputed: make([]space.Region, n), silent: make([]space.Region, n)}
	all := make([]space.Region, n) // silent, of all facts
	meet := make([]bool, n)        // two cells of the fact decide on one vehicle
	for i := range p.Facts {
		f := &p.Facts[i]
		if like := f.Like; like < i {
			g.by[i], all[i], meet[i] = g.by[like], all[like], meet[like]
		} else {
			g.by[i], meet[i] = p.FactMention(f), p.FactsMeet(f)
			if len(f.Levels) != 1 || meet[i] || !p.FactComplete(f, g.by[i]) {
				all[i] = p.FactSilent(f)
			}
		}
		if meet[i] {
			g.dispute(p, f)
		}
		if needed[i] {
			g.silent[i], g.hulls[i] = all[i], hull(f)
		}
	}
	return g
}

// dispute gathers the disputes of a fact.
func (g *factGround) dispute(p *decide.Platform, f *decide.Fact) {
	p.FactDisputes(f, func(a, b *decide.FactCell, where space.Region) {
		g.disputes = append(g.disputes, dispute{a, b, where})
		g.disputed[f.Index] = p.Union(g.disputed[f.Index], where)
	})
}

// sound tells whether all facts are stated wherever they are needed, and undisputed.
func (g *factGround) sound() bool {
	return len(g.disputes) == 0 && !slices.ContainsFunc(g.silent, func(r space.Region) bool { return r != space.Empty })
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

// neededFacts tells which facts a limit uses.
func neededFacts(cat *model.Catalogue) []bool {
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
