package sheets_test

import (
	"encoding/binary"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/tidy/yardstick"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// textAttacks are text files of less than 5 MB that ask for much, with what is said of them, ""
// for nothing.
func textAttacks() map[string][2]string {
	wide := many(cell.MaxCol-1, ",")
	return map[string][2]string{
		"empty lines":               {many(4_900_000, "\n"), ""},
		"rows of signs":             {many(4_900_000/cell.MaxCol, wide+"\n"), ""},
		"cells of one letter":       {many(2_400_000/cell.MaxCol, many(cell.MaxCol-1, "a,")+"a\n"), ""},
		"signs alone":               {many(4_900_000, ","), "beyond the last column"},
		"a cell without end":        {"a,b\n\"" + many(4_900_000, "x"), "more than the 32767 characters"},
		"a cell of quotation marks": {"a,b\n\"" + many(2_400_000, "\"\""), "more than the 32767 characters"},
		"a cell of line breaks":     {"a,b\n\"" + many(4_900_000, "\r"), "more than the 32767 characters"},
		"quotation marks alone":     {many(4_900_000, "\""), "more than the 32767 characters"},
		"long cells":                {many(150, many(32_000, "x")+",b\n"), ""},
		"small rows":                {many(1_000_000, "a,b\n"), ""},
		"an old letter at the end":  {many(1_200_000, "a,b\n") + "\xe9", "is no letter in UTF-8"},
		"all signs":                 {many(600_000, "a,b;c\td\n"), "which is meant cannot be told"},
		"UTF-16":                    {inWide(many(600_000, "a,b\n"), binary.LittleEndian), ""},
	}
}

func readTextThrough(text string) error {
	_, err := sheets.ReadText(strings.NewReader(text), int64(len(text)), "x.csv").Rows(0, func(*sheets.Row) error { return nil })
	return err
}

// Small text files that ask for much are refused, or read in bounded memory.
func TestTextAttacks(t *testing.T) {
	for name, a := range textAttacks() {
		t.Run(name, func(t *testing.T) {
			require.Less(t, len(a[0]), smallFile)
			var err error
			var work uint64
			peak := yardstick.PeakOf(func() { work = allocated(func() { err = readTextThrough(a[0]) }) })
			assert.Less(t, peak, float64(mostOfThem))
			assert.Less(t, work, uint64(mostWork))
			if a[1] == "" {
				require.NoError(t, err)
				return
			}
			requireFault(t, err, a[1])
		})
	}
}

// BenchmarkTextAttacks tells the memory and the time of each.
func BenchmarkTextAttacks(b *testing.B) {
	for name, a := range textAttacks() {
		b.Run(name, func(b *testing.B) {
			peak := 0.0
			var least cost
			for b.Loop() {
				least.least(costOf(func() { peak = max(peak, yardstick.PeakOf(func() { _ = readTextThrough(a[0]) })) }))
			}
			b.ReportMetric(peak/(1<<20), "peak-MiB")
			b.ReportMetric(least.cpu.Seconds(), "cpu-s")
		})
	}
}
