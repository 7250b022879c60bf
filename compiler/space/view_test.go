package space_test

import (
	"math/big"
	"testing"

	"ferrule/compiler/space"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestViewAgreesWithEnumeration compares a view with the configurations listed by
// their values of its traits.
func TestViewAgreesWithEnumeration(t *testing.T) { rapid.Check(t, viewAgrees) }

func viewAgrees(t *rapid.T) {
	w := drawWorld(t)
	r, in := w.region(t, "r")
	keep := rapid.SliceOfDistinct(rapid.IntRange(0, len(w.sizes)-1), rapid.ID).Draw(t, "keep")
	want := map[string]int64{}
	for _, c := range w.where(in) {
		want[key(c, keep)]++
	}
	v := w.View(r, keep)
	require.Equal(t, w.Project(r, keep), v.Region())

	got := map[string]int64{}
	v.Each(func(values []int, n *big.Int) bool {
		c := make([]int, len(w.sizes))
		for i, trait := range keep {
			c[trait] = values[i]
		}
		got[key(c, keep)] = n.Int64()
		return true
	})
	require.Equal(t, want, got)

	box := make(space.Box, len(w.sizes))
	for _, trait := range keep {
		box[trait] = w.box(t, "box").At(trait)
	}
	require.EqualValues(t, len(w.where(func(c []int) bool { return in(c) && box.Has(c) })), v.Count(box).Int64())
}

// TestViewStops holds that nothing more is given to who has seen enough.
func TestViewStops(t *testing.T) {
	s := space.New([]int{2, 3, 2}, space.Options{})
	v := s.View(space.Full, []int{0, 1})
	seen := 0
	v.Each(func([]int, *big.Int) bool { seen++; return seen < 2 })
	require.Equal(t, 2, seen)
}

// TestViewCountsOfAnySize looks at one trait of sixty.
func TestViewCountsOfAnySize(t *testing.T) {
	sizes := make([]int, 60)
	for i := range sizes {
		sizes[i] = 7
	}
	s := space.New(sizes, space.Options{})
	r := s.Minus(space.Full, s.Box(space.Box{space.SetOf(1), nil, space.SetOf(0, 1)}))
	v := s.View(r, []int{0})
	require.Zero(t, s.Count(r).Cmp(v.Count(nil)))
	rest := new(big.Int).Exp(big.NewInt(7), big.NewInt(58), nil)
	require.Zero(t, new(big.Int).Mul(rest, big.NewInt(5)).Cmp(v.Count(space.Box{space.SetOf(1)})))
	require.Zero(t, new(big.Int).Mul(rest, big.NewInt(7)).Cmp(v.Count(space.Box{space.SetOf(2)})))
	require.Panics(t, func() { v.Count(space.Box{nil, space.SetOf(2)}) })
}
