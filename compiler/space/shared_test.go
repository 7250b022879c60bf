package space_test

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/compiler/space"
)

// TestSharedSearches holds that positions whose vehicles are split alike cost one search,
// whatever their classes are called, and get the same trees as without sharing.
func TestSharedSearches(t *testing.T) {
	s := space.New([]int{4, 3, 3}, space.Options{})
	low, high := s.Box(space.Box{space.Range(0, 1), nil, space.SetOf(0)}), s.Box(space.Box{space.Range(2, 3)})
	rest := s.Minus(space.Full, s.Union(low, high))
	shared := &space.Shared{}
	ask := func(effort []int, weights []space.Weight, classes ...space.Region) {
		t.Helper()
		asking := space.Asking{Effort: effort, Weights: weights}
		alone := s.Questions(classes, asking)
		asking.Shared = shared
		require.Equal(t, alone, s.Questions(classes, asking))
		require.NotNil(t, alone.Tree)
	}
	ask([]int{1, 1, 1}, nil, low, high, rest)
	require.Equal(t, 1, shared.Searches())
	ask([]int{1, 1, 1}, nil, rest, low, high)
	ask([]int{1, 1, 1}, nil, space.Empty, high, rest, low)
	require.Equal(t, 1, shared.Searches(), "what the classes are called makes no difference")

	ask([]int{1, 1, 2}, nil, low, high, rest)
	require.Equal(t, 2, shared.Searches(), "another effort")
	ask([]int{1, 1, 1}, nil, low, s.Union(high, rest))
	require.Equal(t, 3, shared.Searches(), "another split")
	ask([]int{1, 1, 1}, []space.Weight{{Where: space.Full, Times: big.NewInt(1)}, {Where: low, Times: big.NewInt(7)}}, low, high, rest)
	require.Equal(t, 4, shared.Searches(), "other weights")
}
