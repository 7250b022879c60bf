//go:build unix

package compiler

import (
	"bufio"
	"context"
	"io"
	"path/filepath"
	"runtime"
	"syscall"
	"testing"
	"time"

	"github.com/klauspost/compress/flate"
	"github.com/klauspost/compress/zip"
	"github.com/stretchr/testify/require"
)

// inflateAndScan is the reference F: it inflates a workbook's parts on one goroutine and
// counts cells byte by byte.
func inflateAndScan(b *testing.B, name string) (cells int) {
	z, err := zip.OpenReader(name)
	require.NoError(b, err)
	defer z.Close()
	buf := make([]byte, 1<<16)
	for _, f := range z.File {
		raw, err := f.OpenRaw()
		require.NoError(b, err)
		r := flate.NewReader(bufio.NewReaderSize(raw, 1<<15))
		last := byte(0)
		for {
			n, err := r.Read(buf)
			for _, c := range buf[:n] {
				if c == 'c' && last == '<' {
					cells++
				}
				last = c
			}
			if err == io.EOF {
				break
			}
			require.NoError(b, err)
		}
	}
	return cells
}

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
		inflateAndScan(b, filepath.Join(dir, "made.xlsx"))
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
