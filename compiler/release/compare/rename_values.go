package compare

import (
	"context"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// renameValues joins values that the same vehicles have.
func (c *comparison) renameValues(ctx context.Context) error {
	for j, i := range c.traits.toOld {
		if i < 0 {
			continue
		}
		if err := c.renameValuesOf(ctx, c.old.Catalogue.Traits[i], c.new.Catalogue.Traits[j]); err != nil {
			return err
		}
	}
	return nil
}

func (c *comparison) renameValuesOf(ctx context.Context, old, new *model.Trait) error {
	values := c.values[new.Index]
	found, err := c.hold(ctx, c.both(), matches(values.gone(), values.came(), always),
		func(_ *worker, p *pair, m match) vote { return p.sameHolders(old, new, m) })
	if err != nil {
		return err
	}
	found, err = settleDoubts(found, func(doubtful []match) ([]match, error) {
		return c.hold(ctx, c.both(), doubtful, func(w *worker, p *pair, m match) vote { return w.sameThere(p, old, new, m) })
	})
	if err != nil {
		return err
	}
	for _, m := range found {
		values.join(m.old, m.new)
		c.tell(Rename{What: Value, Trait: new.Name, Old: old.Values[m.old].Name, New: new.Values[m.new].Name, Why: "the same vehicles have it"})
	}
	return nil
}

func always(match) bool { return true }

// sameHolders tells whether exactly the vehicles that have one value in OLD have another
// in NEW.
func (p *pair) sameHolders(old, new *model.Trait, m match) vote {
	i, j := p.old.number(old), p.new.number(new)
	switch {
	case i == 0 && j == 0:
		return silent
	case i != j:
		return against
	}
	was := p.with(&p.old, p.Project(p.old.all, p.shared()), old, m.old)
	is := p.with(&p.new, p.Project(p.new.all, p.shared()), new, m.new)
	if was == space.Empty && is == space.Empty {
		return silent
	}
	return judge(was == is)
}

// sameThere tells whether every position says the same of the vehicles with one value in
// OLD as of those with another in NEW.
func (w *worker) sameThere(p *pair, old, new *model.Trait, m match) vote {
	if p.old.number(old) == 0 || p.new.number(new) == 0 {
		return silent
	}
	for _, x := range w.placesOf() {
		if x.old == nil || x.new == nil {
			continue
		}
		if !w.known(p, x) {
			return against
		}
		was, is := w.look(p, isOld, x.old, p.old.all), w.look(p, isNew, x.new, p.new.all)
		same := sameStates(was, is,
			func(r space.Region) space.Region { return p.with(&p.old, r, old, m.old) },
			func(r space.Region) space.Region { return p.with(&p.new, r, new, m.new) })
		if !same {
			return against
		}
	}
	return bears
}
