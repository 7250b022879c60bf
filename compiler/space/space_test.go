package space_test

import (
	"slices"
	"testing"

	"ferrule/compiler/space"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestAlgebraAgreesWithEnumeration compares every way to make and ask regions with
// the list of all configurations.
func TestAlgebraAgreesWithEnumeration(t *testing.T) { rapid.Check(t, algebraAgrees) }

func algebraAgrees(t *rapid.T) {
	w := drawWorld(t)
	a, inA := w.region(t, "a")
	b, inB := w.region(t, "b")
	w.same(t, a, inA)
	w.same(t, b, inB)
	w.same(t, w.Union(a, b), func(c []int) bool { return inA(c) || inB(c) })
	w.same(t, w.Intersect(a, b), func(c []int) bool { return inA(c) && inB(c) })
	w.same(t, w.Minus(a, b), func(c []int) bool { return inA(c) && !inB(c) })

	require.Equal(t, w.Union(a, b), w.Minus(space.Full, w.Minus(w.Minus(space.Full, a), b)), "equal sets are one region")
	require.Equal(t, len(w.where(inA)) == 0, a == space.Empty)
	require.Equal(t, len(w.where(inA)) == len(w.all), a == space.Full)
}

func TestAnswersAgreeWithEnumeration(t *testing.T) { rapid.Check(t, answersAgree) }

func answersAgree(t *rapid.T) {
	w := drawWorld(t)
	r, in := w.region(t, "r")
	box := w.box(t, "box")
	both := w.where(func(c []int) bool { return in(c) && box.Has(c) })

	require.EqualValues(t, len(w.where(in)), w.Count(r).Int64())
	require.EqualValues(t, len(both), w.CountIn(r, box).Int64())
	require.EqualValues(t, len(w.where(in)), w.Count(r).Int64(), "counted before")
	require.Equal(t, len(both) > 0, w.Meets(r, box))

	first, ok := w.First(r)
	require.Equal(t, len(w.where(in)) > 0, ok)
	if ok {
		require.Equal(t, w.where(in)[0], first)
	}
	first, ok = w.FirstIn(r, box)
	require.Equal(t, len(both) > 0, ok)
	if ok {
		require.Equal(t, both[0], first)
	}
	trait := rapid.IntRange(0, len(w.sizes)-1).Draw(t, "trait")
	all, inside := space.SetOf(), space.SetOf()
	for _, c := range w.where(in) {
		all = all.Or(space.SetOf(c[trait]))
	}
	for _, c := range both {
		inside = inside.Or(space.SetOf(c[trait]))
	}
	require.True(t, all.Equal(w.Values(r, trait)), "values %v, got %v", all, w.Values(r, trait))
	require.True(t, inside.Equal(w.ValuesIn(r, box, trait)))
}

func TestProjectAgreesWithEnumeration(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWorld(t)
		r, in := w.region(t, "r")
		keep := rapid.SliceOfDistinct(rapid.IntRange(0, len(w.sizes)-1), rapid.ID).Draw(t, "keep")
		seen := map[string]bool{}
		for _, c := range w.where(in) {
			seen[key(c, keep)] = true
		}
		w.same(t, w.Project(r, keep), func(c []int) bool { return seen[key(c, keep)] })
	})
}

func key(c, keep []int) string {
	out := ""
	for _, t := range keep {
		out += string(rune(c[t])) + ","
	}
	return out
}

func TestBoxesAgreeWithEnumeration(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWorld(t)
		bs := w.boxes(t, "boxes", 12)
		var rs []space.Region
		for _, b := range bs {
			rs = append(rs, w.Box(b))
			w.same(t, w.Box(b), b.Has)
		}
		w.same(t, w.UnionBoxes(bs), func(c []int) bool { return anyHas(bs, c) })
		require.Equal(t, w.UnionBoxes(bs), w.UnionAll(rs))
	})
}

