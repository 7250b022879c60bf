package compare

import (
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// state is one thing that a release says of a position, with where it does.
type state struct {
	Answer
	key   string // equal for what is the same in both releases
	where space.Region
}

// view is a position in one release of a pair.
type view struct {
	side     which
	half     *half
	position *model.Position // nil where the release does not have it
	place    *decide.Mount   // nil with position
	states   []state         // they share no configuration, and together hold those looked at
}

// look works out what a release says of a position on some vehicles that it has. It runs
// inside Try.
func (w *worker) look(p *pair, s which, position *model.Position, within space.Region) *view {
	v := &view{side: s, half: p.half(s), position: position}
	if position == nil {
		v.add(p, Answer{}, "nowhere", within)
		return v
	}
	v.place = decide.NewMount(v.half.Platform, position)
	v.add(p, Answer{}, "nowhere", p.Minus(within, v.place.Exists))
	for o := range model.Outcomes {
		if o != model.Fitted {
			v.add(p, Answer{Exists: true, Outcome: o}, o.String(), p.Intersect(within, v.place.Outcome[o]))
		}
	}
	w.offers(p, v, within)
	return v
}

func (p *pair) half(s which) *half {
	if s == isOld {
		return &p.old
	}
	return &p.new
}

func (v *view) add(p *pair, a Answer, key string, where space.Region) {
	if where != space.Empty {
		v.states = append(v.states, state{a, key, where})
	}
}

// offers adds what is fitted: each fit once, settled and unsettled apart.
func (w *worker) offers(p *pair, v *view, within space.Region) {
	wrong := p.UnionBoxes(w.unsettled(v.half, v.side, v.position))
	index := map[string]int{}
	var fits []state
	for _, o := range v.place.Offers() {
		key := w.key(v.side, o.Fits, o.Quantity)
		i, ok := index[key]
		if !ok {
			i = len(fits)
			index[key] = i
			fits = append(fits, state{Answer{Exists: true, Outcome: model.Fitted, With: o.Fits.With, Alternatives: filled(o)}, key, space.Empty})
		}
		fits[i].where = p.Union(fits[i].where, o.Where)
	}
	for _, f := range fits {
		where := p.Intersect(f.where, within)
		v.add(p, f.Answer, "unsettled "+f.key, p.Intersect(where, wrong))
		f.Settled = true
		v.add(p, f.Answer, "settled "+f.key, p.Minus(where, wrong))
	}
}

func filled(o decide.Offer) []model.Alternative {
	var out []model.Alternative
	for _, a := range o.Fits.Alternatives {
		out = append(out, a.Filled(o.Quantity))
	}
	return out
}

// answer gives what the run on one release found out about a position.
func (c *comparison) answer(h *half, s which, position *model.Position) *decide.Answer {
	return c.side(s).Guides[h.Model.Index].Answers[position.Index]
}

func (c *comparison) side(s which) *side {
	if s == isOld {
		return c.old
	}
	return c.new
}

// unsettled gives where a check found what is fitted wrong, as boxes of the space.
func (c *comparison) unsettled(h *half, s which, position *model.Position) []space.Box {
	a := c.answer(h, s, position)
	out := make([]space.Box, len(a.Unsettled))
	for i, b := range a.Unsettled {
		out[i] = h.box(b)
	}
	return out
}

// box gives a box in the words of a release as one of the space.
func (h *half) box(b model.Box) space.Box {
	w := model.When{Traits: b.Traits}
	if b.Years != nil {
		w.Years = &model.Years{Spans: b.Years}
	}
	return h.Bounds(&w)
}

// exact tells whether all is known about a position in a release.
func (c *comparison) exact(h *half, s which, position *model.Position) bool {
	if position == nil {
		return true
	}
	a := c.answer(h, s, position)
	return a.Exact && !a.Unlisted
}

// differences calls f for each two things that OLD and NEW say of one position on
// the same vehicles and that are not the same, with those vehicles.
func (p *pair) differences(old, new *view, f func(old, new *state, where space.Region)) {
	left := p.common()
	for i := range old.states {
		for k := range new.states {
			if o, n := &old.states[i], &new.states[k]; o.key == n.key {
				left = p.Minus(left, p.Intersect(o.where, n.where))
			}
		}
	}
	for i := range old.states {
		was := p.Intersect(old.states[i].where, left)
		for k := 0; k < len(new.states) && was != space.Empty; k++ {
			if where := p.Intersect(was, new.states[k].where); where != space.Empty {
				f(&old.states[i], &new.states[k], where)
				was = p.Minus(was, where)
			}
		}
	}
}
