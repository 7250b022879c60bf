package space_test

import (
	"flag"
	"math/rand/v2"
	"os"
	"testing"

	"ferrule/compiler/space"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestMain asks rapid for more cases than its default, unless the command line says
// how many; fewer where CI is not set.
func TestMain(m *testing.M) {
	flag.Parse()
	said := false
	flag.Visit(func(f *flag.Flag) { said = said || f.Name == "rapid.checks" })
	if !said {
		checks := "250" // rapid tells of it
		if os.Getenv("CI") != "" {
			checks = "2000"
		}
		if err := flag.Set("rapid.checks", checks); err != nil {
			panic(err)
		}
	}
	m.Run()
}

// world is a small space with all its configurations listed, in declared order.
type world struct {
	*space.Space
	sizes []int
	all   [][]int
}

func newWorld(sizes, order []int) *world {
	w := &world{Space: space.New(sizes, space.Options{Order: order}), sizes: sizes}
	w.all = [][]int{{}}
	for _, n := range sizes {
		var next [][]int
		for _, c := range w.all {
			for v := range n {
				next = append(next, append(c[:len(c):len(c)], v))
			}
		}
		w.all = next
	}
	return w
}

// list gives the configurations of r, in declared order.
func (w *world) list(r space.Region) [][]int {
	return w.where(func(c []int) bool { return w.Contains(r, c) })
}

// where gives the configurations that satisfy f.
func (w *world) where(f func(c []int) bool) [][]int {
	var out [][]int
	for _, c := range w.all {
		if f(c) {
			out = append(out, c)
		}
	}
	return out
}

// drawWorld draws a space of at most some thousand configurations, sometimes with a
// trait of more than 64 or more than 128 values. Numbers come from a drawn seed, for
// rapid's own favour small ones; shrinking ends at few traits.
func drawWorld(t *rapid.T) *world {
	most := rapid.SampledFrom([]int{6, 5, 6, 4, 3, 2, 1}).Draw(t, "traits")
	r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "space"), 1))
	sizes := make([]int, most)
	for i := range sizes {
		sizes[i] = 1 + r.IntN(4) + r.IntN(2)
	}
	if r.IntN(5) == 0 {
		sizes = sizes[:min(most, 3)]
		sizes[r.IntN(len(sizes))] = []int{63, 64, 65, 70, 128, 150}[r.IntN(6)]
	}
	return newWorld(sizes, r.Perm(len(sizes)))
}

// box draws a box that may be shorter than the space, empty, or name values that do
// not exist.
func (w *world) box(t *rapid.T, name string) space.Box {
	seed := rapid.Uint64().Draw(t, name)
	return w.randomBox(rand.New(rand.NewPCG(seed, 7)), true)
}

func (w *world) boxes(t *rapid.T, name string, most int) []space.Box {
	most = rapid.SampledFrom([]int{most, most, most / 2, 1}).Draw(t, name+" at most")
	r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, name), 2))
	out := make([]space.Box, r.IntN(most+1))
	for i := range out {
		out[i] = w.randomBox(r, true)
	}
	return out
}

// randomBox makes a box; odd ones are empty, short or reach beyond the space.
func (w *world) randomBox(r *rand.Rand, odd bool) space.Box {
	b := make(space.Box, len(w.sizes))
	for i, n := range w.sizes {
		if r.IntN(2) == 0 {
			continue
		}
		lo := r.IntN(n)
		switch set := space.SetOf(lo); r.IntN(3) {
		case 0:
			b[i] = set
		case 1:
			b[i] = space.Range(lo, lo+r.IntN(n-lo))
		case 2:
			for range r.IntN(n + 1) {
				set = set.Or(space.SetOf(r.IntN(n)))
			}
			b[i] = set
		}
		if odd && r.IntN(25) == 0 {
			b[i] = space.Set{}
		}
		if odd && r.IntN(25) == 0 {
			b[i] = b[i].Or(space.SetOf(n + r.IntN(70)))
		}
	}
	if odd && r.IntN(4) == 0 {
		b = b[:r.IntN(len(b)+1)]
	}
	return b
}

// region draws a union of boxes less another, and gives it in two forms.
func (w *world) region(t *rapid.T, name string) (space.Region, func(c []int) bool) {
	in, out := w.boxes(t, name+" in", 6), w.boxes(t, name+" out", 3)
	r := w.Minus(w.UnionBoxes(in), w.UnionBoxes(out))
	return r, func(c []int) bool { return anyHas(in, c) && !anyHas(out, c) }
}

func anyHas(bs []space.Box, c []int) bool {
	for _, b := range bs {
		if b.Has(c) {
			return true
		}
	}
	return false
}

// same fails unless r holds exactly the configurations that satisfy f.
func (w *world) same(t require.TestingT, r space.Region, f func(c []int) bool) {
	for _, c := range w.all {
		if w.Contains(r, c) != f(c) {
			require.Failf(t, "wrong region", "sizes %v: configuration %v: in region %v", w.sizes, c, !f(c))
		}
	}
}
