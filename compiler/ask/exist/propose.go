package exist

import (
	"context"
	"fmt"
	"math/big"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Proposal is fewer rows that say what exists of a platform.
type Proposal struct {
	Platform
	Vehicles, Breaks []Cells // the rows that are proposed; none where Why says why not
	Why              string
	// Even tells whether the vehicles on the road are spread as they were: rows that are joined may
	// have numbers of their own.
	Even bool
}

// Before is how many rows of Vehicles and Breaks say now what exists.
func (p *Proposal) Before() int { return len(p.Platform.Vehicles) + len(p.Platform.Breaks) }

// After is how many rows are proposed.
func (p *Proposal) After() int { return len(p.Vehicles) + len(p.Breaks) }

// Propose looks for fewer rows for platforms; none are all. The error is the context's.
func (l *Lister) Propose(ctx context.Context, platforms ...*model.Platform) ([]Proposal, error) {
	var out []Proposal
	err := l.each(ctx, platforms, func(p *decide.Platform, whole bool) {
		one := Proposal{Platform: l.stated(p.Model)}
		if whole {
			l.list(p, &one.Platform)
		}
		if one.Why = one.unfit(whole); one.Why == "" {
			l.propose(p, &one)
		}
		out = append(out, one)
	})
	return out, err
}

// unfit says why no rows can be proposed for a platform; "" where some may be.
func (p *Proposal) unfit(whole bool) string {
	shared := func(w *model.When) bool { return len(w.Platforms) != 1 }
	for _, v := range p.Platform.Vehicles {
		if shared(&v.When) {
			return fmt.Sprintf("%s is about other platforms as well", v.At)
		}
	}
	for _, b := range p.Platform.Breaks {
		if shared(&b.When) {
			return fmt.Sprintf("%s is about other platforms as well", b.At)
		}
	}
	switch {
	case p.Platform.Platform.Partial:
		return "some of its rows cannot be read"
	case !whole:
		return "its vehicles are too irregular to be worked out"
	case p.Before() < 3: // one row of Vehicles and one of Breaks are the fewest
		return "there is nothing to join"
	}
	return ""
}

// propose fills in rows where some are found, are fewer, and say the same.
func (l *Lister) propose(p *decide.Platform, out *Proposal) {
	defer p.Release(p.Mark())
	var wide space.Box
	var rows []decide.Break
	found := false
	err := p.Try(func() {
		s := newSearch(p, out.Before())
		wide = s.wide
		rows, found = s.run()
	})
	switch {
	case err != nil:
		out.Why = "its vehicles are too irregular to look for fewer rows"
		return
	case !found:
		out.Why = "nothing shorter was found"
		return
	}
	l.draft(p, wide, rows, out)
	if out.After() >= out.Before() {
		out.Vehicles, out.Breaks = nil, nil
		out.Why = "nothing shorter was found"
		return
	}
	same := false
	if err := p.Try(func() { same = l.again(p, out) == p.All }); err != nil || !same {
		out.Vehicles, out.Breaks = nil, nil
		out.Why = "the fewer rows that were found could not be proved to say the same"
	}
}

// draft writes the rows as cells.
func (l *Lister) draft(p *decide.Platform, wide space.Box, rows []decide.Break, out *Proposal) {
	all := p.Words(wide)
	out.Vehicles = l.vehicles(p.Model, all.Years, all.Traits, out.Has)
	if len(p.Roads()) > 0 && len(out.Vehicles) == 1 {
		out.Vehicles[0][RoadColumn] = decimal(p.Road(p.All))
	}
	for _, b := range rows {
		out.Breaks = append(out.Breaks, l.breakRow(p, b)...)
	}
	out.Even = even(p, out.Platform.Vehicles) && (len(p.Roads()) == 0 || len(out.Vehicles) == 1)
}

// even tells whether the vehicles on the road are spread evenly over all that exist, or no row says
// how many there are.
func even(p *decide.Platform, rows []*model.Vehicles) bool {
	roads := p.Roads()
	if len(roads) == 0 {
		return true
	}
	held := new(big.Int)
	for _, r := range roads {
		held.Add(held, p.CountIn(p.All, r.Box))
		if r.Per().Cmp(roads[0].Per()) != 0 {
			return false
		}
	}
	return len(roads) == len(rows) && held.Cmp(p.Count(p.All)) == 0
}
