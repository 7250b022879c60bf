package desk_test

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"ferrule/compiler/tidy"
	"ferrule/out/desk"
	made "ferrule/out/workbook"
)

// BenchmarkSave saves a workbook with one cell changed and waits until a page has been got that is right:
// median-ms and worst-ms are wall time from the rename that ends the save until the
// findings of it are there.
func BenchmarkSave(b *testing.B) {
	b.Run("demo", func(b *testing.B) {
		d := demoBench(b)
		var saves [2][]byte
		for i, text := range []string{"HPR-770001", "HPR-770002"} {
			saves[i] = edited(b, d.demo("fitment.xlsx"), "Fitment H7", text)
		}
		d.saved(b, "fitment.xlsx", saves, "findings?code=part-unknown", func(n int) func(string) bool {
			return has([]string{"HPR-770001", "HPR-770002"}[n])
		})
	})
	b.Run("tidy-200", func(b *testing.B) {
		d := &bench{t: b, dir: b.TempDir()}
		var saves [2][]byte
		for i := range saves {
			sheets := tidy.Styled(1, 200, tidy.Single)
			last := &sheets[len(sheets)-1]
			if i == 1 {
				last.Rows = last.Rows[:len(last.Rows)-1]
			}
			dir := b.TempDir()
			require.NoError(b, made.Write(dir, sheets))
			var err error
			saves[i], err = os.ReadFile(filepath.Join(dir, made.Name))
			require.NoError(b, err)
		}
		d.put(made.Name, saves[1])
		last := ""
		d.saved(b, made.Name, saves, "findings?severity=error", func(int) func(string) bool {
			return func(p string) bool { // the version grows with each state
				_, p, _ = strings.Cut(p, `data-version="`)
				version, _, _ := strings.Cut(p, `"`)
				now := version != last
				last = version
				return now
			}
		})
	})
}

// edited gives a workbook with another text in one cell.
func edited(b *testing.B, data []byte, sheet, text string) []byte {
	x, err := excelize.OpenReader(bytes.NewReader(data))
	require.NoError(b, err)
	require.NoError(b, x.SetCellStr(sheet, "J2", text))
	out, err := x.WriteToBuffer()
	require.NoError(b, err)
	return out.Bytes()
}

func (d *bench) saved(b *testing.B, name string, saves [2][]byte, view string, right func(n int) func(string) bool) {
	d.open(desk.Options{Paths: []string{d.dir}})
	d.until(view, has(`id="counts"`))
	var took []time.Duration
	n := 0
	for b.Loop() {
		require.NoError(b, os.WriteFile(filepath.Join(d.dir, "lu2.tmp"), saves[n], 0o600))
		start := time.Now()
		require.NoError(b, os.Rename(filepath.Join(d.dir, "lu2.tmp"), filepath.Join(d.dir, name)))
		d.until(view, right(n))
		took = append(took, time.Since(start))
		n = 1 - n
	}
	slices.Sort(took)
	ms := func(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 }
	b.ReportMetric(ms(took[len(took)/2]), "median-ms")
	b.ReportMetric(ms(took[len(took)-1]), "worst-ms")
	b.ReportMetric(0, "ns/op")
}
