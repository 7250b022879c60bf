package space_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"ferrule/compiler/space"
)

// catalogue makes rows as people keep them: the leaves of a decision tree that asks a
// few traits often and the rest seldom, in no order; one in fifty is missing, one in
// fifty says too much. Trait 0 is years, and rows have ranges of them. The vehicles
// that exist are half of all combinations, by a few rules.
func catalogue(traits, values, rows int) (sizes []int, bs, vehicles []space.Box) {
	r := rand.New(rand.NewPCG(3, 4))
	sizes = make([]int, traits)
	for t := range sizes {
		sizes[t] = values - 2 + r.IntN(5)
	}
	sizes[0] = 30
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
	for _, b := range open {
		switch r.IntN(50) {
		case 0:
			continue
		case 1:
			t := r.IntN(traits)
			b = b.With(t, nil)
		}
		bs = append(bs, b)
	}
	for v := range sizes[1] {
		b := make(space.Box, traits)
		b[0], b[1] = space.Range(r.IntN(8), 20+r.IntN(10)), space.SetOf(v)
		t := 2 + r.IntN(traits-2)
		b[t] = space.Range(0, sizes[t]/2)
		vehicles = append(vehicles, b)
	}
	return sizes, bs, vehicles
}

// BenchmarkGap is everything less the union of the rows, folded in a balanced tree
// and, for reference, one row after the other.
func BenchmarkGap(b *testing.B) {
	for _, n := range []int{500, 2_000, 20_000} {
		sizes, rows, vehicles := catalogue(16, 6, n)
		o := space.Options{Order: space.Order(len(sizes), rows), Budget: 1 << 26}
		s := space.New(sizes, o)
		b.Run(fmt.Sprintf("rows=%d/fold", n), func(b *testing.B) {
			for b.Loop() {
				s.Reset(sizes, o)
				s.Minus(s.UnionBoxes(vehicles), s.UnionBoxes(rows))
			}
			b.ReportMetric(float64(s.Used()), "nodes")
		})
		b.Run(fmt.Sprintf("rows=%d/sequence", n), func(b *testing.B) {
			for b.Loop() {
				s.Reset(sizes, o)
				all := space.Empty
				for _, row := range rows {
					all = s.Union(all, s.Box(row))
				}
				s.Minus(s.UnionBoxes(vehicles), all)
			}
			b.ReportMetric(float64(s.Used()), "nodes")
		})
	}
}

// BenchmarkPairs is the conflict search by bits and, for reference, pair by pair.
func BenchmarkPairs(b *testing.B) {
	for _, n := range []int{2_000, 100_000} {
		sizes, rows, vehicles := catalogue(16, 6, n)
		s := space.New(sizes, space.Options{Order: space.Order(len(sizes), rows)})
		care := s.UnionBoxes(vehicles)
		found := 0
		b.Run(fmt.Sprintf("rows=%d/bits", n), func(b *testing.B) {
			for b.Loop() {
				found = 0
				s.Pairs(rows, care, func(i, j int) bool { found++; return true })
			}
			b.ReportMetric(float64(found), "pairs")
		})
		if n > 10_000 {
			continue
		}
		b.Run(fmt.Sprintf("rows=%d/pairwise", n), func(b *testing.B) {
			for b.Loop() {
				found = 0
				for i := range rows {
					for j := i + 1; j < len(rows); j++ {
						if both, ok := rows[i].Intersect(rows[j]); ok && s.Meets(care, both) {
							found++
						}
					}
				}
			}
			b.ReportMetric(float64(found), "pairs")
		})
	}
}

