package offer

import (
	"context"
	"errors"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge"
	"ferrule/compiler/judge/accept"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// Found is all that the guides of a catalogue say of one part.
type Found struct {
	Part   *model.Part
	Offers []Offer
	Rules  []Rule
	Held   []Place // where a cell that decides names it and is not to be relied on, or says see note
	Vague  []Place // where a cell names it, and what holds there is too irregular to be worked out
}

// Place is a position of a platform.
type Place struct {
	Platform *model.Platform
	Position *model.Position
}

// Find works out where some parts are offered. Only the platforms are looked at that a cell
// about one of the parts is about, or a rule. The error is the context's, or that of a file.
func Find(ctx context.Context, cat *model.Catalogue, parts []*model.Part) (_ []Found, err error) {
	out := make([]Found, len(parts))
	for i, p := range parts {
		out[i].Part = p
	}
	on := concern(cat, parts)
	if len(on) == 0 {
		return out, nil
	}
	store := New(cat, "")
	defer func() { err = errors.Join(err, store.Close()) }()
	guides := make([]error, len(on))
	_, err = judge.Platforms(ctx, cat, judge.Options{
		Ledger: accept.New(&model.Catalogue{}, ""), // what somebody accepted holds against a part all the same
		Use:    accept.Use{}, Cases: true, Within: &model.When{Platforms: on},
		Guide: func(i int, g *decide.Guide) { guides[i] = store.find(g, out) },
	}, func(*finding.Finding) {})
	if err = errors.Join(err, errors.Join(guides...)); err != nil {
		return nil, err
	}
	for i := range out {
		if err := store.fill(&out[i]); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// concern gives the platforms that a cell or a rule about some parts is about, as declared.
func concern(cat *model.Catalogue, parts []*model.Part) []*model.Platform {
	wanted := map[*model.Platform]bool{}
	want := func(w *model.When) {
		for _, p := range w.On(cat) {
			wanted[p] = true
		}
	}
	for _, f := range cat.Fitments {
		if slices.ContainsFunc(f.Cells, func(c *model.FitCell) bool { return names(c, parts) }) {
			want(&f.When)
		}
	}
	for _, r := range cat.Rules {
		for _, p := range parts {
			if concernsInside(r, p) {
				want(&r.When)
			}
		}
	}
	return slices.DeleteFunc(slices.Clone(cat.Platforms), func(p *model.Platform) bool { return !wanted[p] })
}

// names tells whether a cell names one of some parts, or a kit that holds one.
func names(c *model.FitCell, parts []*model.Part) bool {
	found := false
	c.Fits.Parts(func(p *model.Part) { found = found || slices.Contains(parts, p) })
	return found
}

// concernsInside tells whether a rule is about a part or what it holds.
func concernsInside(r *model.Rule, p *model.Part) bool {
	var inside []*model.Part
	p.Within(func(in *model.Part) { inside = append(inside, in) })
	return concerned(r, inside) != nil
}

// find takes the offers of a guide, and notes where parts are named in vain.
func (l *Store) find(g *decide.Guide, found []Found) error {
	l.mu.Lock()
	for i := range found {
		for _, a := range g.Answers {
			found[i].note(Place{g.Platform, a.Position}, a, l.cat)
		}
	}
	l.mu.Unlock()
	return l.Add(g)
}

// note says of a place whether the part is named there in vain.
func (f *Found) note(at Place, a *decide.Answer, cat *model.Catalogue) {
	one := []*model.Part{f.Part}
	if !a.Exact {
		for _, row := range cat.Fitments {
			if row.When.Concerns(at.Platform) && slices.ContainsFunc(row.Cells, func(c *model.FitCell) bool { return c.Position == at.Position && names(c, one) }) {
				f.Vague = append(f.Vague, at)
				return
			}
		}
		return
	}
	for i := range a.Cases {
		c := &a.Cases[i]
		if (c.Withheld() || c.Outcome == model.Conflict) && slices.ContainsFunc(c.Cells, func(c *model.FitCell) bool { return names(c, one) }) {
			f.Held = append(f.Held, at)
			return
		}
	}
}

// fill reads back what was written down of a part.
func (l *Store) fill(f *Found) (err error) {
	if f.Offers, err = l.Of(f.Part); err != nil {
		return err
	}
	f.Rules, err = l.Rules(f.Part)
	byPlatform := func(a, b Place) int { return a.Platform.Index - b.Platform.Index }
	slices.SortStableFunc(f.Held, byPlatform)
	slices.SortStableFunc(f.Vague, byPlatform)
	return err
}
