package space_test

import (
	"math/big"
	"math/rand/v2"
	"testing"

	"ferrule/compiler/space"

	"github.com/stretchr/testify/require"
)

// TestCountsOfAnySize counts boxes and complements against products, on both sides of
// 2^64 and 2^128.
func TestCountsOfAnySize(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 9))
	for _, traits := range []int{1, 5, 20, 24, 25, 49, 50, 51, 60} { // 6^24 < 2^64 < 6^25, 6^49 < 2^128 < 6^50
		for range 40 {
			sizes, b, c := make([]int, traits), make(space.Box, traits), make(space.Box, traits)
			all, inB, inBoth, inC := big.NewInt(1), big.NewInt(1), big.NewInt(1), big.NewInt(1)
			times := func(x *big.Int, n int) { x.Mul(x, big.NewInt(int64(n))) }
			for i := range sizes {
				sizes[i] = 6
				b[i], c[i] = randomSet(r, 6), randomSet(r, 6)
				times(all, 6)
				times(inB, known(orAll(b[i], 6), 6).Len())
				times(inC, known(orAll(c[i], 6), 6).Len())
				times(inBoth, orAll(b[i], 6).And(orAll(c[i], 6)).Len())
			}
			s := space.New(sizes, space.Options{Order: r.Perm(traits)})
			rb, rc := s.Box(b), s.Box(c)
			require.Equal(t, all, s.Count(space.Full))
			require.Equal(t, inB, s.Count(rb))
			require.Equal(t, inB, s.CountIn(space.Full, b))
			require.Zero(t, inBoth.Cmp(s.CountIn(rb, c)))
			require.Zero(t, new(big.Int).Sub(all, inB).Cmp(s.Count(s.Minus(space.Full, rb))))
			either := new(big.Int).Add(inB, inC)
			require.Zero(t, either.Sub(either, inBoth).Cmp(s.Count(s.Union(rb, rc))))
			require.Zero(t, s.Count(space.Empty).Sign())
			require.Zero(t, s.CountIn(space.Full, b.With(0, space.Set{})).Sign())
		}
	}
}

func randomSet(r *rand.Rand, n int) space.Set {
	if r.IntN(4) == 0 {
		return nil
	}
	set := space.SetOf(r.IntN(n))
	for range n {
		set = set.Or(space.SetOf(r.IntN(n)))
	}
	return set
}

func orAll(s space.Set, n int) space.Set {
	if s == nil {
		return space.All(n)
	}
	return s
}

// TestHundredsOfValuesToldApart has a trait of 300 values, each with its own answer.
func TestHundredsOfValuesToldApart(t *testing.T) {
	const models, years = 300, 80
	for _, order := range [][]int{{0, 1, 2}, {2, 1, 0}} {
		s := space.New([]int{years, models, 3}, space.Options{Order: order})
		var rows []space.Box
		want := 0
		for m := range models {
			from, to := m%50, m%50+m%31
			rows = append(rows, space.Box{space.Range(from, min(to, years-1)), space.SetOf(m), space.SetOf(m % 3)})
			want += rows[m][0].Len()
		}
		all := s.UnionBoxes(rows)
		require.EqualValues(t, want, s.Count(all).Int64())
		require.Equal(t, models, s.Values(all, 1).Len())
		for m, row := range rows {
			require.Equal(t, row[0].Len(), int(s.CountIn(all, space.Box{nil, space.SetOf(m)}).Int64()))
			c, ok := s.FirstIn(all, space.Box{nil, space.SetOf(m)})
			require.True(t, ok)
			require.Equal(t, []int{row[0].Min(), m, m % 3}, c)
		}
		boxes, rest := s.Cover(all, space.Full, 1000)
		require.Equal(t, space.Empty, rest)
		require.LessOrEqual(t, len(boxes), models)
		require.Equal(t, all, s.UnionBoxes(boxes))
		classes := []space.Region{all, s.Minus(space.Full, all)}
		inAll := space.Empty
		for _, c := range s.Partition(classes, space.Full) {
			require.Equal(t, space.Empty, s.Minus(s.Box(c.Box), classes[c.Class]))
			require.Equal(t, space.Empty, s.Intersect(inAll, s.Box(c.Box)))
			inAll = s.Union(inAll, s.Box(c.Box))
		}
		require.Equal(t, space.Full, inAll)
	}
}

// TestMeetsDoesNotAllocate, for it is asked most often of all.
func TestMeetsDoesNotAllocate(t *testing.T) {
	sizes, rows := hardSpace(12, 5, 40)
	s := space.New(sizes, space.Options{})
	r := s.UnionBoxes(rows[:20])
	met := 0
	require.Zero(t, testing.AllocsPerRun(20, func() {
		for _, b := range rows {
			if s.Meets(r, b) {
				met++
			}
		}
	}))
	require.Positive(t, met)
}