// BenchmarkCover lists the gap of a catalogue as boxes, with everything that does
// not exist as don't-care and, for reference, strictly.
func BenchmarkCover(b *testing.B) {
	for _, n := range []int{100, 500, 2_000, 20_000} {
		sizes, rows, vehicles := catalogue(16, 6, n)
		s := space.New(sizes, space.Options{Order: space.Order(len(sizes), rows), Budget: 1 << 26})
		care := s.UnionBoxes(vehicles)
		gap := s.Minus(care, s.UnionBoxes(rows))
		for _, c := range []struct {
			name string
			care space.Region
		}{{"care", care}, {"strict", space.Full}} {
			b.Run(fmt.Sprintf("rows=%d/%s", n, c.name), func(b *testing.B) {
				var boxes []space.Box
				var rest space.Region
				for b.Loop() {
					boxes, rest = s.Cover(gap, c.care, 1000)
				}
				conditions := 0
				for _, box := range boxes {
					conditions += box.Conditions()
				}
				b.ReportMetric(float64(len(boxes)), "boxes")
				b.ReportMetric(float64(conditions)/float64(max(1, len(boxes))), "conditions/box")
				b.ReportMetric(float64(min(rest, 1)), "rest")
			})
		}
	}
}

// BenchmarkPartition splits the vehicles of a catalogue by the outcome of its rows.
func BenchmarkPartition(b *testing.B) {
	for _, c := range []struct{ traits, rows, outcomes int }{
		{3, 12, 8}, {4, 20, 10}, {8, 20, 4}, {8, 120, 10}, {8, 120, 120}, {16, 500, 20}, {16, 2_000, 20},
	} {
		sizes, rows, vehicles := catalogue(c.traits, 6, c.rows)
		o := space.Options{Order: space.Order(len(sizes), rows)}
		s := space.New(sizes, o)
		b.Run(fmt.Sprintf("traits=%d/rows=%d/outcomes=%d", c.traits, c.rows, c.outcomes), func(b *testing.B) {
			var cells []space.Cell
			for b.Loop() {
				s.Reset(sizes, o)
				b.StopTimer()
				classes, care := outcomes(s, rows, vehicles, c.outcomes)
				b.StartTimer()
				cells = s.Partition(classes, care)
			}
			conditions := 0
			for _, cell := range cells {
				conditions += cell.Box.Conditions()
			}
			b.ReportMetric(float64(len(cells)), "cells")
			b.ReportMetric(float64(conditions)/float64(len(cells)), "conditions/cell")
			b.ReportMetric(float64(s.Used()), "nodes")
		})
	}
}

// outcomes gives the vehicles by what the first row that holds them says; the last
// class has those that no row holds.
func outcomes(s *space.Space, rows, vehicles []space.Box, n int) (classes []space.Region, care space.Region) {
	care = s.UnionBoxes(vehicles)
	left, classes := care, make([]space.Region, n+1)
	for i, row := range rows {
		r := s.Intersect(s.Box(row), left)
		left = s.Minus(left, r)
		classes[i*7%n] = s.Union(classes[i*7%n], r)
	}
	classes[n] = left
	return classes, care
}

// BenchmarkQuestions looks for question trees.
func BenchmarkQuestions(b *testing.B) {
	for _, c := range []struct{ traits, rows, outcomes int }{{5, 12, 4}, {6, 20, 4}, {8, 40, 6}, {8, 120, 10}} {
		sizes, rows, vehicles := catalogue(c.traits, 6, c.rows)
		s := space.New(sizes, space.Options{Order: space.Order(len(sizes), rows)})
		classes, _ := outcomes(s, rows, vehicles, c.outcomes)
		effort := make([]int, c.traits)
		for t := range effort {
			effort[t] = 1 + t*5%4
		}
		for _, states := range []int{0, 1} {
			b.Run(fmt.Sprintf("traits=%d/rows=%d/states=%d", c.traits, c.rows, states), func(b *testing.B) {
				var q space.Questions
				for b.Loop() {
					q = s.Questions(classes, space.Asking{Effort: effort, States: states})
				}
				expected, _ := q.Expected.Float64()
				b.ReportMetric(expected, "effort")
				exact := 0.0
				if q.Exact {
					exact = 1
				}
				b.ReportMetric(exact, "exact")
			})
		}
	}
}
