package decide

import (
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Frame says where the years, traits and values of a platform stand in a space that it
// shares with another: the same platform in another release. Numbers are those of the
// space.
type Frame struct {
	Years []int  // of each of the platform's years; trait 0 of the space is the year
	Axes  []Axis // of each trait of the catalogue
}

// Axis is a trait of the catalogue in a Frame.
type Axis struct {
	Trait  int   // of the space; with Free, 0 stands for none
	Values []int // of the trait's values, Absent last; -1 for one that has no place there
	// Free is set where no vehicle of the platform has the trait. What is said of
	// vehicles without it then holds whatever value they have in the space.
	Free bool
}

// place moves a box of the platform's own space into the shared one. A box that asks
// for a value of a free trait holds nothing.
func (f *Frame) place(b space.Box) space.Box {
	out := space.Box{renumber(b.At(0), f.Years)}
	for i, axis := range f.Axes {
		set := b.At(i + 1)
		switch {
		case set == nil:
		case axis.Free:
			if !set.Has(len(axis.Values) - 1) {
				return space.Box{space.Set{}}
			}
		default:
			for len(out) <= axis.Trait {
				out = append(out, nil)
			}
			out[axis.Trait] = renumber(set, axis.Values)
		}
	}
	return out
}

// renumber gives the numbers that stand for the values of a set; nil stays nil.
func renumber(set space.Set, to []int) space.Set {
	if set == nil {
		return nil
	}
	var room [16]int
	out := room[:0]
	for v := range set.Values() {
		if to[v] >= 0 {
			out = append(out, to[v])
		}
	}
	return space.SetOf(out...)
}

// Traits tells which traits, by their index, a vehicle of the platform has: those for
// which a Vehicles row states a value.
func (x *Index) Traits(p *model.Platform) []bool {
	has := make([]bool, len(x.cat.Traits))
	for _, v := range x.vehicles[p.Index] {
		if v.Weight(p).Sign() == 0 {
			continue
		}
		for _, t := range v.When.Traits {
			if t.Applies(p) {
				has[t.Trait.Index] = true
			}
		}
	}
	return has
}
