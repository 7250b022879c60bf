package main

import (
	"bytes"
	"os/exec"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// BenchmarkMemory tells the most memory that the program takes in a process of its own, as -v
// prints it, to check tidy and messy catalogues and to build tidy ones.
func BenchmarkMemory(b *testing.B) {
	onCatalogues(b, func(b *testing.B, what, name string) {
		most := 0.0
		for b.Loop() {
			most = max(most, peakOf(b, arguments(what, name, b.TempDir())))
		}
		b.ReportMetric(most, "peak-MB")
		b.ReportMetric(0, "ns/op")
	})
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
