//go:build unix

package compiler

import (
	"context"
	"path/filepath"
	"runtime"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"ferrule/out/workbook"
)

// processorTime is what the process has used so far.
func processorTime() time.Duration {
	var use syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &use); err != nil {
		panic("getrusage: " + err.Error())
	}
	return time.Duration(use.Utime.Nano() + use.Stime.Nano())
}

// BenchmarkCheck compiles a catalogue of 2,000 platforms and 200,000 fitment rows and tells
// the processor time of its stages, as multiples of F in the same run. What is over after
// the last stage but the set algebra is the program's own.
func BenchmarkCheck(b *testing.B) {
	dir := madeCatalogue(b, 2000)
	least, kept := map[string]time.Duration{}, 0.0
	for b.Loop() {
		idle := inUse() // what an earlier turn left is gone
		before := processorTime()
		_, err := workbook.Scan(filepath.Join(dir, "made.xlsx"))
		require.NoError(b, err)
		keep(least, "F", processorTime()-before)
		began := time.Duration(0)
		spent := map[string]time.Duration{}
		progress := func(s Stage) {
			if !s.Done {
				began = processorTime()
				return
			}
			spent[s.Name] += processorTime() - began
		}
		before = processorTime()
		res, err := Compile(context.Background(), Input{Paths: []string{dir}}, Options{Today: "2027-03-01", Progress: progress})
		require.NoError(b, err)
		require.Len(b, res.Catalogue.Fitments, 200_000)
		total := processorTime() - before
		kept = float64(inUse()-idle) / 200_000
		runtime.KeepAlive(res)
		keep(least, "all", total)
		for name, t := range spent {
			keep(least, name, t)
		}
		for _, t := range spent {
			total -= t
		}
		keep(least, "rest", total)
	}
	f := least["F"]
	b.ReportMetric(float64(f.Milliseconds()), "F-ms")
	b.ReportMetric(kept, "B/row-kept")
	delete(least, "F")
	for name, t := range least {
		b.ReportMetric(float64(t)/float64(f), name+"/F")
	}
}

func keep(least map[string]time.Duration, name string, t time.Duration) {
	if old, ok := least[name]; !ok || t < old {
		least[name] = t
	}
}
