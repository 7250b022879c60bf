package decide

import (
	"slices"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Vehicles are some vehicles of a platform, and what was said to choose them. They answer
// what guides ask, also when the space that decided them is gone. Traits have the numbers
// of a Finder.
type Vehicles struct {
	guide *Guide
	boxes []space.Box // that together hold them
	said  space.Box
}

// Exist gives all vehicles that exist; none where those are not known.
func (g *Guide) Exist() Vehicles {
	out := Vehicles{guide: g, boxes: make([]space.Box, len(g.Vehicles))}
	for i, b := range g.Vehicles {
		out.boxes[i] = g.Box(b)
	}
	return out
}

// Of gives all that boxes hold, whether or not such vehicles exist; no boxes hold
// everything.
func (g *Guide) Of(boxes ...model.Box) Vehicles {
	out := Vehicles{guide: g, boxes: make([]space.Box, max(1, len(boxes)))}
	for i, b := range boxes {
		out.boxes[i] = g.Box(b)
	}
	return out
}

// Occur gives the values of a trait that vehicles of the platform have, and of the year
// all that it was made in.
func (g *Guide) Occur(trait int) Values {
	if trait == 0 {
		return Values(space.All(len(g.Platform.Years)))
	}
	i, found := slices.BinarySearchFunc(g.Traits, trait-1, func(t model.TraitSet, index int) int { return t.Trait.Index - index })
	if !found {
		return nil
	}
	return Values(g.Traits[i].Values)
}

// Years gives years of the platform as ranges that hold no other year.
func (g *Guide) Years(in Values) []model.Span { return g.Platform.Runs(space.Set(in)) }

// Box gives a box in the words of the catalogue as one of the platform's space, for what
// is worked out about a guide; those who write one ask Vehicles.
func (g *Guide) Box(b model.Box) space.Box {
	var years *model.Years
	if b.Years != nil {
		years = &model.Years{Spans: b.Years}
	}
	return numbered(g.Platform, years, b.Traits)
}

// None tells whether there are no vehicles.
func (v Vehicles) None() bool { return len(v.boxes) == 0 }

// Boxes gives vehicles of one box each that together are these.
func (v Vehicles) Boxes() []Vehicles {
	out := make([]Vehicles, len(v.boxes))
	for i := range v.boxes {
		out[i] = Vehicles{v.guide, v.boxes[i : i+1], v.said}
	}
	return out
}

// Among gives those in a box.
func (v Vehicles) Among(b model.Box) Vehicles { return v.among(v.guide.Box(b)) }

// With gives those that have one of some values of a trait.
func (v Vehicles) With(trait int, in Values) Vehicles {
	return v.among(space.Box{}.With(trait, space.Set(in)))
}

func (v Vehicles) among(box space.Box) Vehicles {
	out := Vehicles{guide: v.guide}
	out.said, _ = v.said.Intersect(box)
	for _, b := range v.boxes {
		if in, some := b.Intersect(box); some {
			out.boxes = append(out.boxes, in)
		}
	}
	return out
}

// Without gives those that are in none of some boxes.
func (v Vehicles) Without(boxes ...model.Box) Vehicles {
	out := Vehicles{guide: v.guide, boxes: v.boxes, said: v.said}
	for _, b := range boxes {
		out.boxes = out.beyond(v.guide.Box(b))
	}
	return out
}

// beyond takes a box out of each of the boxes, trait by trait, so that no two of the pieces of
// one share a vehicle.
func (v Vehicles) beyond(box space.Box) (out []space.Box) {
	for _, b := range v.boxes {
		if !b.Meets(box) {
			out = append(out, b)
			continue
		}
		for trait, set := range box {
			if set == nil {
				continue
			}
			has := b.At(trait)
			if has == nil {
				has = space.Set(v.guide.Occur(trait))
			}
			if rest := has.Without(set); !rest.IsEmpty() {
				out = append(out, b.With(trait, rest))
			}
			b = b.With(trait, has.And(set))
		}
	}
	return out
}

// Meet tells whether some are among others too.
func (v Vehicles) Meet(others Vehicles) bool {
	return slices.ContainsFunc(others.boxes, func(b space.Box) bool { return slices.ContainsFunc(v.boxes, b.Meets) })
}

// Inside tells whether all that is possible on the vehicles, trait by trait, is in one box
// of others. Where it takes several boxes that is false.
func (v Vehicles) Inside(others Vehicles) bool {
	return slices.ContainsFunc(others.boxes, func(b space.Box) bool {
		for trait, set := range b {
			if set != nil && !space.Set(v.Possible(trait)).In(set) {
				return false
			}
		}
		return true
	})
}

// Possible gives the values of a trait that occur and that some of the vehicles have.
func (v Vehicles) Possible(trait int) Values {
	occur := v.guide.Occur(trait)
	var out space.Set
	for _, b := range v.boxes {
		set := b.At(trait)
		if set == nil {
			return occur
		}
		out = out.Or(set)
	}
	return Values(out.And(space.Set(occur)))
}

// Restrict tells whether there are values of a trait that occur, and that none of the
// vehicles has.
func (v Vehicles) Restrict(trait int) bool {
	return v.Possible(trait).Len() < v.guide.Occur(trait).Len()
}

// Follows gives the values of a trait that the vehicles have; false where what was said of
// them leaves as many.
func (v Vehicles) Follows(trait int) (Values, bool) {
	possible, open := v.Possible(trait), v.guide.Occur(trait).Len()
	if said := v.said.At(trait); said != nil {
		open = space.Set(v.guide.Occur(trait)).And(said).Len()
	}
	return possible, possible.Len() < open
}

// Open gives the branches of a question that some of the vehicles take, with the values
// that those have.
func (t *Tree) Open(v Vehicles) []Branch {
	possible := space.Set(v.Possible(t.Trait))
	var out []Branch
	for _, b := range t.Branches {
		if in := space.Set(b.Values).And(possible); !in.IsEmpty() {
			out = append(out, Branch{Values(in), b.Next})
		}
	}
	return out
}
