package space_test

import (
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/compiler/space"
)

// TestWeigh adds up, configuration by configuration, how much those of random regions count.
func TestWeigh(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	sizes := []int{3, 70, 2, 4}
	for range 60 {
		s := space.New(sizes, space.Options{})
		measure := make(space.Measure, len(sizes))
		for trait := range sizes {
			if r.IntN(3) == 0 {
				continue
			}
			for range sizes[trait] {
				measure[trait] = append(measure[trait], big.NewInt(1+r.Int64N(1e15)))
			}
		}
		region := space.Empty
		for range r.IntN(4) {
			region = s.Union(region, s.Box(randomBox(r, sizes)))
		}
		in := randomBox(r, sizes)
		want := new(big.Int)
		each(sizes, func(c []int) {
			if !s.Meets(region, space.Point(c)) || !in.Has(c) {
				return
			}
			n := big.NewInt(1)
			for trait, v := range c {
				if measure[trait] != nil {
					n.Mul(n, measure[trait][v])
				}
			}
			want.Add(want, n)
		})
		require.Equal(t, want.String(), s.Weigh(region, in, measure).String())

		classes := []space.Region{region, s.Minus(space.Full, region)}
		asked := s.Questions(classes, space.Asking{Effort: []int{1, 1, 0, 1}, Weights: []space.Weight{
			{Where: space.Full, Times: big.NewInt(1)}, {Where: region, Times: big.NewInt(2), By: measure}}})
		if region != space.Empty {
			all := s.Weigh(region, nil, measure)
			all.Add(all.Lsh(all, 1), s.Count(space.Full))
			require.Equal(t, all.String(), asked.Weight.String(), "what the vehicles that are asked about count")
		}
	}
}

func randomBox(r *rand.Rand, sizes []int) space.Box {
	box := make(space.Box, len(sizes))
	for trait, n := range sizes {
		if r.IntN(2) == 0 {
			box[trait] = randomSet(r, n)
		}
	}
	return box
}

// each goes through all configurations.
func each(sizes []int, yield func(c []int)) {
	c := make([]int, len(sizes))
	for {
		yield(c)
		i := len(c) - 1
		for ; i >= 0; i-- {
			if c[i]++; c[i] < sizes[i] {
				break
			}
			c[i] = 0
		}
		if i < 0 {
			return
		}
	}
}
