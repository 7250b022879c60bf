package decide

import (
	"slices"

	"ferrule/compiler/space"
)

// Tree is a question about a vehicle with what follows from each answer, or an end.
type Tree struct {
	Trait    int      // that is asked, by its number in a Finder; -1 at an end
	Branches []Branch // by least value
	// Classes are those that are still possible at an end, ascending; several where
	// nothing that can be asked tells them apart.
	Classes []int
}

// Branch is what follows from some of the answers.
type Branch struct {
	Values Values
	Next   *Tree
}

// Traits lists, ascending, the traits that a tree may ask; none where there is no tree.
func (t *Tree) Traits() []int { return slices.Collect(t.asks().Values()) }

func (t *Tree) asks() space.Set {
	var out space.Set
	if t == nil || t.Trait < 0 {
		return out
	}
	out = space.SetOf(t.Trait)
	for _, b := range t.Branches {
		out = out.Or(b.Next.asks())
	}
	return out
}
