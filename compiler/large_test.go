package compiler

import (
	"context"
	"ferrule/compiler/tidy/yardstick"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// BenchmarkCheck compiles a catalogue of 2,000 platforms and 200,000 fitment rows and tells
// the processor time of its stages, as multiples of F in the same run. What is over after
// the last stage but the set algebra is the program's own.
func BenchmarkCheck(b *testing.B) {
	dir := yardstick.Catalogue(b, 2000)
	least, kept := yardstick.Least{}, 0.0
	for b.Loop() {
		idle := yardstick.InUse() // what an earlier turn left is gone
		before := yardstick.ProcessorTime()
		yardstick.InflateAndScan(b, filepath.Join(dir, yardstick.Workbook))
		least.Keep("F", yardstick.ProcessorTime()-before)
		began := time.Duration(0)
		spent := map[string]time.Duration{}
		progress := func(s Stage) {
			if !s.Done {
				began = yardstick.ProcessorTime()
				return
			}
			spent[s.Name] += yardstick.ProcessorTime() - began
		}
		before = yardstick.ProcessorTime()
		res, err := Compile(context.Background(), Input{Paths: []string{dir}}, Options{Today: "2027-03-01", Progress: progress})
		require.NoError(b, err)
		require.Len(b, res.Catalogue.Fitments, 200_000)
		total := yardstick.ProcessorTime() - before
		kept = float64(yardstick.InUse()-idle) / 200_000
		runtime.KeepAlive(res)
		least.Keep("all", total)
		for name, t := range spent {
			least.Keep(name, t)
		}
		for _, t := range spent {
			total -= t
		}
		least.Keep("rest", total)
	}
	f := least["F"]
	b.ReportMetric(float64(f.Milliseconds()), "F-ms")
	b.ReportMetric(kept, "B/row-kept")
	delete(least, "F")
	for name, t := range least {
		b.ReportMetric(float64(t)/float64(f), name+"/F")
	}
}
