package space_test

import (
	"math/bits"
	"math/rand/v2"
	"testing"

	"ferrule/compiler/space"

	"github.com/stretchr/testify/require"
)

// TestCoverIsNearTheOptimum compares the length of covers with the shortest that
// there are, found by trying all. The second kind has no structure to find.
func TestCoverIsNearTheOptimum(t *testing.T) {
	for _, c := range []struct {
		name string
		most float64 // ratio to the optimum, over all cases
		make func(w *world, r *rand.Rand) (goal, care space.Region)
	}{
		{"boxes less boxes", 1.01, func(w *world, r *rand.Rand) (goal, care space.Region) {
			care = w.UnionBoxes(randomBoxes(w, r, 8))
			return w.Minus(care, w.UnionBoxes(randomBoxes(w, r, 5))), care
		}},
		{"single configurations", 1.03, func(w *world, r *rand.Rand) (goal, care space.Region) {
			for _, c := range w.all {
				switch r.IntN(4) {
				case 0:
					goal = w.Union(goal, w.Box(space.Point(c)))
				case 1:
					care = w.Union(care, w.Box(space.Point(c)))
				}
			}
			return goal, w.Union(goal, care)
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(5, 6))
			got, best := 0, 0
			for range 500 {
				w := newWorld([]int{3 + r.IntN(3), 2 + r.IntN(2), 2, 2}, nil)
				goal, care := c.make(w, r)
				boxes, rest := w.Cover(goal, care, 1000)
				require.Equal(t, space.Empty, rest)
				got += len(boxes)
				best += shortest(w, goal, care, len(boxes))
			}
			t.Logf("%d boxes, at least %d are needed: %.3f", got, best, float64(got)/float64(best))
			require.LessOrEqual(t, float64(got), c.most*float64(best))
		})
	}
}

// TestPartitionIsNearTheOptimum compares the length of partitions with the shortest
// covers of their classes, whose boxes may overlap: no partition can be shorter.
func TestPartitionIsNearTheOptimum(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	got, least := 0, 0
	for range 200 {
		w := newWorld([]int{3 + r.IntN(3), 2 + r.IntN(2), 2, 2}, nil)
		care := w.UnionBoxes(randomBoxes(w, r, 8))
		left, classes := care, []space.Region{}
		for _, b := range randomBoxes(w, r, 5) {
			classes = append(classes, w.Intersect(left, w.Box(b)))
			left = w.Minus(left, w.Box(b))
		}
		classes = append(classes, left)
		got += len(w.Partition(classes, care))
		for _, class := range classes {
			boxes, _ := w.Cover(class, care, 1000)
			least += shortest(w, class, care, len(boxes))
		}
	}
	t.Logf("%d cells, at least %d are needed: %.3f", got, least, float64(got)/float64(least))
	require.LessOrEqual(t, float64(got), 1.1*float64(least))
}

func randomBoxes(w *world, r *rand.Rand, most int) []space.Box {
	out := make([]space.Box, most/2+r.IntN(most))
	for i := range out {
		out[i] = w.randomBox(r, false)
	}
	return out
}

// shortest is the least number of boxes whose union, inside care, is goal; most is
// known to do. At most 64 configurations are in goal.
func shortest(w *world, goal, care space.Region, most int) int {
	in := w.list(goal)
	if len(in) == 0 {
		return 0
	}
	bad := w.Minus(care, goal)
	var covers []uint64 // of in, one for each box that is as wide as can be
	var grow func(b space.Box, t int)
	grow = func(b space.Box, t int) {
		if t < len(w.sizes) {
			for m := uint64(1); m < 1<<w.sizes[t]; m++ {
				grow(b.With(t, space.Set{m}), t+1)
			}
			return
		}
		if w.Meets(bad, b) {
			return
		}
		var m uint64
		for i, c := range in {
			if b.Has(c) {
				m |= 1 << i
			}
		}
		if m != 0 {
			covers = append(covers, m)
		}
	}
	grow(nil, 0)
	covers = maximal(covers)
	for n := 1; n < most; n++ {
		if coverable(covers, ^uint64(0)>>(64-len(in)), n) {
			return n
		}
	}
	return most
}

// maximal leaves out sets that are inside others.
func maximal(sets []uint64) []uint64 {
	var out []uint64
	for i, a := range sets {
		inside := false
		for j, b := range sets {
			if a&^b == 0 && (a != b || j < i) {
				inside = true
				break
			}
		}
		if !inside {
			out = append(out, a)
		}
	}
	return out
}

// coverable tells whether n of the sets cover all of open.
func coverable(sets []uint64, open uint64, n int) bool {
	if open == 0 {
		return true
	}
	most := 0
	for _, s := range sets {
		most = max(most, bits.OnesCount64(s&open))
	}
	if bits.OnesCount64(open) > n*most {
		return false
	}
	first := open & -open
	for _, s := range sets {
		if s&first != 0 && coverable(sets, open&^s, n-1) {
			return true
		}
	}
	return false
}
