package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"ferrule/cmd/ferrule/cli"
	"ferrule/compiler"
	"ferrule/compiler/model"
	"ferrule/compiler/tidy/yardstick"
	"ferrule/out/workbook"
)

// BenchmarkFleet answers for 100,000 vehicles of 200 tidy platforms, of which a fifth of what is known
// of a vehicle is left out: as fleets are, with 25 sorts of vehicle on a platform, and all drawn
// anew. x-check is how many times the processor time of a check that takes.
func BenchmarkFleet(b *testing.B) {
	dir := b.TempDir()
	require.NoError(b, workbook.Write(dir, single(200)))
	book := filepath.Join(dir, workbook.Name)
	for _, c := range []struct {
		name  string
		sorts int
		args  []string
	}{
		{"sorts=25/text", 25, nil}, {"sorts=25/csv", 25, []string{"--format", "csv"}}, {"sorts=25/json", 25, []string{"--format", "json"}},
		{"sorts=25/xlsx", 25, []string{"-o", "out.xlsx"}}, {"sorts=500/text", 500, nil},
	} {
		fleet := filepath.Join(b.TempDir(), "fleet.csv")
		drawFleet(b, book, fleet, 100_000, c.sorts)
		b.Run(c.name, func(b *testing.B) {
			var checks, all time.Duration
			for b.Loop() {
				var out bytes.Buffer
				start := yardstick.ProcessorTime()
				require.Less(b, cli.Run(context.Background(), []string{"check", book, "--fail-on", "never"}, &out, &out), 1)
				checks += yardstick.ProcessorTime() - start
				out.Reset()
				args := append([]string{"fleet", book, fleet}, c.args...)
				if i := slices.Index(args, "out.xlsx"); i >= 0 {
					args[i] = filepath.Join(b.TempDir(), "out.xlsx")
					os.Remove(args[i])
				}
				start = yardstick.ProcessorTime()
				require.Less(b, cli.Run(context.Background(), args, &out, &out), 2, "%.2000s", out.String())
				all += yardstick.ProcessorTime() - start
			}
			b.ReportMetric(checks.Seconds()/float64(b.N), "check-s/op")
			b.ReportMetric(all.Seconds()/float64(b.N), "fleet-s/op")
			b.ReportMetric(all.Seconds()/checks.Seconds(), "x-check")
		})
	}
}

// drawFleet writes vehicles that exist, of each platform so many sorts.
func drawFleet(b *testing.B, book, to string, rows, sorts int) {
	b.Helper()
	res, err := compiler.Compile(context.Background(), compiler.Input{Paths: []string{book}}, compiler.Options{Unchecked: true})
	require.NoError(b, err)
	r := rand.New(rand.NewPCG(100, 22))
	var all [][]string
	for _, p := range res.Catalogue.Platforms {
		var on []*model.Vehicles
		for _, v := range res.Catalogue.Vehicles {
			if v.When.Concerns(p) {
				on = append(on, v)
			}
		}
		for range sorts {
			all = append(all, drawVehicle(r, p, on[r.IntN(len(on))]))
		}
	}
	file, err := os.Create(to)
	require.NoError(b, err)
	out := csv.NewWriter(file)
	head := []string{"Platform", "Year"}
	for _, t := range res.Catalogue.Traits {
		head = append(head, t.Name)
	}
	require.NoError(b, out.Write(append(head, "Our number")))
	for i := range rows {
		require.NoError(b, out.Write(append(slices.Clone(all[r.IntN(len(all))]), fmt.Sprint("N-", i))))
	}
	out.Flush()
	require.NoError(b, file.Close())
}

func drawVehicle(r *rand.Rand, p *model.Platform, row *model.Vehicles) []string {
	years := slices.Collect(p.YearSet(row.When.Years).Values())
	cells := []string{p.Name, fmt.Sprint(p.Years[years[r.IntN(len(years))]])}
	for _, t := range row.When.Traits {
		values := slices.Collect(t.Values.Values())
		text := "n/a"
		if v := values[r.IntN(len(values))]; v != t.Trait.Absent() {
			text = t.Trait.Values[v].Name
		}
		if r.IntN(5) == 0 {
			text = ""
		}
		cells = append(cells, text)
	}
	return cells
}
