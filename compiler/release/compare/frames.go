package compare

import (
	"slices"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/line"
	"ferrule/compiler/model"
)

// frames is the space of a platform in both releases.
type frames struct {
	platform       *model.Platform
	traits         []*model.Trait
	hasOld, hasNew []bool // by trait of the space, without the year
	old, new       decide.Frame
	oldIndex       *decide.Index // cut as both releases cut the platform
	newIndex       *decide.Index
	inOld          []*model.Trait // the traits of OLD as they are on the platform
}

// frames lays the traits of both releases out: NEW's in their order, then those that
// only OLD has.
func (c *comparison) frames(v versions) *frames {
	f := &frames{platform: &model.Platform{}}
	f.oldIndex, f.newIndex = c.cut(v)
	inNew := local(f.newIndex, c.new, v.new)
	f.inOld = local(f.oldIndex, c.old, v.old)
	f.old.Axes, f.new.Axes = axes(f.inOld), axes(inNew)
	f.years(v)
	for j, t := range inNew {
		i := c.traits.toOld[j]
		hasOld := i >= 0 && c.old.uses(v.old, i)
		if hasNew := c.new.uses(v.new, j); hasOld || hasNew {
			f.add(hasOld, hasNew)
			f.traits = append(f.traits, c.joint(t, i, f))
		}
	}
	for i, t := range f.inOld {
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

// local gives the traits of a release as they are on a platform, which it may not have.
func local(x *decide.Index, s *side, p *model.Platform) []*model.Trait {
	if p == nil {
		return s.Catalogue.Traits
	}
	return x.Local(p)
}

// cut gives the indexes of both releases so that traits on a line are cut on the platform wherever
// one of them says so, or where what there is begins or ends in one of them.
func (c *comparison) cut(v versions) (old, new *decide.Index) {
	inOld, inNew := c.old.cuts(v.old), c.new.cuts(v.new)
	for i, j := range c.traits.toNew {
		if t := c.old.Catalogue.Traits[i]; j >= 0 && t.Kind.OnLine() && v.old != nil && v.new != nil {
			both := slices.Concat(inOld[i], inNew[j], []line.Set{t.Extent(v.old), c.new.Catalogue.Traits[j].Extent(v.new)})
			inOld[i], inNew[j] = both, both
		}
	}
	return c.old.cutAt(inOld), c.new.cutAt(inNew)
}

// cuts gives where a release cuts a platform, which it may not have: by its rows, and by what was
// found there. A staff's folder has no rows of Facts, by which findings are cut all the same.
func (s *side) cuts(p *model.Platform) decide.Cuts {
	if p == nil || len(s.Catalogue.OnLine()) == 0 {
		return decide.Cuts{}
	}
	cuts := s.index.Cuts(p)
	for _, a := range s.Guides[p.Index].Answers {
		cuts.Boxes(a.Unsettled)
		for _, against := range a.Against {
			cuts.Boxes(against.Where)
		}
	}
	for _, f := range s.found[p.Name] {
		cuts.Boxes(f.Region.Open().Where)
	}
	return cuts
}

func (s *side) cutAt(cuts decide.Cuts) *decide.Index {
	if len(cuts) == 0 {
		return s.index
	}
	return s.index.Also(func(*model.Platform) decide.Cuts { return cuts })
}

// axes gives an axis for each trait of a release, all without a place in the space.
func axes(traits []*model.Trait) []decide.Axis {
	out := make([]decide.Axis, len(traits))
	for i, t := range traits {
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
		if t.Kind.OnLine() {
			toNew = sameStretches(f.inOld[i], t)
		}
		for k, v := range f.inOld[i].Values {
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

// sameStretches gives for each stretch of OLD the one of NEW that has the same values, -1 for none:
// cut alike, they are the same or have nothing in common.
func sameStretches(old, new *model.Trait) []int {
	out := make([]int, len(old.Values))
	for i, v := range old.Values {
		out[i] = slices.IndexFunc(new.Values, func(w *model.Value) bool { return v.Stretch == w.Stretch })
	}
	return out
}
