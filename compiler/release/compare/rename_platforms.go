package compare

import (
	"context"
	"slices"

	"ferrule/compiler/space"
)

// renamePlatforms joins platforms that have the same vehicles.
func (c *comparison) renamePlatforms(ctx context.Context) error {
	a, b := c.old.Catalogue.Platforms, c.new.Catalogue.Platforms
	found := matches(c.platforms.gone(), c.platforms.came(), func(m match) bool {
		return slices.Equal(a[m.old].Years, b[m.new].Years)
	})
	found, err := c.platformsThat(ctx, found, (*worker).sameVehicles)
	if err != nil {
		return err
	}
	found, err = settleDoubts(found, func(doubtful []match) ([]match, error) {
		return c.platformsThat(ctx, doubtful, (*worker).sameEverywhere)
	})
	if err != nil {
		return err
	}
	for _, m := range found {
		c.platforms.join(m.old, m.new)
		c.tell(Rename{What: Platform, Old: a[m.old].Name, New: b[m.new].Name, Why: "the same vehicles"})
	}
	return nil
}

// platformsThat gives the matches of platforms that meet a criterion.
func (c *comparison) platformsThat(ctx context.Context, all []match, meet func(*worker, *pair) bool) ([]match, error) {
	good := make([]bool, len(all))
	err := c.each(ctx, len(all), func(w *worker, i int) {
		p, err := w.open(versions{c.old.Catalogue.Platforms[all[i].old], c.new.Catalogue.Platforms[all[i].new]})
		if err == nil && p.Try(func() { good[i] = meet(w, p) }) != nil {
			good[i] = false
		}
	})
	var out []match
	for i, m := range all {
		if good[i] {
			out = append(out, m)
		}
	}
	return out, err
}

// sameVehicles tells whether both releases have the same vehicles, told apart by the
// same traits.
func (w *worker) sameVehicles(p *pair) bool {
	return len(p.old.free) == 0 && len(p.new.free) == 0 && p.old.all != space.Empty && p.old.all == p.new.all
}

// sameEverywhere tells whether both releases say the same of every position.
func (w *worker) sameEverywhere(p *pair) bool {
	for _, x := range w.placesOf() {
		if w.alike(p, x.old, x.new) {
			continue
		}
		if !w.known(p, x) {
			return false
		}
		same := true
		p.differences(w.look(p, isOld, x.old, p.common()), w.look(p, isNew, x.new, p.common()),
			func(_, _ *state, _ space.Region) { same = false })
		if !same {
			return false
		}
	}
	return true
}
