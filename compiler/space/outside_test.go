package space_test

import (
	"testing"

	"ferrule/compiler/space"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestOutsideAgreesWithEnumeration looks for configurations in no row.
func TestOutsideAgreesWithEnumeration(t *testing.T) { rapid.Check(t, outside) }

func outside(t *rapid.T) {
	w := drawWorld(t)
	care, inCare := w.region(t, "care")
	rows := w.boxes(t, "rows", 12)
	used := w.Used()
	c, sure := w.Outside(care, rows)
	require.True(t, sure)
	require.Equal(t, used, w.Used())
	open := w.where(func(c []int) bool { return inCare(c) && !anyHas(rows, c) })
	if c == nil {
		require.Empty(t, open)
	} else {
		require.Contains(t, open, c)
	}
}

// TestOutsideGivesUp asks for more than can be searched: whether thirteen birds fit
// twelve holes, put as rows that forbid two birds in one hole.
func TestOutsideGivesUp(t *testing.T) {
	const birds = 13
	sizes := make([]int, birds)
	var rows []space.Box
	for i := range birds {
		sizes[i] = birds - 1
		for j := range i {
			for hole := range birds - 1 {
				b := make(space.Box, birds)
				b[i], b[j] = space.SetOf(hole), space.SetOf(hole)
				rows = append(rows, b)
			}
		}
	}
	s := space.New(sizes, space.Options{})
	c, sure := s.Outside(space.Full, rows)
	require.Nil(t, c)
	require.False(t, sure)
	c, sure = s.Outside(space.Full, rows[1:])
	require.Equal(t, []int{0, 0}, c[:2], "the one place that is left for two")
	require.True(t, sure)
}

func TestOutsideOfNothing(t *testing.T) {
	s := space.New([]int{3, 2}, space.Options{})
	for _, c := range []struct {
		name string
		care space.Region
		rows []space.Box
		want []int
	}{
		{"no rows", space.Full, nil, []int{0, 0}},
		{"nothing exists", space.Empty, nil, nil},
		{"a row about everything", space.Full, []space.Box{{}}, nil},
		{"a row about nothing", space.Full, []space.Box{{space.Set{}}}, []int{0, 0}},
		{"rows that hold all together", space.Full, []space.Box{{space.SetOf(0)}, {space.SetOf(1, 2)}}, nil},
		{"what is left", space.Full, []space.Box{{space.SetOf(0, 2)}, {nil, space.SetOf(0, 9)}}, []int{1, 1}},
	} {
		got, sure := s.Outside(c.care, c.rows)
		require.True(t, sure, c.name)
		require.Equal(t, c.want, got, c.name)
	}
}
