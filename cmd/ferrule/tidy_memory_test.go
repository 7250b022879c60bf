package main

import (
	"bytes"
	"fmt"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/compiler/tidy"
	"ferrule/out/workbook"
)

// BenchmarkMemory tells the most memory that the program takes in a process of its own, as -v
// prints it, to check tidy and messy catalogues and to build tidy ones.
func BenchmarkMemory(b *testing.B) {
	for _, c := range []struct {
		work      string
		platforms []int
		make      func(platforms int) []tidy.Sheet
	}{
		{"check", []int{20, 200, 2000}, single},
		{"build", []int{20, 200}, single},
		{"messy", []int{20, 200, 2000}, func(n int) []tidy.Sheet { return tidy.Messy(1, n) }},
	} {
		for _, n := range c.platforms {
			b.Run(fmt.Sprintf("%s/platforms=%d", c.work, n), func(b *testing.B) {
				dir := b.TempDir()
				require.NoError(b, workbook.Write(dir, c.make(n)))
				most := 0.0
				for b.Loop() {
					most = max(most, peakOf(b, arguments(c.work, filepath.Join(dir, workbook.Name), b.TempDir())))
				}
				b.ReportMetric(most, "peak-MB")
				b.ReportMetric(0, "ns/op")
			})
		}
	}
}

// peakOf runs the program and gives its high water mark in megabytes.
func peakOf(b *testing.B, args []string) float64 {
	run := exec.Command("ferrule", append(args, "-v")...)
	var told bytes.Buffer
	run.Stderr = &told
	require.NoError(b, run.Run(), "%.2000s", told.String())
	all := regexp.MustCompile(`(?m) ([0-9.]+) MB(  |$)`).FindAllStringSubmatch(told.String(), -1)
	if len(all) == 0 {
		b.Skip("the system does not tell how much memory a process has")
	}
	mb, err := strconv.ParseFloat(all[len(all)-1][1], 64)
	require.NoError(b, err)
	return mb
}
