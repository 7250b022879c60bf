package space_test

import (
	"slices"
	"testing"

	"ferrule/compiler/space"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestSetsAgreeWithMaps compares sets with maps of their values.
func TestSetsAgreeWithMaps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		xs := rapid.SliceOf(rapid.IntRange(0, 200)).Draw(t, "xs")
		ys := rapid.SliceOf(rapid.IntRange(0, 90)).Draw(t, "ys")
		n := rapid.IntRange(0, 210).Draw(t, "n")
		x, y := space.SetOf(xs...), space.SetOf(ys...)
		inX, inY := has(xs), has(ys)

		same(t, x, inX)
		same(t, x.And(y), func(v int) bool { return inX(v) && inY(v) })
		same(t, x.Or(y), func(v int) bool { return inX(v) || inY(v) })
		same(t, x.Without(y), func(v int) bool { return inX(v) && !inY(v) })
		same(t, x.Not(n), func(v int) bool { return v < n && !inX(v) })
		same(t, space.All(n), func(v int) bool { return v < n })

		all := slices.Collect(x.Values())
		require.Equal(t, len(all), x.Len())
		require.Equal(t, len(all) == 0, x.IsEmpty())
		require.Equal(t, !x.And(y).IsEmpty(), x.Meets(y))
		require.Equal(t, x.Without(y).IsEmpty(), x.In(y))
		require.True(t, x.Equal(append(slices.Clone(x), 0, 0)), "trailing zeros")
		require.Equal(t, x.In(y) && y.In(x), x.Equal(y))
		lo, hi := -1, -1
		if len(all) > 0 {
			lo, hi = all[0], all[len(all)-1]
		}
		require.Equal(t, lo, x.Min())
		require.Equal(t, hi, x.Max())

		runs := space.Set{}
		last := -2
		for lo, hi := range x.Runs() {
			require.Greater(t, lo, last+1, "runs are as long as they can be")
			runs, last = runs.Or(space.Range(lo, hi)), hi
		}
		require.True(t, runs.Equal(x))
	})
}

func has(vs []int) func(int) bool { return func(v int) bool { return slices.Contains(vs, v) } }

func same(t *rapid.T, set space.Set, f func(v int) bool) {
	require.NotNil(t, set, "nil would stand for every value in a box")
	require.False(t, set.Has(-1))
	for v := range 300 {
		if f(v) != set.Has(v) {
			require.Failf(t, "wrong set", "value %d of %v", v, set)
		}
	}
}

func TestBoxesAgreeWithTheirConfigurations(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWorld(t)
		b, c := w.box(t, "b"), w.box(t, "c")
		for _, x := range []space.Box{b, c} { // only values that exist
			for i := range x {
				x[i] = known(x[i], w.sizes[i])
			}
		}
		both, ok := b.Intersect(c)
		shared := w.where(func(x []int) bool { return b.Has(x) && c.Has(x) })
		require.Equal(t, len(shared) > 0, ok)
		require.Equal(t, ok, b.Meets(c))
		if ok {
			require.Equal(t, shared, w.where(both.Has))
		}
		require.True(t, b.Equal(b.With(len(w.sizes)-1, b.At(len(w.sizes)-1))))
	})
}

func known(s space.Set, size int) space.Set {
	if s == nil {
		return nil
	}
	return s.And(space.All(size))
}

func TestPrinted(t *testing.T) {
	for want, b := range map[string]space.Box{
		"any":            {nil, nil},
		"0{1} 2{0-3 70}": {space.SetOf(1), nil, space.Range(0, 3).Or(space.SetOf(70))},
		"1{}":            {nil, space.Set{}},
	} {
		require.Equal(t, want, b.String())
	}
}
