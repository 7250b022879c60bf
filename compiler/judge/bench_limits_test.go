package judge_test

import (
	"testing"
	"time"

	"ferrule/compiler/model"
	"ferrule/compiler/tidy/yardstick"
)

// regions counts, for a platform on average, the rows of facts that each limit depends
// on.
func regions(cat *model.Catalogue) float64 {
	rows := make([]int, len(cat.Facts))
	for _, r := range cat.FactRows {
		for _, c := range r.Cells {
			rows[c.Fact.Index]++
		}
	}
	n := 0
	for _, l := range cat.Limits {
		for _, id := range l.Rule.Uses {
			if _, fact := cat.Term(id); fact != nil {
				n += rows[fact.Index]
			}
		}
	}
	return float64(n) / float64(len(cat.Platforms))
}

// BenchmarkLimits works on a tenth of a typical catalogue with and without limits. The
// metric is by how much they lengthen the analysis, in processor time.
func BenchmarkLimits(b *testing.B) {
	s := typical
	s.platforms /= 10
	plain, limited := s.make(), s.make()
	s.limited(b, limited)
	var without, with time.Duration
	for b.Loop() {
		start := yardstick.ProcessorTime()
		n := run(b, plain, 1)
		between := yardstick.ProcessorTime()
		m := run(b, limited, 1)
		without, with = without+between-start, with+yardstick.ProcessorTime()-between
		b.ReportMetric(float64(m-n), "findings")
	}
	b.ReportMetric(regions(limited), "regions/platform")
	b.ReportMetric(100*float64(with-without)/float64(without), "%-longer")
	b.ReportMetric(0, "ns/op")
}
