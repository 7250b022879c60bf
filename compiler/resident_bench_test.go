package compiler_test

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/tidy"
	"ferrule/compiler/tidy/yardstick"
	made "ferrule/out/workbook"
)

// BenchmarkResident changes one row of a tidy catalogue of 200 platforms again and again.
// read-ms is reading the workbook, rest-ms what comes after it until findings are known, and
// guide-ms what the guide of the platform takes besides; all is wall time, cpu-ms processor time
// without reading.
func BenchmarkResident(b *testing.B) {
	var dirs [2]string
	for i := range dirs {
		dirs[i] = b.TempDir()
		sheets := tidy.Styled(1, 200, tidy.Single)
		last := &sheets[len(sheets)-1]
		if i == 1 {
			last.Rows = last.Rows[:len(last.Rows)-1]
		}
		require.NoError(b, made.Write(dirs[i], sheets))
	}
	var stays compiler.Resident
	var read, rest, guide, cpu time.Duration
	compile := func(i int) *compiler.Result {
		res, err := stays.Compile(context.Background(), compiler.Input{Paths: []string{dirs[i]}}, compiler.Options{Today: "2027-03-01",
			Progress: func(s compiler.Stage) {
				if s.Name == compiler.StageRead && s.Done {
					read += s.Took
				}
			}})
		require.NoError(b, err)
		return res
	}
	compile(0)
	read = 0
	n := 1
	for b.Loop() {
		before := read
		start, used := time.Now(), yardstick.ProcessorTime()
		res := compile(n % 2)
		rest += time.Since(start) - (read - before)
		cpu += yardstick.ProcessorTime() - used
		start = time.Now()
		res.Guide(res.Catalogue.Platforms[199])
		guide += time.Since(start)
		require.Equal(b, 199, stays.Reused())
		n++
	}
	per := func(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 / float64(b.N) }
	b.ReportMetric(per(read), "read-ms")
	b.ReportMetric(per(rest), "rest-ms")
	b.ReportMetric(per(guide), "guide-ms")
	b.ReportMetric(per(cpu), "cpu-ms")
	b.ReportMetric(0, "ns/op")
}
