package sheets_test

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/klauspost/compress/flate"
	"github.com/klauspost/compress/zip"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"ferrule/compiler/tidy/yardstick"
	"ferrule/sheets"
)

// large writes a workbook of n rows of 14 columns as spreadsheet programs write
// fitment sheets: most cells share one of 20,000 texts, some hold numbers, one is
// empty but styled.
func large(b *testing.B, n int) string {
	b.Helper()
	name := filepath.Join(b.TempDir(), "large.xlsx")
	file, err := os.Create(name)
	require.NoError(b, err)
	z := zip.NewWriter(file)
	z.RegisterCompressor(zip.Deflate, func(w io.Writer) (io.WriteCloser, error) { return flate.NewWriter(w, 6) })
	book := ordinary()
	delete(book, sheetPart)
	var texts strings.Builder
	for i := range 20_000 {
		fmt.Fprintf(&texts, `<si><t>AB-%05d front</t></si>`, i*7919%100_000)
	}
	book[stringsPart] = `<sst xmlns="` + mainSpace + `">` + texts.String() + `</sst>`
	for name, text := range book {
		w, err := z.Create(name)
		require.NoError(b, err)
		_, err = io.WriteString(w, text)
		require.NoError(b, err)
	}
	w, err := z.Create(sheetPart)
	require.NoError(b, err)
	out := bufio.NewWriterSize(w, 1<<20)
	_, err = out.WriteString(`<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\r\n" + `<worksheet xmlns="` + mainSpace +
		`" xmlns:x14ac="http://schemas.microsoft.com/office/spreadsheetml/2009/9/ac"><sheetData>`)
	require.NoError(b, err)
	var row []byte
	for i := 1; i <= n; i++ {
		row = appendRow(row[:0], i)
		_, err = out.Write(row)
		require.NoError(b, err)
	}
	_, err = out.WriteString(`</sheetData></worksheet>`)
	require.NoError(b, err)
	require.NoError(b, out.Flush())
	require.NoError(b, z.Close())
	require.NoError(b, file.Close())
	return name
}

func appendRow(to []byte, row int) []byte {
	number := strconv.Itoa(row)
	to = append(to, `<row r="`+number+`" spans="1:14" x14ac:dyDescent="0.25">`...)
	random := uint32(row) * 2654435761
	for col := range 14 {
		random = random*1664525 + 1013904223
		to = append(append(append(to, `<c r="`...), byte('A'+col)), number...)
		switch {
		case col == 13:
			to = append(to, `" s="4"/>`...)
		case col == 1 || col == 2:
			to = strconv.AppendInt(append(to, `"><v>`...), int64(1990+random>>16%30), 10)
			to = append(to, `</v></c>`...)
		case col == 12:
			to = strconv.AppendFloat(append(to, `" s="4"><v>`...), float64(random>>16%1000)/16, 'f', -1, 64)
			to = append(to, `</v></c>`...)
		case col == 6 || col == 7:
			to = strconv.AppendInt(append(to, `" t="s"><v>`...), int64(random>>10%20_000), 10)
			to = append(to, `</v></c>`...)
		default:
			to = strconv.AppendInt(append(to, `" s="3" t="s"><v>`...), int64(random>>16%60), 10)
			to = append(to, `</v></c>`...)
		}
	}
	return append(to, `</row>`...)
}

func readRows(b *testing.B, name string, workers int) (cells int) {
	book, err := sheets.Open(name)
	require.NoError(b, err)
	book.Workers = workers
	_, err = book.Rows(0, func(r *sheets.Row) error { cells += len(r.Cells); return nil })
	require.NoError(b, err)
	require.NoError(b, book.Close())
	return cells
}

// cost is processor and wall time.
type cost struct{ cpu, wall time.Duration }

func costOf(do func()) cost {
	before, start := yardstick.ProcessorTime(), time.Now()
	do()
	return cost{yardstick.ProcessorTime() - before, time.Since(start)}
}

// least keeps the lesser of each.
func (c *cost) least(other cost) {
	if c.wall == 0 || other.wall < c.wall {
		c.wall = other.wall
	}
	if c.cpu == 0 || other.cpu < c.cpu {
		c.cpu = other.cpu
	}
}

// BenchmarkLarge reads 200,000 rows of 14 cells on one and on two goroutines beside the
// reference F, in turn, and tells the least times of all turns as multiples of F.
func BenchmarkLarge(b *testing.B) {
	name := large(b, 200_000)
	var f, one, two cost
	for b.Loop() {
		f.least(costOf(func() { require.Equal(b, 14*200_000, yardstick.InflateAndScan(b, name, sheetPart, stringsPart)) }))
		one.least(costOf(func() { require.Equal(b, 13*200_000, readRows(b, name, 1)) }))
		two.least(costOf(func() { require.Equal(b, 13*200_000, readRows(b, name, 2)) }))
	}
	b.ReportMetric(f.wall.Seconds()*1000, "F-ms")
	for _, of := range []struct {
		name string
		cost
	}{{"one", one}, {"two", two}} {
		b.ReportMetric(float64(of.cpu)/float64(f.cpu), of.name+"-cpu/F")
		b.ReportMetric(float64(of.wall)/float64(f.wall), of.name+"-wall/F")
	}
}

// BenchmarkLargeExcelize is the streaming reader that most programs use on the same
// rows, beside ours.
func BenchmarkLargeExcelize(b *testing.B) {
	name := large(b, 50_000)
	var ours, theirs cost
	for b.Loop() {
		ours.least(costOf(func() { require.Equal(b, 13*50_000, readRows(b, name, 0)) }))
		theirs.least(costOf(func() { require.Equal(b, 13*50_000, readExcelize(b, name)) }))
	}
	b.ReportMetric(float64(theirs.cpu)/float64(ours.cpu), "excelize-cpu/ours")
	b.ReportMetric(float64(theirs.wall)/float64(ours.wall), "excelize-wall/ours")
}

func readExcelize(b *testing.B, name string) (cells int) {
	f, err := excelize.OpenFile(name, excelize.Options{RawCellValue: true})
	require.NoError(b, err)
	it, err := f.Rows("Fitment")
	require.NoError(b, err)
	for it.Next() {
		cols, err := it.Columns()
		require.NoError(b, err)
		cells += len(cols)
	}
	require.NoError(b, it.Close())
	require.NoError(b, f.Close())
	return cells
}

// BenchmarkMemory reads rows and forgets them: memory must not grow with their number.
func BenchmarkMemory(b *testing.B) {
	for _, n := range []int{200_000, 1_000_000} {
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			name := large(b, n)
			peak := 0.0
			for b.Loop() {
				peak = max(peak, yardstick.PeakOf(func() { require.Equal(b, 13*n, readRows(b, name, 2)) }))
			}
			b.ReportMetric(peak/(1<<20), "peak-MiB")
		})
	}
}

// BenchmarkShared reads 20,000 shared texts.
func BenchmarkShared(b *testing.B) {
	name := large(b, 1)
	data, err := os.ReadFile(name)
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		_, err := sheets.Read(bytes.NewReader(data), int64(len(data)))
		require.NoError(b, err)
	}
}
