package guide

import (
	"slices"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// lacks says, of traits that do not apply to some vehicles of a platform, what those have instead, and
// no others: 'Air independent (no Beam arm)' tells more than 'does not apply'. Traits are as declared.
type lacks map[*model.Trait]*term

// insteadAtMost is how many values still say what a vehicle has in place of a trait.
const insteadAtMost = 2

func lacksOf(g *decide.Guide) lacks {
	out := lacks{}
	exist := g.Exist()
	if exist.None() {
		return out
	}
	for _, t := range g.Traits {
		absent := t.Trait.Absent()
		if !t.Values.Has(absent) || t.Values.Len() == 1 {
			continue
		}
		without := exist.With(t.Trait.Index+1, decide.ValuesOf(absent))
		with := exist.With(t.Trait.Index+1, decide.Values(t.Trait.Is(others(t, absent)...).Values))
		if instead := insteadOf(g, t.Trait, without, with); instead != nil {
			out[t.Trait.Declared()] = instead
		}
	}
	return out
}

// others lists the values of a set but one.
func others(t model.TraitSet, but int) (out []int) {
	for v := range t.Values.Values() {
		if v != but {
			out = append(out, v)
		}
	}
	return out
}

// insteadOf gives the trait of which some vehicles have few values that no other vehicles have, the one
// with the fewest; nil for none.
func insteadOf(g *decide.Guide, of *model.Trait, some, other decide.Vehicles) *term {
	var best *term
	for _, u := range g.Traits {
		if u.Trait == of || u.Trait.Kind.OnLine() {
			continue
		}
		in, out := some.Possible(u.Trait.Index+1), other.Possible(u.Trait.Index+1)
		if in.Len() == 0 || in.Len() > insteadAtMost || in.Has(u.Trait.Absent()) || meet(in, out) {
			continue
		}
		if is := namesOf(u.Trait, in); best == nil || len(is.Names) < len(best.Names) {
			best = &is
		}
	}
	return best
}

// meet tells whether some values are in both of two sets.
func meet(a, b decide.Values) bool {
	for from, to := range a.Runs() {
		for v := from; v <= to; v++ {
			if b.Has(v) {
				return true
			}
		}
	}
	return false
}

func (l lacks) term(t *term) {
	if t.Absent {
		t.Instead = l[t.Trait.Declared()]
	}
}

func (l lacks) terms(ts []term) {
	for i := range ts {
		l.term(&ts[i])
	}
}

// where says of what was told beside it already no more than that it is not there.
func (l lacks) where(w *where) {
	if w == nil {
		return
	}
	for _, ts := range [][]term{w.Terms, w.So} {
		l.terms(ts)
		for i := range ts {
			ts[i].Said = ts[i].Lacks() && (names(w.Terms, ts[i].Instead) || names(w.So, ts[i].Instead))
		}
	}
}

func names(ts []term, of *term) bool {
	return slices.ContainsFunc(ts, func(t term) bool { return t.Trait == of.Trait && slices.Equal(t.Names, of.Names) })
}

func (l lacks) wheres(ws []where) {
	for i := range ws {
		l.where(&ws[i])
	}
}

func (l lacks) answers(of *model.Trait, as []answer) {
	for i := range as {
		if as[i].Absent {
			as[i].Instead = l[of.Declared()]
			as[i].Of = of.Name
		}
	}
}

func (l lacks) picture(m *yearMap) {
	if m == nil {
		return
	}
	for _, r := range m.Rows {
		if r.Of != nil {
			l.term(r.Of)
		}
	}
}

// platform says it wherever the page of a platform speaks of such a trait.
func (l lacks) platform(p *platformPage) {
	l.wheres(p.Vehicles)
	for _, r := range p.Rules {
		l.wheres(r.Where)
	}
	for i := range p.Places {
		l.place(&p.Places[i])
	}
	for _, c := range p.Complaints {
		l.complaint(c)
	}
	for _, i := range p.Inspections {
		l.wheres(i.Where)
	}
}

func (l lacks) complaint(c complaint) {
	for _, check := range c.Check {
		l.wheres(check.Where)
	}
	for _, at := range c.Places {
		l.wheres(at.Where)
	}
}

func (l lacks) place(p *place) {
	for _, r := range p.Rules {
		l.wheres(r.Where)
	}
	for _, r := range p.Table.Rows {
		for _, c := range r.Cells {
			l.terms(c.Terms)
		}
		for _, of := range r.Rules {
			l.wheres(of.Where)
		}
	}
	l.picture(p.Map)
	l.step(p.Steps)
}

func (l lacks) step(s *step) {
	if s == nil {
		return
	}
	l.where(s.So)
	if s.End != nil {
		l.where(s.End.So)
	}
	for i := range s.Ways {
		if s.Ways[i].Term.Trait != nil {
			l.term(&s.Ways[i].Term)
		}
		l.step(s.Ways[i].Next)
	}
}

// uses says it where the page of a part speaks of one platform.
func (l lacks) uses(u *platformUses) {
	for _, r := range u.Rules {
		l.wheres(r.Where)
	}
	for _, r := range u.Rows {
		l.wheres(r.Wheres)
	}
	for _, m := range u.Maps {
		l.picture(m)
	}
}
