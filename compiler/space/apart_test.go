package space_test

import (
	"testing"

	"ferrule/compiler/space"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// classes draws disjoint classes, some of them empty, and gives the class of a
// configuration, -1 for none.
func (w *world) classes(t *rapid.T) ([]space.Region, func(c []int) int) {
	var out []space.Region
	left := space.Full
	for range rapid.SampledFrom([]int{3, 4, 2, 1, 0}).Draw(t, "classes") {
		r, _ := w.region(t, "class")
		out = append(out, w.Intersect(r, left))
		left = w.Minus(left, r)
	}
	return out, func(c []int) int {
		for k, r := range out {
			if w.Contains(r, c) {
				return k
			}
		}
		return -1
	}
}

// TestApartAgreesWithEnumeration compares each configuration with all others.
func TestApartAgreesWithEnumeration(t *testing.T) { rapid.Check(t, apartAgrees) }

func apartAgrees(t *rapid.T) {
	w := drawWorld(t)
	classes, class := w.classes(t)
	see := rapid.SliceOfDistinct(rapid.IntRange(0, len(w.sizes)-1), rapid.ID).Draw(t, "see")
	type known struct {
		c     []int
		class int
	}
	looks := map[string][]known{}
	for _, c := range w.where(func(c []int) bool { return class(c) >= 0 }) {
		looks[key(c, see)] = append(looks[key(c, see)], known{c, class(c)})
	}
	first := func(c []int) []int { // that looks the same and is of another class
		k := class(c)
		for _, d := range looks[key(c, see)] {
			if k >= 0 && d.class != k {
				return d.c
			}
		}
		return nil
	}
	r := w.Apart(classes, see)
	w.same(t, r, func(c []int) bool { return first(c) != nil })
	some := w.where(func(c []int) bool { return class(c) >= 0 })
	for _, c := range some[:min(5, len(some))] {
		twin, k := w.Twin(classes, see, c)
		require.Equal(t, first(c), twin)
		if twin == nil {
			require.Equal(t, -1, k)
		} else {
			require.Equal(t, class(twin), k)
		}
	}
}
