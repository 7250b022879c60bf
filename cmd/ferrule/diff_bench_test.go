package main

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"ferrule/cmd/ferrule/cli"
	"ferrule/compiler/tidy/yardstick"
)

// BenchmarkDiff compares two catalogues of 200,000 fitment rows, in which every hundredth
// platform or each of them has changed, and checks one of them in the same run; the
// metric is how many times as much processor time the comparison takes. The aim is 2.5.
func BenchmarkDiff(b *testing.B) {
	dir := b.TempDir()
	bulk{platforms: 1670, changed: 0}.write(b, filepath.Join(dir, "old.xlsx"))
	for _, c := range []struct {
		name  string
		every int
	}{{"a review", 100}, {"all platforms", 1}} {
		b.Run(c.name, func(b *testing.B) {
			new := filepath.Join(b.TempDir(), "new.xlsx")
			bulk{platforms: 1670, changed: c.every}.write(b, new)
			var check, diff time.Duration
			var out bytes.Buffer
			for b.Loop() {
				check += timed(b, &out, "check", new, "--format", "json", "--fail-on", "never")
				diff += timed(b, &out, "diff", filepath.Join(dir, "old.xlsx"), new, "--format", "json")
			}
			b.ReportMetric(float64(diff)/float64(check), "x-check")
			b.ReportMetric(check.Seconds()/float64(b.N), "s/check")
			b.ReportMetric(float64(bytes.Count(out.Bytes(), []byte("      \"kind\":"))), "differences")
		})
	}
}

func timed(b *testing.B, out *bytes.Buffer, args ...string) time.Duration {
	out.Reset()
	start := yardstick.ProcessorTime()
	require.Zero(b, cli.Run(context.Background(), args, out, out))
	return yardstick.ProcessorTime() - start
}

// bulk is a catalogue of 8 rows for each of 15 positions of each platform. Every so
// many-th platform has changed: one row in sixteen offers another part, one in a hundred
// is gone, and of every fifth platform more years exist; 0 is none.
type bulk struct{ platforms, changed int }

const (
	bulkPositions = 15
	bulkTraits    = 8
	bulkValues    = 4
	bulkRows      = 8
)

func (k bulk) write(b *testing.B, path string) {
	f := excelize.NewFile()
	defer f.Close()
	k.sheet(b, f, "Platforms", []any{"Platform", "Years"}, func(row func(...any)) {
		for p := range k.platforms {
			row(fmt.Sprint("H", p), "2000-2015")
		}
	})
	k.sheet(b, f, "Traits", []any{"Trait", "Value", "How to tell"}, func(row func(...any)) {
		for t := range bulkTraits {
			for v := range bulkValues {
				row(fmt.Sprint("Trait ", t), fmt.Sprint("Value ", v), "look")
			}
		}
	})
	k.sheet(b, f, "Positions", []any{"Position"}, func(row func(...any)) {
		for p := range bulkPositions {
			row(fmt.Sprint("Position ", p))
		}
	})
	k.sheet(b, f, "Parts", []any{"Part"}, func(row func(...any)) {
		for p := range 60 {
			row(fmt.Sprint("P-", p))
		}
	})
	head := []any{"Platform", "Years"}
	for t := range bulkTraits {
		head = append(head, fmt.Sprint("Trait ", t))
	}
	k.sheet(b, f, "Vehicles", append(head[:len(head):len(head)], "On the road"), k.vehicles)
	k.sheet(b, f, "Fitment", append(head[:len(head):len(head)], "Position", "Fits"), k.fitments)
	require.NoError(b, f.DeleteSheet("Sheet1"))
	require.NoError(b, f.SaveAs(path))
}

func (k bulk) sheet(b *testing.B, f *excelize.File, name string, head []any, rows func(row func(...any))) {
	_, err := f.NewSheet(name)
	require.NoError(b, err)
	w, err := f.NewStreamWriter(name)
	require.NoError(b, err)
	n := 0
	row := func(cells ...any) {
		n++
		at, err := excelize.CoordinatesToCellName(1, n)
		require.NoError(b, err)
		require.NoError(b, w.SetRow(at, cells))
	}
	row(head...)
	rows(row)
	require.NoError(b, w.Flush())
}

func (k bulk) touched(platform int) bool { return k.changed > 0 && platform%k.changed == 0 }

func (k bulk) vehicles(row func(...any)) {
	for p := range k.platforms {
		r := rand.New(rand.NewPCG(uint64(p), 1))
		for range 6 {
			from := 2000 + r.IntN(8)
			to := 2008 + r.IntN(6)
			if k.touched(p) && p%5 == 0 {
				to += 2
			}
			cells := []any{fmt.Sprint("H", p), fmt.Sprintf("%d-%d", from, to)}
			for range bulkTraits {
				cells = append(cells, someValues(r))
			}
			row(append(cells, 1+r.IntN(900))...)
		}
	}
}

func someValues(r *rand.Rand) string {
	var out []string
	for v := range bulkValues {
		if r.IntN(2) == 0 {
			out = append(out, fmt.Sprint("Value ", v))
		}
	}
	if out == nil {
		return "Value 0"
	}
	return strings.Join(out, ", ")
}

// fitments splits each position of a platform by the years and two traits, as people do
// who know what the part depends on.
func (k bulk) fitments(row func(...any)) {
	for p := range k.platforms {
		r := rand.New(rand.NewPCG(uint64(p), 2))
		change := rand.New(rand.NewPCG(uint64(p), 3))
		for pos := range bulkPositions {
			first, second := r.IntN(bulkTraits), r.IntN(bulkTraits)
			for i := range bulkRows {
				cells := make([]any, 2+bulkTraits, 4+bulkTraits)
				cells[0], cells[1] = fmt.Sprint("H", p), []string{"to 2006", "2007+"}[i%2]
				cells[2+first] = []string{"Value 0, Value 1", "not Value 0, Value 1"}[i/2%2]
				if first != second {
					cells[2+second] = []string{"Value 2", "not Value 2"}[i/4]
				}
				part := fmt.Sprint("P-", r.IntN(40))
				if k.touched(p) {
					switch change.IntN(100) {
					case 0:
						continue
					case 1, 2, 3, 4, 5, 6:
						part = fmt.Sprint("P-", 40+change.IntN(20))
					}
				}
				row(append(cells, fmt.Sprint("Position ", pos), part)...)
			}
		}
	}
}
