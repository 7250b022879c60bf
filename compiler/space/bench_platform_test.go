package space_test

import (
	"fmt"
	"slices"
	"sync"
	"testing"
	"time"

	"ferrule/compiler/space"
)

// BenchmarkPlatform is what one platform is asked at each save: the gap of each
// position with its size, an example and boxes, rows that match nothing, and the pairs
// that meet; with guide also the boxes by outcome. Reference: one in a thousand
// configurations of the first position against each row, scaled to all.
func BenchmarkPlatform(b *testing.B) {
	for _, rows := range []int{8, 120} {
		for _, guide := range []bool{false, true} {
			b.Run(fmt.Sprintf("rows=15x%d/guide=%v", rows, guide), func(b *testing.B) {
				l := platform(1, rows)
				s := space.New(l.sizes, l.options)
				references := map[string]time.Duration{"enumeration": sampled(l)}
				against(b, func() { work(s, l, guide) }, references)
			})
		}
	}
}

// work asks everything about one platform, in an arena that is used again.
func work(s *space.Space, l load, guide bool) {
	s.Reset(l.sizes, l.options)
	exist := s.UnionBoxes(l.vehicles)
	for _, rows := range l.positions {
		mark := s.Mark()
		traits, care := mentioned(rows), exist
		if len(traits) < len(l.sizes) {
			care = s.Project(exist, traits)
		}
		gap := s.Minus(care, s.UnionBoxes(rows))
		s.Count(s.Intersect(gap, exist))
		s.First(gap)
		s.Cover(gap, care, 20)
		for _, row := range rows {
			s.Meets(exist, row)
		}
		s.Pairs(rows, exist, func(i, j int) bool { return true })
		if guide {
			s.Partition(split(s, rows, care, 10), care)
		}
		s.Release(mark)
	}
}

// mentioned lists the traits that rows restrict.
func mentioned(rows []space.Box) []int {
	var out []int
	for _, row := range rows {
		for t, set := range row {
			if set != nil && !slices.Contains(out, t) {
				out = append(out, t)
			}
		}
	}
	return out
}

// sampled is how long enumeration would take for all positions.
func sampled(l load) time.Duration {
	const one = 1_000
	all := 1
	for _, n := range l.sizes {
		all *= n
	}
	c, seen := make([]int, len(l.sizes)), 0
	d := took(func() {
		for i := 0; i < all; i += one {
			k := i
			for t, n := range l.sizes {
				c[t], k = k%n, k/n
			}
			if anyHas(l.vehicles, c) && !anyHas(l.positions[0], c) {
				seen++
			}
		}
	})
	return d * one * time.Duration(len(l.positions))
}

// BenchmarkTypical is 200 platforms in one arena for each of some workers: a tenth of a
// typical load.
func BenchmarkTypical(b *testing.B) {
	loads := make([]load, 200)
	for i := range loads {
		loads[i] = platform(uint64(i), 8)
	}
	for _, workers := range []int{1, 2} {
		for _, guide := range []bool{false, true} {
			b.Run(fmt.Sprintf("workers=%d/guide=%v", workers, guide), func(b *testing.B) {
				most := 0.0
				against(b, func() {
					most = max(most, peak(func() { share(loads, workers, guide) }))
				}, nil)
				b.ReportMetric(most, "peak-MB")
			})
		}
	}
}

// share works on every load once, by so many workers.
func share(loads []load, workers int, guide bool) {
	var all sync.WaitGroup
	next := make(chan load)
	for range workers {
		all.Go(func() {
			s := space.New([]int{1}, space.Options{})
			for l := range next {
				work(s, l, guide)
			}
		})
	}
	for _, l := range loads {
		next <- l
	}
	close(next)
	all.Wait()
}
