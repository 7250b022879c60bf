package compare

import (
	"cmp"
	"slices"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// platform compares one platform.
func (w *worker) platform(v versions) Diff {
	var d Diff
	p, err := w.open(v)
	if err != nil {
		if !w.allAlike(p) {
			d.Irregular = append(d.Irregular, Irregular{Platform: p.platform.Name})
		}
		return d
	}
	d.Splits = p.splits()
	if err := p.Try(func() { p.settle(); d.Fleets = p.fleets(v) }); err != nil {
		d.Irregular = append(d.Irregular, Irregular{Platform: p.platform.Name})
		return d
	}
	if v.old == nil || v.new == nil {
		return d
	}
	for _, pos := range w.placesOf() {
		if w.alike(p, pos.old, pos.new) {
			continue
		}
		changes, exact := w.position(p, pos)
		d.Changes = append(d.Changes, changes...)
		if !exact {
			d.Irregular = append(d.Irregular, Irregular{p.platform.Name, pos.name()})
		}
	}
	return d
}

// allAlike tells whether all rows about a platform are the same in both releases.
func (w *worker) allAlike(p *pair) bool {
	return p.sameVehicles() &&
		!slices.ContainsFunc(w.placesOf(), func(x places) bool { return !w.alike(p, x.old, x.new) })
}

// places are a position in both releases; nil where a release does not have it.
type places struct{ old, new *model.Position }

func (x places) name() string {
	if x.new != nil {
		return x.new.Name
	}
	return x.old.Name
}

// placesOf gives all positions: NEW's as declared, then those that only OLD has.
func (c *comparison) placesOf() []places {
	var out []places
	for j, p := range c.new.Catalogue.Positions {
		x := places{new: p}
		if i := c.positions.toOld[j]; i >= 0 {
			x.old = c.old.Catalogue.Positions[i]
		}
		out = append(out, x)
	}
	for _, i := range c.positions.gone() {
		out = append(out, places{old: c.old.Catalogue.Positions[i]})
	}
	return out
}

// splits tells the traits that the vehicles have in one release only.
func (p *pair) splits() []Split {
	if p.old.all == space.Empty || p.new.all == space.Empty {
		return nil
	}
	var out []Split
	for i, t := range p.traits {
		hasOld, hasNew := !slices.Contains(p.old.free, i+1), !slices.Contains(p.new.free, i+1)
		if hasOld != hasNew {
			out = append(out, Split{p.platform.Name, t.Name, hasOld})
		}
	}
	return out
}

// fleets tells the vehicles that one release does not have. It runs inside Try.
func (p *pair) fleets(v versions) []Fleet {
	var out []Fleet
	for _, x := range []struct {
		kind      Kind
		has, lack *half
		whole     bool
	}{{Appeared, &p.new, &p.old, v.old == nil}, {Vanished, &p.old, &p.new, v.new == nil}} {
		if where := p.lacking(x.has, x.lack); where != space.Empty {
			f := Fleet{Kind: x.kind, Platform: p.platform.Name, Whole: x.whole, Region: p.region(where, x.has, nil)}
			if x.lack.Platform != nil {
				for _, b := range x.lack.ExcludingOf(where) {
					f.Breaks = append(f.Breaks, b.At)
				}
			}
			out = append(out, f)
		}
	}
	return out
}

// position compares one position; false says that it is too irregular.
func (w *worker) position(p *pair, x places) (changes []Change, exact bool) {
	if !w.known(p, x) {
		return nil, false
	}
	defer p.Release(p.Mark())
	var found []difference
	err := p.Try(func() {
		old, new := w.look(p, isOld, x.old, p.common()), w.look(p, isNew, x.new, p.common())
		by := mention(p, old, new)
		p.differences(old, new, func(o, n *state, where space.Region) {
			found = append(found, w.tell(p, x, difference{was: o, is: n, old: old, new: new, where: where, by: by})...)
		})
	})
	if err != nil {
		return nil, false
	}
	slices.SortFunc(found, func(a, b difference) int {
		return cmp.Or(cmp.Compare(a.Kind, b.Kind), slices.Compare(a.first, b.first),
			cmp.Compare(a.was.key, b.was.key), cmp.Compare(a.is.key, b.is.key))
	})
	for _, d := range found {
		changes = append(changes, d.Change)
	}
	return changes, true
}

// known tells whether all is known about a position in both releases.
func (w *worker) known(p *pair, x places) bool {
	return w.exact(&p.old, isOld, x.old) && w.exact(&p.new, isNew, x.new)
}
