package sheets_test

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/sheets"
)

// separatedLarge is a text file of n rows of 14 cells, one of them in quotation marks and one
// blank, as fitment sheets have them.
func separatedLarge(n int) []byte {
	var out bytes.Buffer
	random := uint32(1)
	for range n {
		for col := range 14 {
			random = random*1664525 + 1013904223
			switch {
			case col == 1 || col == 2:
				fmt.Fprintf(&out, "%d,", 1990+random>>16%30)
			case col == 6:
				fmt.Fprintf(&out, "\"AB-%05d or AB-%05d, front\",", random>>10%20_000, random>>8%20_000)
			case col == 12:
				out.WriteByte(',')
			case col == 13:
				fmt.Fprintf(&out, "%d\r\n", random>>16%1000)
			default:
				fmt.Fprintf(&out, "Value %d,", random>>16%60)
			}
		}
	}
	return out.Bytes()
}

// BenchmarkSeparatedLarge reads 200,000 rows of 14 cells twice, as every text file is: to find the
// sign, and for its rows. x-csv says how many times longer the standard library's reader takes for
// its one time, both by processor time.
func BenchmarkSeparatedLarge(b *testing.B) {
	data := separatedLarge(200_000)
	b.SetBytes(int64(len(data)))
	var own, standard cost
	for b.Loop() {
		own.least(costOf(func() { require.NoError(b, readTextThrough(string(data))) }))
		standard.least(costOf(func() { readStandard(b, data) }))
	}
	b.ReportMetric(own.cpu.Seconds(), "cpu-s")
	b.ReportMetric(standard.cpu.Seconds()/own.cpu.Seconds(), "x-csv")
}

func readStandard(b *testing.B, data []byte) {
	r := csv.NewReader(bytes.NewReader(data))
	r.ReuseRecord = true
	for n := 0; ; n++ {
		_, err := r.Read()
		if errors.Is(err, io.EOF) {
			require.Equal(b, 200_000, n)
			return
		}
		require.NoError(b, err)
	}
}

// What the standard library's reader reads of the same file is the same.
func TestSeparatedAsStandard(t *testing.T) {
	data := separatedLarge(3_000)
	want, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	require.NoError(t, err)
	n := 0
	_, err = sheets.ReadText(strings.NewReader(string(data)), int64(len(data)), "x.csv").Rows(0, func(r *sheets.Row) error {
		got := make([]string, r.Width)
		for _, c := range r.Cells {
			got[c.Col-1] = c.Text
		}
		require.Equal(t, want[n], got)
		n++
		return nil
	})
	require.NoError(t, err)
	require.Equal(t, len(want), n)
}
