package sheets_test

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"ferrule/sheets"
)

// fitment makes a workbook of n rows of a dozen cells, as fitment sheets have them.
func fitment(b *testing.B, n int) []byte {
	var s strings.Builder
	for row := 1; row <= n; row++ {
		fmt.Fprintf(&s, `<row r="%d">`, row)
		for col := range 12 {
			a1 := fmt.Sprintf("%c%d", 'A'+col, row)
			switch {
			case col%6 == 5:
				fmt.Fprintf(&s, `<c r="%s"><v>%d</v></c>`, a1, row*col)
			default:
				fmt.Fprintf(&s, `<c r="%s" s="3" t="s"><v>%d</v></c>`, a1, (row+col)%2)
			}
		}
		s.WriteString(`</row>`)
	}
	return rows(s.String()).zip(b)
}

// BenchmarkRows reads rows; BenchmarkRowsExcelize and BenchmarkRowsInflated are its
// references: the streaming reader that most programs use, and only inflating the bytes.
func BenchmarkRows(b *testing.B) {
	data := fitment(b, 5000)
	b.ReportAllocs()
	for b.Loop() {
		book, err := sheets.Read(bytes.NewReader(data), int64(len(data)))
		require.NoError(b, err)
		n := 0
		_, err = book.Rows(0, func(r *sheets.Row) error { n += len(r.Cells); return nil })
		require.NoError(b, err)
		require.Equal(b, 60_000, n)
	}
}

func BenchmarkRowsExcelize(b *testing.B) {
	data := fitment(b, 5000)
	b.ReportAllocs()
	for b.Loop() {
		f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{RawCellValue: true})
		require.NoError(b, err)
		it, err := f.Rows("Fitment")
		require.NoError(b, err)
		n := 0
		for it.Next() {
			cols, err := it.Columns()
			require.NoError(b, err)
			n += len(cols)
		}
		require.NoError(b, it.Close())
		require.NoError(b, f.Close())
		require.Equal(b, 60_000, n)
	}
}

func BenchmarkRowsInflated(b *testing.B) {
	data := fitment(b, 5000)
	for b.Loop() {
		z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
		require.NoError(b, err)
		r, err := z.Open(sheetPart)
		require.NoError(b, err)
		n, err := io.Copy(io.Discard, r)
		require.NoError(b, err)
		b.SetBytes(n)
	}
}
