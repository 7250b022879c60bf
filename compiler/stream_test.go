//go:build unix

package compiler

import (
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"ferrule/compiler/finding"
	"ferrule/compiler/table"
	"ferrule/out/workbook"
	"ferrule/schema"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// streamed reads and validates every sheet of a workbook and keeps no row.
func streamed(b *testing.B, set *schema.Set, name string, workers int) (rows int) {
	r := newReader(func(*finding.Finding) {})
	book, err := sheets.Open(name)
	require.NoError(b, err)
	book.Workers = workers
	fails := func(f *finding.Finding) { require.Fail(b, f.Message) }
	for i, info := range book.Sheets() {
		_, err := table.Stream(book, i, &cell.Sheet{Name: info.Name}, r.layouts[kindOf(info.Name)], fails, func(t *table.Table) func(*table.Record) {
			v, values := validator(set, t)
			return func(rec *table.Record) {
				rows++
				record(v, values, t, rec, fails)
			}
		})
		require.NoError(b, err)
	}
	require.NoError(b, book.Close())
	return rows
}

// usual reads and validates the fitment sheet as most programs would: the rows that
// excelize streams, each as a map against the schema.
func usual(b *testing.B, set *schema.Set, name string) (rows int) {
	f, err := excelize.OpenFile(name, excelize.Options{RawCellValue: true})
	require.NoError(b, err)
	it, err := f.Rows("Fitment")
	require.NoError(b, err)
	var header []string
	for it.Next() {
		cells, err := it.Columns()
		require.NoError(b, err)
		if header == nil {
			header = cells
			continue
		}
		var row schema.Row
		for i, text := range cells {
			if text = strings.TrimSpace(text); text == "" {
				continue
			}
			row.Fields = append(row.Fields, schema.Field{Name: header[i], Value: asStored(text)})
		}
		rows++
		require.Empty(b, set.Validate("fitment", row))
	}
	require.NoError(b, it.Close())
	require.NoError(b, f.Close())
	return rows
}

func asStored(text string) any {
	if n, err := strconv.ParseFloat(text, 64); err == nil {
		return n
	}
	return text
}

// BenchmarkStream reads and validates 200,000 fitment rows beside F, in turn, and tells
// the least times as multiples of F.
func BenchmarkStream(b *testing.B) {
	name := filepath.Join(madeCatalogue(b, 2000), "made.xlsx")
	set, _ := schema.New(nil)
	cpu, wall := map[string]time.Duration{}, map[string]time.Duration{}
	turn := func(of string, do func()) {
		runtime.GC()
		before, start := processorTime(), time.Now()
		do()
		keep(wall, of, time.Since(start))
		keep(cpu, of, processorTime()-before)
	}
	for b.Loop() {
		turn("F", func() {
			_, err := workbook.Scan(name)
			require.NoError(b, err)
		})
		turn("one", func() { require.Greater(b, streamed(b, set, name, 1), 200_000) })
		turn("two", func() { require.Greater(b, streamed(b, set, name, 2), 200_000) })
	}
	b.ReportMetric(float64(cpu["F"].Microseconds())/1000, "F-ms")
	for _, of := range []string{"one", "two"} {
		b.ReportMetric(float64(cpu[of])/float64(cpu["F"]), of+"-cpu/F")
		b.ReportMetric(float64(wall[of])/float64(wall["F"]), of+"-wall/F")
	}
}

// BenchmarkStreamUsual is the usual way on a tenth of the rows, in the same run as ours.
func BenchmarkStreamUsual(b *testing.B) {
	name := filepath.Join(madeCatalogue(b, 200), "made.xlsx")
	set, _ := schema.New(nil)
	cpu := map[string]time.Duration{}
	turn := func(of string, do func()) {
		runtime.GC()
		before := processorTime()
		do()
		keep(cpu, of, processorTime()-before)
	}
	for b.Loop() {
		turn("ours", func() { require.Greater(b, streamed(b, set, name, 1), 20_000) })
		turn("usual", func() { require.Equal(b, 20_000, usual(b, set, name)) })
	}
	b.ReportMetric(float64(cpu["usual"])/float64(cpu["ours"]), "usual-cpu/ours")
}

// BenchmarkStreamMemory tells the most memory that reading and validating takes while no
// row is kept, and what each row of a whole catalogue takes where they are.
func BenchmarkStreamMemory(b *testing.B) {
	for _, platforms := range []int{2000, 10_000} {
		b.Run(strconv.Itoa(100*platforms), func(b *testing.B) {
			name := filepath.Join(madeCatalogue(b, platforms), "made.xlsx")
			set, _ := schema.New(nil)
			peak := 0.0
			for b.Loop() {
				peak = max(peak, peakOf(func() { require.Greater(b, streamed(b, set, name, 2), 100*platforms) }))
			}
			b.ReportMetric(peak/(1<<20), "peak-MiB")
		})
	}
}

// peakOf tells by how many bytes memory in use grows at most, seen every millisecond.
func peakOf(do func()) float64 {
	before, peak := inUse(), atomic.Uint64{}
	stop, stopped := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(stopped)
		for {
			var now runtime.MemStats
			runtime.ReadMemStats(&now)
			peak.Store(max(peak.Load(), now.HeapInuse+now.StackInuse))
			select {
			case <-stop:
				return
			case <-time.After(time.Millisecond):
			}
		}
	}()
	do()
	close(stop)
	<-stopped
	return float64(peak.Load()) - float64(min(peak.Load(), before))
}

// inUse is the memory in use once what nobody holds is gone.
func inUse() uint64 {
	runtime.GC()
	var now runtime.MemStats
	runtime.ReadMemStats(&now)
	return now.HeapInuse + now.StackInuse
}
