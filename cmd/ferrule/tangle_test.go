package main

import (
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/compiler/tidy"
	"ferrule/out/workbook"
)

// tangle is a catalogue of platforms that are too irregular to be worked out: rows that each
// fill all positions and, where cut allows, name other values of every trait.
func tangle(platforms, positions, rows int, cut func(r *rand.Rand, trait int) string) []tidy.Sheet {
	r := rand.New(rand.NewPCG(1, 2))
	return []tidy.Sheet{
		table("Settings", "Setting|Value", "title|Tangle"),
		table("Platforms", "Platform|Years", each(platforms, func(i int) string { return fmt.Sprintf("H%d|2000-2026", i) })...),
		table("Traits", "Trait|Value|Kind", each(24*20, func(i int) string { return fmt.Sprintf("T%d|V%d|choice", i/20, i%20) })...),
		table("Vehicles", "Platform|Years|"+heads("T%d", 24), each(platforms, func(i int) string {
			return fmt.Sprintf("H%d|2000-2026|%s", i, cellsOf("any", 24))
		})...),
		table("Positions", "Position", each(positions, func(i int) string { return fmt.Sprintf("P%d", i) })...),
		table("Parts", "Part|Name|Family", each(500, func(i int) string { return fmt.Sprintf("D-%d|Damper|Damper", i) })...),
		table("Fitment", "Platform|Years|"+heads("T%d", 24)+"|"+heads("P%d", positions), each(rows*platforms, func(i int) string {
			return fmt.Sprintf("H%d|2000-2026|%s|%s", i/rows,
				strings.Join(each(24, func(k int) string { return cut(r, k) }), "|"),
				strings.Join(each(positions, func(k int) string { return fmt.Sprintf("D-%d", (i*7+k)%500) }), "|"))
		})...),
	}
}

// all leaves two values of each trait out; some names two of a quarter of them.
func all(r *rand.Rand, _ int) string { return fmt.Sprintf("not V%d, V%d", r.IntN(20), r.IntN(20)) }

func some(r *rand.Rand, _ int) string {
	if r.IntN(4) > 0 {
		return ""
	}
	return strings.Join(slices.Compact([]string{fmt.Sprintf("V%d", r.IntN(10)), fmt.Sprintf("V%d", 10+r.IntN(10))}), ", ")
}

// BenchmarkTangle checks them: what a platform may cost is bounded, not only what each of its
// positions may.
func BenchmarkTangle(b *testing.B) {
	for _, c := range []struct {
		name string
		rows int
		cut  func(*rand.Rand, int) string
	}{{"all of 24 traits, 3 rows", 3, all}, {"a quarter of 24 traits, 150 rows", 150, some}, {"all, 30 rows", 30, all}} {
		b.Run(c.name, func(b *testing.B) {
			dir := b.TempDir()
			require.NoError(b, workbook.Write(dir, tangle(40, 100, c.rows, c.cut)))
			name := filepath.Join(dir, workbook.Name)
			work(b, "check", name)
			b.ReportMetric(peakOf(b, arguments("check", name, dir)), "peak-MB")
		})
	}
}
