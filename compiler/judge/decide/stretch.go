package decide

import (
	"math/big"
	"slices"
	"sync"

	"ferrule/compiler/line"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Cuts says, for each trait on a line by its index, at which conditions it has to be cut, so
// that each of them holds for all of a stretch or for none of it.
type Cuts map[int][]line.Set

func (c Cuts) when(w *model.When) {
	w.LineConditions(func(t *model.Trait, ranges line.Set) { c[t.Index] = append(c[t.Index], ranges) })
}

func (c Cuts) set(t model.TraitSet) { c.when(&model.When{Traits: []model.TraitSet{t}}) }

// Boxes adds cuts so that every stretch is in each of the boxes as a whole or not at all.
func (c Cuts) Boxes(bs []model.Box) {
	for _, b := range bs {
		c.when(&model.When{Traits: b.Traits})
	}
}

// Cuts gives the conditions of all rows that are about a platform; of a condition on which
// vehicles are looked at as well.
func (x *Index) Cuts(p *model.Platform) Cuts {
	cuts, i := Cuts{}, p.Index
	for _, v := range x.vehicles[i] {
		cuts.when(&v.When)
	}
	for _, b := range x.breaks[i] {
		cuts.when(&b.When)
		cuts.set(b.Value)
	}
	for _, f := range x.fitments[i] {
		cuts.when(&f.When)
	}
	for _, r := range x.rules[i] {
		cuts.when(&r.When)
	}
	for _, r := range x.positions[i] {
		cuts.when(&r.When)
	}
	for _, r := range x.facts[i] {
		cuts.when(&r.When)
	}
	for _, c := range x.complains[i] {
		cuts.when(&c.When)
	}
	for _, n := range x.inspects[i] {
		cuts.when(&n.When)
	}
	for _, a := range x.accepted[i] {
		cuts.when(&a.When)
	}
	if x.within != nil {
		cuts.when(x.within)
	}
	return cuts
}

// Also gives the index with further cuts for each platform, such as those of another release.
func (x *Index) Also(cuts func(*model.Platform) Cuts) *Index {
	out := *x
	out.also = cuts
	return &out
}

// Local gives the traits as they are on a platform, with the stretches of those on a line.
func (x *Index) Local(p *model.Platform) []*model.Trait { return x.on(p).Traits }

// on gives the catalogue as it is on a platform.
func (x *Index) on(p *model.Platform) *model.Catalogue {
	if len(x.onLine) == 0 {
		return x.cat
	}
	cuts := x.Cuts(p)
	if x.also != nil {
		for i, more := range x.also(p) {
			cuts[i] = append(cuts[i], more...)
		}
	}
	out := *x.cat
	out.Traits = slices.Clone(x.cat.Traits)
	for _, t := range x.onLine {
		out.Traits[t.Index] = t.Cut(p, cuts[t.Index])
	}
	return &out
}

// measured notes how long the stretches are; 'does not apply' counts one. In a space that is shared
// a trait that no vehicle of the platform has is not measured.
func (p *Platform) measured(x *Index) {
	for _, t := range x.onLine {
		local := p.Cat.Traits[t.Index]
		trait, at := t.Index+1, func(v int) int { return v }
		if p.frame != nil {
			axis := p.frame.Axes[t.Index]
			if axis.Free {
				continue
			}
			trait, at = axis.Trait, func(v int) int { return axis.Values[v] }
		}
		for len(p.measure) <= trait {
			p.measure = append(p.measure, nil)
		}
		for v, value := range local.Values {
			for i := at(v); i >= len(p.measure[trait]); {
				p.measure[trait] = append(p.measure[trait], big.NewInt(1))
			}
			p.measure[trait][at(v)] = big.NewInt(value.Stretch.Len())
		}
	}
}

// Measure says how much a configuration counts where vehicles on the road are spread: as much as
// its stretches have numbers or days.
func (p *Platform) Measure() space.Measure { return p.measure }

// Weigh counts configurations of a region in a box, as Measure says.
func (p *Platform) Weigh(r space.Region, b space.Box) *big.Int {
	if p.measure == nil {
		return p.CountIn(r, b)
	}
	return p.Space.Weigh(r, b, p.measure)
}

// leftovers remembers what Breaks rows leave of Vehicles rows that are about several platforms,
// each of which asks.
type leftovers struct{ per sync.Map }

// per gives how many vehicles on the road fall to each configuration of a row: they are spread
// over what exists of it on all its platforms. It is false where the row does not say how many
// there are, or is about none.
func (x *Index) per(v *model.Vehicles) (*big.Rat, bool) {
	if !v.Road.Stated() {
		return nil, false
	}
	known, ok := x.left.per.Load(v)
	if !ok {
		known, _ = x.left.per.LoadOrStore(v, x.share(v))
	}
	per := known.(*big.Rat)
	return per, per != nil
}

// share works out what per remembers; nil for nothing.
func (x *Index) share(v *model.Vehicles) *big.Rat {
	all := new(big.Int)
	for _, p := range v.When.On(x.cat) {
		left := x.leftOf(v, p)
		if left == nil {
			return nil
		}
		all.Add(all, left)
	}
	if all.Sign() == 0 {
		return nil
	}
	return new(big.Rat).Quo(v.Road.Rat, new(big.Rat).SetInt(all))
}

// leftOf weighs what exists of a row on a platform; nil where that is too irregular, so that
// nothing is said of the platform either.
func (x *Index) leftOf(v *model.Vehicles, p *model.Platform) *big.Int {
	if len(x.breaks[p.Index]) == 0 {
		return v.Weight(p)
	}
	out := &Platform{Model: p, Cat: x.on(p)}
	out.measured(x)
	out.breakRows(x.breaks[p.Index])
	out.vehicles = []space.Box{out.Bounds(&v.When)}
	if out.Enter(space.New(out.sizes(), space.Options{})) != nil {
		return nil
	}
	return out.Weigh(out.All, nil)
}

// Per gives how many vehicles on the road fall to each configuration of a Vehicles row; false
// where the row does not say.
func (x *Index) Per(v *model.Vehicles) (*big.Rat, bool) { return x.per(v) }
