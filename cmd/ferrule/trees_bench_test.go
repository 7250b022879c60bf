package main

import (
	"context"
	"math/big"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/out/workbook"
)

// BenchmarkTrees tells how far the question trees of a tidy catalogue of 200 platforms are
// from the bound that is proven of each: the median of the ratios, the greatest, and the
// share of those that are at most 1.10. A position without a tree counts as none.
func BenchmarkTrees(b *testing.B) {
	dir := b.TempDir()
	require.NoError(b, workbook.Write(dir, single(200)))
	for b.Loop() {
		in := compiler.Input{Paths: []string{filepath.Join(dir, workbook.Name)}}
		res, err := compiler.Compile(context.Background(), in, compiler.Options{Today: "2027-03-01", Guides: true})
		require.NoError(b, err)
		ratios, none := ratios(res)
		slices.Sort(ratios)
		near, _ := slices.BinarySearch(ratios, 1.10000001)
		b.ReportMetric(ratios[len(ratios)/2], "median")
		b.ReportMetric(ratios[len(ratios)-1], "max")
		b.ReportMetric(float64(near)/float64(len(ratios)), "within-1.10")
		b.ReportMetric(float64(len(ratios)), "trees")
		b.ReportMetric(float64(none), "without")
	}
}

// ratios gives for each tree what it takes by what every tree takes at least, and how many
// positions have no tree.
func ratios(res *compiler.Result) (out []float64, none int) {
	for _, p := range res.Guides {
		g := p.Open()
		for _, a := range g.Answers {
			q := a.Questions
			switch {
			case q.Tree == nil:
				none++
			case q.Least.Sign() == 0:
				out = append(out, 1)
			default:
				ratio, _ := new(big.Rat).Quo(q.Expected, q.Least).Float64()
				out = append(out, ratio)
			}
		}
	}
	return out, none
}
