package space_test

import (
	"fmt"
	"testing"
	"time"

	"ferrule/compiler/space"
)

// BenchmarkCover lists the gap of a catalogue as boxes, with everything that does not
// exist as don't-care. Reference: strictly.
func BenchmarkCover(b *testing.B) {
	for _, n := range []int{500, 2_000, 20_000} {
		sizes, rows, vehicles := catalogue(16, 6, n)
		s := space.New(sizes, space.Options{Order: space.Order(len(sizes), rows), Budget: 1 << 26})
		care := s.UnionBoxes(vehicles)
		gap := s.Minus(care, s.UnionBoxes(rows))
		b.Run(fmt.Sprintf("rows=%d", n), func(b *testing.B) {
			var boxes, strict []space.Box
			references := map[string]time.Duration{"strict": took(func() { strict, _ = s.Cover(gap, space.Full, 1000) })}
			against(b, func() { boxes, _ = s.Cover(gap, care, 1000) }, references)
			for name, bs := range map[string][]space.Box{"": boxes, "strict-": strict} {
				b.ReportMetric(float64(len(bs)), name+"boxes")
				b.ReportMetric(float64(conditions(bs))/float64(len(bs)), name+"conditions/box")
			}
		})
	}
}

func conditions(boxes []space.Box) int {
	n := 0
	for _, b := range boxes {
		n += b.Conditions()
	}
	return n
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
				expected, _ := q.Expected().Float64()
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
