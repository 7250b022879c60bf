package space_test

import (
	"math/rand/v2"

	"ferrule/compiler/space"
)

// catalogue makes a platform with one position: rows as people keep them, and the
// vehicles that exist.
func catalogue(traits, values, rows int) (sizes []int, bs, vehicles []space.Box) {
	r := rand.New(rand.NewPCG(3, 4))
	sizes = traitSizes(r, traits, values)
	bs = fitment(r, sizes, rows)
	return sizes, bs, existing(r, sizes)
}

// traitSizes has 30 years and other traits of about so many values.
func traitSizes(r *rand.Rand, traits, values int) []int {
	sizes := make([]int, traits)
	for t := range sizes {
		sizes[t] = values - 2 + r.IntN(5)
	}
	sizes[0] = 30
	return sizes
}

// fitment makes rows as people keep them: the leaves of a decision tree that asks a
// few traits often and the rest seldom, in no order; one in fifty is missing, one in
// fifty says too much. Trait 0 is years, and rows have ranges of them.
func fitment(r *rand.Rand, sizes []int, rows int) []space.Box {
	traits := len(sizes)
	open := []space.Box{make(space.Box, traits)}
	for len(open) < rows {
		i := r.IntN(len(open))
		t := min(r.IntN(traits), r.IntN(traits), r.IntN(traits))
		set := open[i].At(t)
		if set == nil {
			set = space.All(sizes[t])
		}
		if set.Len() == 1 {
			continue
		}
		cut := set.Min() + 1 + r.IntN(set.Max()-set.Min())
		open = append(open, open[i].With(t, set.And(space.Range(cut, set.Max()))))
		open[i] = open[i].With(t, set.And(space.Range(set.Min(), cut-1)))
	}
	r.Shuffle(len(open), func(i, j int) { open[i], open[j] = open[j], open[i] })
	var bs []space.Box
	for _, b := range open {
		switch r.IntN(50) {
		case 0:
			continue
		case 1:
			b = b.With(r.IntN(traits), nil)
		}
		bs = append(bs, b)
	}
	return bs
}

// existing makes vehicles by a few rules, half of all combinations.
func existing(r *rand.Rand, sizes []int) []space.Box {
	var vehicles []space.Box
	for v := range sizes[1] {
		b := make(space.Box, len(sizes))
		b[0], b[1] = space.Range(r.IntN(8), 20+r.IntN(10)), space.SetOf(v)
		t := 2 + r.IntN(len(sizes)-2)
		b[t] = space.Range(0, sizes[t]/2)
		vehicles = append(vehicles, b)
	}
	return vehicles
}

// outcomes gives the vehicles by what the first row that holds them says, of n things;
// the last class has those that no row holds.
func outcomes(s *space.Space, rows, vehicles []space.Box, n int) (classes []space.Region, care space.Region) {
	care = s.UnionBoxes(vehicles)
	return split(s, rows, care, n), care
}

func split(s *space.Space, rows []space.Box, left space.Region, n int) []space.Region {
	classes := make([]space.Region, n+1)
	for i, row := range rows {
		r := s.Intersect(s.Box(row), left)
		left = s.Minus(left, r)
		classes[i*7%n] = s.Union(classes[i*7%n], r)
	}
	classes[n] = left
	return classes
}

// hardSpace is random rows over many traits: their union has no small diagram.
func hardSpace(traits, values, rows int) ([]int, []space.Box) {
	r := rand.New(rand.NewPCG(1, 2))
	sizes := make([]int, traits)
	for i := range sizes {
		sizes[i] = values
	}
	bs := make([]space.Box, rows)
	for i := range bs {
		bs[i] = make(space.Box, traits)
		for range 6 {
			bs[i][r.IntN(traits)] = space.SetOf(r.IntN(values), r.IntN(values))
		}
	}
	return sizes, bs
}

// load is one platform with several positions.
type load struct {
	sizes     []int
	vehicles  []space.Box
	positions [][]space.Box
	options   space.Options
}

// platform is one of 8 traits and 15 positions of so many rows each.
func platform(seed uint64, perPosition int) load {
	r := rand.New(rand.NewPCG(seed, 5))
	out := load{sizes: traitSizes(r, 8, 6)}
	var all []space.Box
	for range 15 {
		rows := fitment(r, out.sizes, perPosition)
		out.positions, all = append(out.positions, rows), append(all, rows...)
	}
	out.vehicles = existing(r, out.sizes)
	out.options = space.Options{Order: space.Order(len(out.sizes), all)}
	return out
}
