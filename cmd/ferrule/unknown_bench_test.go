package main

import (
	"fmt"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/compiler/tidy"
	"ferrule/out/workbook"
)

// BenchmarkUnknown checks a catalogue of 20,000 parts whose fitment writes every number
// with a wrong prefix.
func BenchmarkUnknown(b *testing.B) {
	const parts = 20_000
	dir := b.TempDir()
	require.NoError(b, workbook.Write(dir, wrongPrefix(parts)))
	work(b, "check", filepath.Join(dir, workbook.Name))
}

func wrongPrefix(parts int) []tidy.Sheet {
	numbers := tidy.Sheet{Name: "Parts", Rows: [][]string{{"Part", "Name"}}}
	fitment := tidy.Sheet{Name: "Fitment", Rows: [][]string{{"Platform", "Years", "Front damper"}}}
	platforms := tidy.Sheet{Name: "Platforms", Rows: [][]string{{"Platform", "Years"}}}
	vehicles := tidy.Sheet{Name: "Vehicles", Rows: [][]string{{"Platform", "Years"}}}
	for i := range parts {
		name := fmt.Sprint("Heron ", 1+i/20)
		if i%20 == 0 {
			platforms.Rows = append(platforms.Rows, []string{name, "2001-2020"})
			vehicles.Rows = append(vehicles.Rows, []string{name, "2001-2020"})
		}
		numbers.Rows = append(numbers.Rows, []string{fmt.Sprint("HD-", 10_000+i), "Damper"})
		fitment.Rows = append(fitment.Rows, []string{name, fmt.Sprint(2001 + i%20), fmt.Sprint("HQ-", 10_000+i)})
	}
	positions := tidy.Sheet{Name: "Positions", Rows: [][]string{{"Position"}, {"Front damper"}}}
	return []tidy.Sheet{positions, platforms, vehicles, numbers, fitment}
}
