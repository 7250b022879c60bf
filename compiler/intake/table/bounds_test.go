package table

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// wide is a sheet of so many columns, each with a value in the row below its heading that is
// merged down to a row, and with so many rows of one cell below.
func wide(columns, rows int, until int32) (all []sheets.Row, merges []cell.Range) {
	text := func(col int, s string) sheets.Cell {
		return sheets.Cell{Col: int32(col), Value: sheets.Value{Kind: sheets.Text, Text: s}}
	}
	head, first := sheets.Row{Number: 1}, sheets.Row{Number: 2}
	head.Cells = append(head.Cells, text(1, "Platform"), text(2, "Years"))
	first.Cells = append(first.Cells, text(1, "H7"), text(2, "2001"))
	for col := 3; col <= columns; col++ {
		head.Cells = append(head.Cells, text(col, fmt.Sprintf("Place %d", col)))
		first.Cells = append(first.Cells, text(col, "AB-1"))
		merges = append(merges, cell.Range{From: cell.Pos{Row: 2, Col: int32(col)}, To: cell.Pos{Row: until, Col: int32(col)}})
	}
	all = append(all, head, first)
	for row := 3; row < 3+rows; row++ {
		all = append(all, sheets.Row{Number: int32(row), Cells: []sheets.Cell{text(1, "H7")}})
	}
	return all, merges
}

// A few merged ranges do not stand for more cells than a catalogue can hold: the sheet is
// refused.
func TestMergesOverAll(t *testing.T) {
	for _, c := range []struct {
		rows  int
		until int32
	}{{0, 9_000}, {9_000, 1_048_576}} {
		all, merges := wide(3_000, c.rows, c.until)
		n := 0
		r := newReader(&cell.Sheet{File: "c.xlsx", Name: "Kits"}, Layout{Kind: "kits", Required: []string{"Platform"}}, merges,
			func(*Table) func(*Record) { return func(rec *Record) { n += len(rec.Fields) } }, func(*Fault) {})
		for i := range all {
			r.row(&all[i])
		}
		r.end(sheets.Info{}, &sheets.Trailer{Merges: merges})
		assert.Less(t, n, 1_300_000)
		assert.EqualError(t, r.whole(), fmt.Sprintf(
			`sheet "Kits", cell C2: the merged cells C2:C%d and others like them stand for more than 1048576 cells; unmerge them, or end them where the table ends`, c.until))
	}
}

// Merged cells that careful people keep are read to their end.
func TestMergesOfATable(t *testing.T) {
	all, merges := wide(7, 200_000, 200_002)
	got, faults := read(all, merges)
	for _, f := range faults {
		assert.NotEqual(t, Covered, f.What, f.Message)
	}
	require.Len(t, got.Records, 200_001)
	assert.Len(t, got.Records[200_000].Fields, 6)
}
