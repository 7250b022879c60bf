package main

import (
	"bytes"
	"context"
	"fmt"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"ferrule/cmd/ferrule/cli"
	"ferrule/compiler/tidy"
	"ferrule/compiler/tidy/yardstick"
	"ferrule/out/workbook"
)

// BenchmarkTidy checks and builds tidy catalogues, with their few faults, and checks messy
// ones; 2,000 platforms are 240,000 fitment rows. F is inflating the workbook and counting
// its cells, in the same run.
func BenchmarkTidy(b *testing.B) { onCatalogues(b, work) }

// onCatalogues runs a benchmark on workbooks of several sizes, each with what is to be done with it.
func onCatalogues(b *testing.B, run func(b *testing.B, what, name string)) {
	for _, c := range []struct {
		work      string
		platforms []int
		make      func(platforms int) []tidy.Sheet
	}{
		{"check", []int{20, 200, 2000}, single},
		{"build", []int{20, 200, 2000}, single},
		{"messy", []int{20, 200, 2000}, func(n int) []tidy.Sheet { return tidy.Messy(1, n) }},
	} {
		for _, n := range c.platforms {
			b.Run(fmt.Sprintf("%s/platforms=%d", c.work, n), func(b *testing.B) {
				dir := b.TempDir()
				require.NoError(b, workbook.Write(dir, c.make(n)))
				run(b, c.work, filepath.Join(dir, workbook.Name))
			})
		}
	}
}

// single is a tidy catalogue with one sheet of fitment.
func single(platforms int) []tidy.Sheet { return tidy.Styled(1, platforms, tidy.Single) }

// work checks or builds a workbook and tells the processor time.
func work(b *testing.B, what, name string) {
	var f, all time.Duration
	for b.Loop() {
		start := yardstick.ProcessorTime()
		yardstick.InflateAndScan(b, name)
		f += yardstick.ProcessorTime() - start
		var out bytes.Buffer
		args := arguments(what, name, b.TempDir())
		start = yardstick.ProcessorTime()
		code := cli.Run(context.Background(), args, &out, &out)
		all += yardstick.ProcessorTime() - start
		require.Less(b, code, 2, "%.2000s", out.String())
	}
	b.ReportMetric(float64(f.Milliseconds())/float64(b.N), "F-ms")
	b.ReportMetric(float64(all)/float64(f), "work/F")
	b.ReportMetric(all.Seconds()/float64(b.N), "cpu-s")
}

// arguments are those that the program checks or builds a workbook with.
func arguments(what, name, dir string) []string {
	if what == "build" {
		return []string{"build", name, "--output", filepath.Join(dir, "out"), "--draft", "--today", "2027-03-01"}
	}
	return []string{"check", name, "--format", "json", "--fail-on", "never", "--today", "2027-03-01"}
}
