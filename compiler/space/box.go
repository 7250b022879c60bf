package space

import (
	"strconv"
	"strings"
)

// Box is a product of sets, one per trait; nil stands for every value of the
// trait. A Box that is shorter than the space has nil for the rest.
type Box []Set

// Point gives the box that holds one configuration.
func Point(c []int) Box {
	b := make(Box, len(c))
	for t, v := range c {
		b[t] = SetOf(v)
	}
	return b
}

// At is the set of a trait, nil where the box does not restrict it.
func (b Box) At(trait int) Set {
	if trait < len(b) {
		return b[trait]
	}
	return nil
}

// With gives a copy of b whose set of one trait is replaced; nil lifts the
// restriction.
func (b Box) With(trait int, set Set) Box {
	out := make(Box, max(len(b), trait+1))
	copy(out, b)
	out[trait] = set
	return out
}

// Conditions is the number of traits that the box restricts.
func (b Box) Conditions() int {
	n := 0
	for _, set := range b {
		if set != nil {
			n++
		}
	}
	return n
}

// Has tells whether the box holds the configuration c.
func (b Box) Has(c []int) bool {
	for t, set := range b {
		if set != nil && !set.Has(c[t]) {
			return false
		}
	}
	return true
}

// Meets tells whether two boxes share a configuration; it does not allocate. Sets
// must hold values that exist only.
func (b Box) Meets(c Box) bool {
	for t := range max(len(b), len(c)) {
		x, y := b.At(t), c.At(t)
		switch {
		case x == nil && y == nil:
		case x == nil:
			if y.IsEmpty() {
				return false
			}
		case y == nil:
			if x.IsEmpty() {
				return false
			}
		case !x.Meets(y):
			return false
		}
	}
	return true
}

// Intersect gives the configurations in both boxes; false where there are none.
func (b Box) Intersect(c Box) (Box, bool) {
	if !b.Meets(c) {
		return nil, false
	}
	out := make(Box, max(len(b), len(c)))
	for t := range out {
		out[t] = both(b.At(t), c.At(t))
	}
	return out, true
}

// Equal tells whether both boxes restrict the same traits to the same sets.
func (b Box) Equal(c Box) bool {
	for t := range max(len(b), len(c)) {
		x, y := b.At(t), c.At(t)
		if (x == nil) != (y == nil) || !x.Equal(y) {
			return false
		}
	}
	return true
}

// both is the intersection of two sets of a box, where nil stands for all values.
func both(x, y Set) Set {
	switch {
	case x == nil:
		return y
	case y == nil:
		return x
	}
	return x.And(y)
}

// String lists the restricted traits with their values: `0{2-5} 3{1}`; `any` where
// there are none.
func (b Box) String() string {
	var parts []string
	for t, set := range b {
		if set != nil {
			parts = append(parts, strconv.Itoa(t)+set.String())
		}
	}
	if parts == nil {
		return "any"
	}
	return strings.Join(parts, " ")
}
