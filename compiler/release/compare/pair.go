package compare

import (
	"math/big"
	"slices"

	"ferrule/compiler/judge/decide"
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
	tightly  bool         // see Options.Tight
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
	p := &pair{platform: f.platform, traits: f.traits, tightly: w.Tight}
	p.old.frame, p.new.frame = f.old, f.new
	p.old.own, p.old.free = split(f.hasOld)
	p.new.own, p.new.free = split(f.hasNew)
	var boxes []space.Box
	if v.old != nil {
		p.old.Platform = decide.Gather(f.oldIndex, v.old, &p.old.frame)
		boxes = p.old.Boxes()
	}
	if v.new != nil {
		p.new.Platform = decide.Gather(f.newIndex, v.new, &p.new.frame)
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