// TestPairsAgreeWithEnumeration compares with the pairs that share a configuration
// of care.
func TestPairsAgreeWithEnumeration(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWorld(t)
		rows := w.boxes(t, "rows", 70)
		care, in := space.Full, func([]int) bool { return true }
		if rapid.Bool().Draw(t, "some care") {
			care, in = w.region(t, "care")
		}
		cares := w.where(in)
		var want, got [][2]int
		for i := range rows {
			for j := i + 1; j < len(rows); j++ {
				for _, c := range cares {
					if rows[i].Has(c) && rows[j].Has(c) {
						want = append(want, [2]int{i, j})
						break
					}
				}
			}
		}
		w.Pairs(rows, care, func(i, j int) bool { got = append(got, [2]int{i, j}); return true })
		require.Equal(t, want, got)

		if len(want) > 1 {
			got = nil
			w.Pairs(rows, care, func(i, j int) bool { got = append(got, [2]int{i, j}); return len(got) < 2 })
			require.Equal(t, want[:2], got, "stops where it is told to")
		}
	})
}

// TestCoverIsExact checks what Cover promises: inside care the boxes and the rest
// make up goal, and every box is needed.
func TestCoverIsExact(t *testing.T) { rapid.Check(t, coverIsExact) }

func coverIsExact(t *rapid.T) {
	w := drawWorld(t)
	care, _ := w.region(t, "care")
	goal, _ := w.region(t, "goal")
	goal = w.Intersect(goal, care)
	most := rapid.SampledFrom([]int{1000, 1000, 0, 1, 2, 3}).Draw(t, "max")
	boxes, rest := w.Cover(goal, care, most)

	require.LessOrEqual(t, len(boxes), most)
	if most == 1000 {
		require.Equal(t, space.Empty, rest)
	}
	reached := w.UnionBoxes(boxes)
	require.Equal(t, w.Minus(goal, rest), w.Intersect(care, reached))
	require.Equal(t, space.Empty, w.Intersect(reached, rest))
	for i, b := range boxes {
		others := append(append([]space.Box{}, boxes[:i]...), boxes[i+1:]...)
		require.True(t, w.Meets(w.Minus(goal, w.UnionBoxes(others)), b), "box %d of %v is needless", i, boxes)
		for trait, set := range b {
			require.True(t, set == nil || !set.IsEmpty() && set.Max() < w.sizes[trait])
		}
	}
}

// TestPartitionIsExact checks that cells are disjoint, cover care, and hold one class.
func TestPartitionIsExact(t *testing.T) { rapid.Check(t, partitionIsExact) }

func partitionIsExact(t *rapid.T) {
	w := drawWorld(t)
	care, _ := w.region(t, "care")
	left := care
	var classes []space.Region
	for range rapid.IntRange(0, 4).Draw(t, "classes") {
		r, _ := w.region(t, "class")
		classes = append(classes, w.Intersect(r, left))
		left = w.Minus(left, r)
	}
	classes = append(classes, left)
	cells := w.Partition(classes, care)

	reached, last := space.Empty, []int(nil)
	for i, c := range cells {
		r := w.Box(c.Box)
		require.Equal(t, space.Empty, w.Intersect(reached, r), "cell %d of %v overlaps", i, cells)
		reached = w.Union(reached, r)
		inside := w.Intersect(r, care)
		require.NotEqual(t, space.Empty, inside, "cell outside care")
		require.Equal(t, space.Empty, w.Minus(inside, classes[c.Class]), "cell %d of %v in the wrong class", i, cells)
		first, _ := w.First(inside)
		require.Negative(t, slices.Compare(last, first), "cells out of order")
		last = first
	}
	require.Equal(t, space.Empty, w.Minus(care, reached))
}

// FuzzSpace runs all of the above on what the fuzzer thinks up.
func FuzzSpace(f *testing.F) {
	f.Fuzz(rapid.MakeFuzz(func(t *rapid.T) {
		algebraAgrees(t)
		answersAgree(t)
		coverIsExact(t)
		partitionIsExact(t)
	}))
}
