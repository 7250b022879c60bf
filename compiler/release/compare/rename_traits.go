package compare

import (
	"context"
	"slices"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// renameTraits joins traits that have the same values on the same vehicles.
func (c *comparison) renameTraits(ctx context.Context) error {
	a, b := c.old.Catalogue.Traits, c.new.Catalogue.Traits
	maybe := matches(c.traits.gone(), c.traits.came(), func(m match) bool { return c.declaredAlike(a[m.old], b[m.new]) })
	var found []match
	for _, m := range maybe {
		c.joinTrait(m)
		ok, err := c.hold(ctx, c.both(), []match{m}, func(_ *worker, p *pair, m match) vote {
			return p.sameFleet(a[m.old], b[m.new])
		})
		c.traits.part(m.old, m.new)
		if err != nil {
			return err
		}
		found = append(found, ok...)
	}
	for _, m := range single(found) {
		c.joinTrait(m)
		c.tell(Rename{What: Trait, Old: a[m.old].Name, New: b[m.new].Name, Why: "the same values on the same vehicles"})
	}
	return nil
}

func (c *comparison) tell(r Rename) { c.renames = append(c.renames, r) }

func (c *comparison) joinTrait(m match) {
	c.traits.join(m.old, m.new)
	c.values[m.new] = sameValues(c.old.Catalogue.Traits[m.old], c.new.Catalogue.Traits[m.new])
}

// declaredAlike tells whether two traits have the same kind and the same values; of numbers and
// dates the same on every platform of both releases.
func (c *comparison) declaredAlike(a, b *model.Trait) bool {
	if a.Kind == b.Kind && a.Kind.OnLine() {
		return len(a.Extents) > 0 && !slices.ContainsFunc(c.both(), func(v versions) bool { return !a.Extent(v.old).Equal(b.Extent(v.new)) })
	}
	l := sameValues(a, b)
	return a.Kind == b.Kind && len(a.Values) > 0 && len(l.gone()) == 0 && len(l.came()) == 0
}

// sameFleet tells whether OLD's vehicles with one trait are NEW's with another, as far as
// one release has all of the other's.
func (p *pair) sameFleet(old, new *model.Trait) vote {
	i, j := p.old.number(old), p.new.number(new)
	switch {
	case i == 0 && j == 0:
		return silent
	case i != j:
		return against
	}
	was, is := p.Project(p.old.all, p.shared()), p.Project(p.new.all, p.shared())
	return judge(p.Minus(was, is) == space.Empty || p.Minus(is, was) == space.Empty)
}
