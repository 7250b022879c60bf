package guide

import (
	"slices"
	"strconv"
	"strings"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Exist says which vehicles exist: boxes with `;` between them, in each the years and what
// else is restricted as `number=values`; "" where that is not known.
func (f *finder) Exist() string { return f.boxWords(f.exist) }

// boxWords says boxes as the script reads them.
func (f *finder) boxWords(boxes []space.Box) string {
	words := make([]string, len(boxes))
	for i, b := range boxes {
		terms := make([]string, 0, len(b))
		for n, t := range f.order {
			if set := b.At(t); t == 0 || set != nil && !f.occur(t).In(set) {
				terms = append(terms, strconv.Itoa(n)+"="+f.values(t, f.within(t, set)))
			}
		}
		words[i] = strings.Join(terms, " ")
	}
	return strings.Join(words, ";")
}

// occur gives the values of a trait that vehicles of the platform have.
func (f *finder) occur(trait int) space.Set {
	if trait == 0 {
		return space.All(len(f.guide.Platform.Years))
	}
	return f.uses[trait-1].Values
}

// within gives those of some values that occur; nil is any value.
func (f *finder) within(trait int, set space.Set) space.Set {
	if set == nil {
		return f.occur(trait)
	}
	return set.And(f.occur(trait))
}

func (f *finder) boxes(bs []model.Box) []space.Box {
	out := make([]space.Box, len(bs))
	for i, b := range bs {
		out[i] = f.guide.Box(b)
	}
	return out
}

// among gives the vehicles of a box, as boxes.
func (f *finder) among(box space.Box) []space.Box {
	var out []space.Box
	for _, b := range f.exist {
		if in, some := b.Intersect(box); some {
			out = append(out, in)
		}
	}
	return out
}

// meet tells whether any of some vehicles are in a box.
func meet(vehicles []space.Box, box space.Box) bool {
	return slices.ContainsFunc(vehicles, box.Meets)
}

// possible gives the values of a trait that some vehicles have.
func (f *finder) possible(vehicles []space.Box, trait int) space.Set {
	var out space.Set
	for _, b := range vehicles {
		out = out.Or(f.within(trait, b.At(trait)))
	}
	return out
}

// so says what is true of all vehicles of a box beyond what the box says: their years,
// and of traits the one value that they have.
func (f *finder) so(vehicles []space.Box, box space.Box) where {
	var out where
	for _, t := range f.order {
		set := f.possible(vehicles, t)
		if f.within(t, box.At(t)).In(set) {
			continue
		}
		if t == 0 {
			out.Years = unbroken(model.SpanWords(f.guide.Platform.Runs(set)))
		} else if trait := f.uses[t-1].Trait; set.Len() == 1 && !set.Has(trait.Absent()) {
			out.Terms = append(out.Terms, namesOf(trait, set))
		}
	}
	return out
}
