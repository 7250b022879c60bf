package compare

import (
	"cmp"
	"context"
	"slices"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/schema/word"
)

// roles gives the matches of which the new number is wherever the old one was.
func (r *partRenames) roles(ctx context.Context) (map[partMatch]bool, error) {
	if len(r.old) == 0 || len(r.new) == 0 {
		return nil, ctx.Err()
	}
	on := r.c.both()
	seen := make([]roles, len(on))
	err := r.c.each(ctx, len(on), func(w *worker, i int) {
		seen[i] = roles{r, map[partMatch]bool{}, map[string]bool{}, map[string]bool{}}
		if p, err := w.open(on[i]); err != nil {
			seen[i].failAll()
		} else {
			seen[i].platform(w, p)
		}
	})
	all := map[partMatch]bool{}
	for _, s := range seen {
		for m := range s.met {
			all[m] = true
		}
	}
	for _, s := range seen {
		for m := range all {
			if s.notOld[m.old] || s.notNew[m.new] {
				delete(all, m)
			}
		}
	}
	return all, err
}

// roles is what one platform says of the numbers that only one release offers: which
// stand where which stood, and which stand where none or something else did.
type roles struct {
	*partRenames
	met            map[partMatch]bool
	notOld, notNew map[string]bool
}

// failAll speaks against every number, where nothing can be known.
func (s *roles) failAll() {
	for number := range s.old {
		s.notOld[number] = true
	}
	for number := range s.new {
		s.notNew[number] = true
	}
}

func (s *roles) platform(w *worker, p *pair) {
	for _, x := range w.placesOf() {
		if x.old == nil || x.new == nil || w.alike(p, x.old, x.new) {
			continue
		}
		mark := p.Mark()
		err := p.Try(func() {
			p.differences(w.look(p, isOld, x.old, p.common()), w.look(p, isNew, x.new, p.common()),
				func(o, n *state, _ space.Region) { s.difference(o.Answer, n.Answer) })
		})
		p.Release(mark)
		if err != nil || !w.known(p, x) {
			s.failAll()
		}
	}
}

// difference takes what two answers on the same vehicles tell.
func (s *roles) difference(old, new Answer) {
	ok := len(old.Alternatives) == len(new.Alternatives)
	var found []partMatch
	for i := 0; ok && i < len(old.Alternatives); i++ {
		found, ok = s.items(found, old.Alternatives[i], new.Alternatives[i], map[partMatch]bool{})
	}
	if ok {
		for _, m := range found {
			s.met[m] = true
		}
		return
	}
	(&model.Fits{Alternatives: old.Alternatives}).Parts(func(p *model.Part) { s.notOld[word.Fold(p.Number)] = true })
	(&model.Fits{Alternatives: new.Alternatives}).Parts(func(p *model.Part) { s.notNew[word.Fold(p.Number)] = true })
}

// items adds the matches with which two lists of parts fitted together are the same;
// false where there are none, or more than one way. done are kits that were opened: each pair is once.
func (s *roles) items(found []partMatch, old, new model.Alternative, done map[partMatch]bool) ([]partMatch, bool) {
	old, new = slices.Clone(old), slices.Clone(new)
	for i := len(old) - 1; i >= 0; i-- {
		m := partMatch{s.c.number(isOld, old[i].Part), ""}
		k := slices.IndexFunc(new, func(it model.Item) bool {
			return s.c.number(isNew, it.Part) == m.old && it.Quantity == old[i].Quantity
		})
		if k < 0 {
			continue
		}
		ok := true
		if found, ok = s.kits(found, old[i].Part, new[k].Part, done); !ok {
			return nil, false
		}
		old, new = slices.Delete(old, i, i+1), slices.Delete(new, k, k+1)
	}
	byQuantity := func(a, b model.Item) int { return cmp.Compare(a.Quantity, b.Quantity) }
	slices.SortStableFunc(old, byQuantity)
	slices.SortStableFunc(new, byQuantity)
	if len(old) != len(new) {
		return nil, false
	}
	for i := range old {
		m := partMatch{word.Fold(old[i].Part.Number), word.Fold(new[i].Part.Number)}
		if old[i].Quantity != new[i].Quantity || i > 0 && old[i-1].Quantity == old[i].Quantity || !s.may(m) {
			return nil, false
		}
		ok := true
		if found, ok = s.kits(append(found, m), old[i].Part, new[i].Part, done); !ok {
			return nil, false
		}
	}
	return found, true
}

// kits adds the matches with which two kits hold the same.
func (s *roles) kits(found []partMatch, old, new *model.Part, done map[partMatch]bool) ([]partMatch, bool) {
	at := partMatch{old.Number, new.Number}
	if old.Kit() != new.Kit() {
		return nil, false
	}
	if !old.Kit() || done[at] {
		return found, true
	}
	done[at] = true
	return s.items(found, Contents(old), Contents(new), done)
}
