package decide_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

func TestValues(t *testing.T) {
	in := decide.Values(space.SetOf(2, 3, 5, 70))
	assert.Equal(t, 4, in.Len())
	assert.True(t, in.Has(70))
	assert.False(t, in.Has(4))
	assert.Equal(t, []int{1, 2, 65}, list(in.Among(decide.Values(space.Range(0, 99).Without(space.SetOf(0, 2, 4, 6, 7))))))
	var runs [][2]int
	for lo, hi := range in.Runs() {
		runs = append(runs, [2]int{lo, hi})
	}
	assert.Equal(t, [][2]int{{2, 3}, {5, 5}, {70, 70}}, runs)
}

// A question has the ways that some of the vehicles go, each with the values that they have.
func TestTree(t *testing.T) {
	set := func(vs ...int) decide.Values { return decide.Values(space.SetOf(vs...)) }
	end := &decide.Tree{Trait: -1, Classes: []int{0}}
	year := &decide.Tree{Trait: 0, Branches: []decide.Branch{{Values: set(0), Next: end}, {Values: set(1, 2, 3), Next: end}}}
	tree := &decide.Tree{Trait: 3, Branches: []decide.Branch{{Values: set(0, 3), Next: end}, {Values: set(1), Next: end}, {Values: set(2), Next: year}}}
	assert.Equal(t, []int{0, 3}, tree.Traits())
	assert.Empty(t, end.Traits())
	assert.Empty(t, (*decide.Tree)(nil).Traits())

	w := newWorld()
	w.guide.Vehicles = []model.Box{{Traits: []model.TraitSet{{Trait: w.traits[1], Values: space.SetOf(2, 3)}}}}
	assert.Equal(t, []decide.Branch{{Values: set(3), Next: end}, {Values: set(2), Next: year}}, tree.Open(w.guide.Exist()))
}
