package compare

import (
	"slices"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

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
