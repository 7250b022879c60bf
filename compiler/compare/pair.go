package compare

import (
	"math/big"
	"slices"

	"ferrule/compiler/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// pair is one platform in both releases, in one space: trait 0 is the year, trait i+1 is
// traits[i].
type pair struct {
	*space.Space
	platform *model.Platform // the name that is told, and the years of either
	traits   []*model.Trait  // with the values of either
	old, new half
	exists   space.Region // see settle
}

// half is one release of a pair.
type half struct {
	*decide.Platform // nil where the release does not have the platform
	frame            decide.Frame
	all              space.Region // its vehicles, with any value of the traits it does not use
	own              []int        // the year and the traits of the space that it uses
	free             []int        // the traits of the space that it does not use
}

// shared gives the year and the traits that both releases use.
func (p *pair) shared() []int {
	return slices.DeleteFunc(slices.Clone(p.new.own), func(t int) bool { return !slices.Contains(p.old.own, t) })
}

// common gives the configurations that exist in both releases.
func (p *pair) common() space.Region { return p.Intersect(p.old.all, p.new.all) }

// lacking gives the vehicles of one release that the other does not have, whatever the
// traits that the one alone uses.
func (p *pair) lacking(has, lack *half) space.Region {
	return p.Minus(has.all, p.Project(lack.all, p.shared()))
}

// settle works out what boxes about both releases are exact among: the configurations
// that exist in both, and the vehicles that one does not have. It runs inside Try.
func (p *pair) settle() {
	p.exists = p.UnionAll([]space.Region{p.common(), p.lacking(&p.new, &p.old), p.lacking(&p.old, &p.new)})
}

// open puts a platform of both releases into one space, which is the worker's until it
// opens the next. ErrBudget says that the vehicles are too irregular; then the halves
// are gathered, and no region is there.
func (w *worker) open(v versions) (*pair, error) {
	f := w.frames(v)
	p := &pair{platform: f.platform, traits: f.traits}
	p.old.frame, p.new.frame = f.old, f.new
	p.old.own, p.old.free = split(f.hasOld)
	p.new.own, p.new.free = split(f.hasNew)
	var boxes []space.Box
	if v.old != nil {
		p.old.Platform = decide.Gather(w.old.index, v.old, &p.old.frame)
		boxes = p.old.Boxes()
	}
	if v.new != nil {
		p.new.Platform = decide.Gather(w.new.index, v.new, &p.new.frame)
		boxes = append(boxes, p.new.Boxes()...)
	}
	sizes := f.sizes()
	o := space.Options{Order: space.Order(len(sizes), boxes), Budget: w.Budget}
	if w.arena == nil {
		w.arena = space.New(sizes, o)
	} else {
		w.arena.Reset(sizes, o)
	}
	p.Space = w.arena
	for _, h := range []*half{&p.old, &p.new} {
		if h.Platform == nil {
			continue
		}
		if err := h.Enter(w.arena); err != nil {
			return p, err
		}
		h.all = h.All
	}
	return p, nil
}

// frames is the space of a platform in both releases.
type frames struct {
	platform       *model.Platform
	traits         []*model.Trait
	hasOld, hasNew []bool // by trait of the space, without the year
	old, new       decide.Frame
}

// frames lays the traits of both releases out: NEW's in their order, then those that
// only OLD has.
func (c *comparison) frames(v versions) *frames {
	f := &frames{platform: &model.Platform{}}
	f.old.Axes, f.new.Axes = axes(c.old), axes(c.new)
	f.years(v)
	for j, t := range c.new.Catalogue.Traits {
		i := c.traits.toOld[j]
		hasOld := i >= 0 && c.old.uses(v.old, i)
		if hasNew := c.new.uses(v.new, j); hasOld || hasNew {
			f.add(hasOld, hasNew)
			f.traits = append(f.traits, c.joint(t, i, f))
		}
	}
	for i, t := range c.old.Catalogue.Traits {
		if c.traits.toNew[i] < 0 && c.old.uses(v.old, i) {
			f.add(true, false)
			f.traits = append(f.traits, t)
			f.old.Axes[i] = decide.Axis{Trait: len(f.traits), Values: numbers(len(t.Values) + 1)}
		}
	}
	return f
}

// uses tells whether a vehicle of the platform has the trait; none does where the
// release does not have the platform.
func (s *side) uses(p *model.Platform, trait int) bool { return p != nil && s.has[p.Index][trait] }

// axes gives an axis for each trait of a release, all without a place in the space.
func axes(s *side) []decide.Axis {
	out := make([]decide.Axis, len(s.Catalogue.Traits))
	for i, t := range s.Catalogue.Traits {
		out[i] = decide.Axis{Values: make([]int, len(t.Values)+1), Free: true}
	}
	return out
}

func (f *frames) add(hasOld, hasNew bool) {
	f.hasOld, f.hasNew = append(f.hasOld, hasOld), append(f.hasNew, hasNew)
}

// split gives the year and the traits of the space that a release uses, and the others.
func split(has []bool) (own, free []int) {
	own = []int{0}
	for i, yes := range has {
		if yes {
			own = append(own, i+1)
		} else {
			free = append(free, i+1)
		}
	}
	return own, free
}

// years joins the years of both releases.
func (f *frames) years(v versions) {
	var all []int
	for _, p := range []*model.Platform{v.old, v.new} {
		if p != nil {
			f.platform.Name = p.Name // NEW's, where it has one
			all = append(all, p.Years...)
		}
	}
	slices.Sort(all)
	f.platform.Years = slices.Compact(all)
	number := func(p *model.Platform) []int {
		if p == nil {
			return nil
		}
		out := make([]int, len(p.Years))
		for i, y := range p.Years {
			out[i], _ = slices.BinarySearch(f.platform.Years, y)
		}
		return out
	}
	f.old.Years, f.new.Years = number(v.old), number(v.new)
}

// joint gives the next trait of the space, a trait of NEW with what OLD declares of it
// besides; i is its index in OLD, -1 for none. NEW's values come first.
func (c *comparison) joint(t *model.Trait, i int, f *frames) *model.Trait {
	at := len(f.traits) + 1
	out := *t
	var toNew []int
	if i >= 0 {
		out.Values = slices.Clone(t.Values)
		toNew = slices.Clone(c.values[t.Index].toNew)
		for k, v := range c.old.Catalogue.Traits[i].Values {
			if toNew[k] < 0 {
				toNew[k] = len(out.Values)
				out.Values = append(out.Values, v)
			}
		}
		f.old.Axes[i] = decide.Axis{Trait: at, Values: append(toNew, len(out.Values)), Free: !f.hasOld[at-1]}
	}
	values := numbers(len(t.Values))
	f.new.Axes[t.Index] = decide.Axis{Trait: at, Values: append(values, len(out.Values)), Free: !f.hasNew[at-1]}
	return &out
}

func numbers(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

// sizes gives the number of values of each trait of the space.
func (f *frames) sizes() []int {
	sizes := []int{max(1, len(f.platform.Years))}
	for _, t := range f.traits {
		sizes = append(sizes, t.Absent()+1)
	}
	return sizes
}

// count gives the number of vehicles of a release in a region that does not depend on
// the traits that it does not use.
func (p *pair) count(h *half, r space.Region) *big.Int {
	n := p.Count(r)
	return n.Quo(n, p.spread(h))
}

// spread is how many configurations of the space stand for one of a release.
func (p *pair) spread(h *half) *big.Int {
	n := big.NewInt(1)
	for _, t := range h.free {
		n.Mul(n, big.NewInt(int64(p.Size(t))))
	}
	return n
}

// road gives how many vehicles of a release are on the road that have a configuration
// in the region.
func (p *pair) road(h *half, r space.Region) *big.Rat {
	if h.Platform == nil {
		return new(big.Rat)
	}
	if len(h.free) > 0 {
		r = p.Intersect(p.Project(r, h.own), h.all)
	}
	sum := h.Road(r)
	return sum.Quo(sum, new(big.Rat).SetInt(p.spread(h)))
}
