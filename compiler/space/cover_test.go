package space_test

import (
	"fmt"
	"math/big"
	"testing"

	"ferrule/compiler/space"

	"github.com/stretchr/testify/require"
)

// TestCoversReadWell has covers whose wording matters.
func TestCoversReadWell(t *testing.T) {
	for _, c := range []struct {
		name       string
		sizes      []int
		goal, care []space.Box // nil care: everything
		want       string
	}{
		{"everything", []int{6, 2}, []space.Box{{}}, nil, "[any]"},
		{"nothing", []int{6, 2}, nil, nil, "[]"},
		{"ranges of years need not say what others say", []int{6, 2},
			[]space.Box{{space.Range(0, 1)}, {space.Range(3, 5), space.SetOf(0)}}, nil,
			"[0{0-1} 0{3-5} 1{0}]"},
		{"years that do not exist do not part a range", []int{6, 2},
			[]space.Box{{space.SetOf(1, 3), space.SetOf(0)}},
			[]space.Box{{space.SetOf(0, 1, 3, 5)}},
			"[0{1-3} 1{0}]"},
		{"years that only others have part it", []int{6, 2},
			[]space.Box{{space.SetOf(1, 3), space.SetOf(0)}}, nil,
			"[0{1 3} 1{0}]"},
		{"what never occurs is not named", []int{2, 6},
			[]space.Box{{space.SetOf(0), space.SetOf(2)}},
			[]space.Box{{nil, space.SetOf(2, 3)}},
			"[0{0} 1{2}]"},
		{"conditions that care makes needless are left out", []int{2, 2, 2},
			[]space.Box{{nil, space.SetOf(0), space.SetOf(1)}},
			[]space.Box{{nil, space.SetOf(0), space.SetOf(1)}, {nil, space.SetOf(1)}},
			"[1{0}]"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := space.New(c.sizes, space.Options{})
			care := space.Full
			if c.care != nil {
				care = s.UnionBoxes(c.care)
			}
			boxes, rest := s.Cover(s.UnionBoxes(c.goal), care, 10)
			require.Equal(t, space.Empty, rest)
			require.Equal(t, c.want, fmt.Sprint(boxes))
		})
	}
}

// TestLawsHoldInLargeSpaces checks laws of counting where nothing can be listed.
func TestLawsHoldInLargeSpaces(t *testing.T) {
	sizes, rows, vehicles := catalogue(16, 6, 1500)
	declared := space.New(sizes, space.Options{})
	s := space.New(sizes, space.Options{Order: space.Order(len(sizes), rows)})
	exist := s.UnionBoxes(vehicles)
	last := space.Empty
	for i := 0; i+100 <= len(rows); i += 100 {
		some := rows[i : i+100]
		r := s.UnionBoxes(some)
		require.Equal(t, s.Count(r), declared.Count(declared.UnionBoxes(some)), "the order changes no answer")
		firstA, _ := s.First(r)
		firstB, _ := declared.First(declared.UnionBoxes(some))
		require.Equal(t, firstB, firstA)

		sum := new(big.Int).Add(s.Count(r), s.Count(last))
		require.Equal(t, sum, new(big.Int).Add(s.Count(s.Union(r, last)), s.Count(s.Intersect(r, last))))
		require.Equal(t, s.Minus(exist, s.Union(r, last)), s.Minus(s.Minus(exist, r), last))
		require.Equal(t, s.Minus(r, s.Minus(r, last)), s.Intersect(r, last))
		last = s.Union(last, r)
	}
}
