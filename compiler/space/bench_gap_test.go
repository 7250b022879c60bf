package space_test

import (
	"fmt"
	"testing"
	"time"

	"ferrule/compiler/space"
)

// BenchmarkGap is everything that exists less the union of the rows, folded in a
// balanced tree. References: one row after the other, and, where there are few enough,
// each configuration against each row.
func BenchmarkGap(b *testing.B) {
	for _, c := range []struct{ traits, values, rows int }{{6, 5, 200}, {16, 6, 500}, {16, 6, 2_000}, {16, 6, 20_000}} {
		sizes, rows, vehicles := catalogue(c.traits, c.values, c.rows)
		o := space.Options{Order: space.Order(len(sizes), rows), Budget: 1 << 26}
		s := space.New(sizes, o)
		b.Run(fmt.Sprintf("traits=%d/rows=%d", c.traits, c.rows), func(b *testing.B) {
			gap := s.Minus(s.UnionBoxes(vehicles), s.UnionBoxes(rows)) // memory for all that follows
			s.Reset(sizes, o)
			references := map[string]time.Duration{"sequence": took(func() {
				all := space.Empty
				for _, row := range rows {
					all = s.Union(all, s.Box(row))
				}
				s.Minus(s.UnionBoxes(vehicles), all)
			})}
			if c.traits < 8 {
				found := 0
				references["enumeration"] = took(func() { found = enumerated(sizes, rows, vehicles) })
				s.Reset(sizes, o)
				if n := s.Count(s.Minus(s.UnionBoxes(vehicles), s.UnionBoxes(rows))); n.Int64() != int64(found) {
					b.Fatalf("%d configurations, and %d enumerated", n, found)
				}
			}
			against(b, func() {
				s.Reset(sizes, o)
				gap = s.Minus(s.UnionBoxes(vehicles), s.UnionBoxes(rows))
			}, references)
			b.ReportMetric(float64(s.Used()), "nodes")
			b.ReportMetric(float64(min(gap, 1)), "gap")
		})
	}
}

// enumerated counts the gap configuration by configuration.
func enumerated(sizes []int, rows, vehicles []space.Box) int {
	c, found := make([]int, len(sizes)), 0
	var each func(t int)
	each = func(t int) {
		if t == len(sizes) {
			if anyHas(vehicles, c) && !anyHas(rows, c) {
				found++
			}
			return
		}
		for v := range sizes[t] {
			c[t] = v
			each(t + 1)
		}
	}
	each(0)
	return found
}

// BenchmarkHard is the gap of random rows over 24 traits, which has no small diagram,
// within the default budget, and an example of it in any case.
func BenchmarkHard(b *testing.B) {
	for _, n := range []int{200, 500, 1_000, 2_000} {
		sizes, rows := hardSpace(24, 6, n)
		b.Run(fmt.Sprintf("rows=%d", n), func(b *testing.B) {
			over, most := 0.0, 0.0
			against(b, func() {
				most = max(most, peak(func() {
					s := space.New(sizes, space.Options{Order: space.Order(len(sizes), rows)})
					if s.Try(func() { s.Minus(space.Full, s.UnionBoxes(rows)) }) != nil {
						over = 1
					}
					if c, _ := s.Outside(space.Full, rows); c == nil || anyHas(rows, c) {
						b.Fatal("no example")
					}
				}))
			}, nil)
			b.ReportMetric(over, "over")
			b.ReportMetric(most, "peak-MB")
		})
	}
}
