package sheets_test

import (
	"bytes"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"ferrule/compiler/tidy/share"
	"ferrule/sheets"
)

// outcome is everything that is read of a workbook.
type outcome struct {
	infos    []sheets.Info
	cells    []sheetCells
	trailers []*sheets.Trailer
}

func outcomeOf(data []byte) (outcome, error) {
	infos, cells, trailers, err := readAll(data)
	return outcome{infos, cells, trailers}, err
}

// undamaged is a workbook of two sheets as excelize writes it.
func undamaged(t *testing.T) []byte {
	t.Helper()
	f := excelize.NewFile()
	require.NoError(t, f.SetSheetName("Sheet1", "Fitment H7"))
	_, err := f.NewSheet("Parts")
	require.NoError(t, err)
	for row := 1; row <= 12; row++ {
		name, err := excelize.CoordinatesToCellName(1, row)
		require.NoError(t, err)
		require.NoError(t, f.SetSheetRow("Fitment H7", name, &[]any{"H7", 2000 + row, row%2 == 0, "AB-" + name}))
		require.NoError(t, f.SetSheetRow("Parts", name, &[]any{"AB-" + name, 0.5 * float64(row)}))
	}
	style, err := f.NewStyle(&excelize.Style{NumFmt: 14, Font: &excelize.Font{Strike: true}})
	require.NoError(t, err)
	require.NoError(t, f.SetCellStyle("Parts", "B1", "B9", style))
	require.NoError(t, f.MergeCell("Fitment H7", "C3", "D5"))
	buf, err := f.WriteToBuffer()
	require.NoError(t, err)
	return buf.Bytes()
}

// A byte changed anywhere never gives other or fewer cells: the same, or a fault.
func TestFlippedBytes(t *testing.T) {
	good := undamaged(t)
	want, err := outcomeOf(good)
	require.NoError(t, err)
	random := rand.New(rand.NewPCG(7, 2009))
	faults := 0
	// A quarter of the places is in the last 1,500 bytes, where the list of parts is.
	places := make([]int, share.Of(t, 10_000))
	for n := range places {
		places[n] = random.IntN(len(good))
		if n%4 == 0 {
			places[n] = len(good) - 1 - random.IntN(1500)
		}
	}
	for _, i := range places {
		data := bytes.Clone(good)
		data[i] ^= byte(1 + random.IntN(255))
		got, err := outcomeOf(data)
		if err != nil {
			requireFault(t, err, "")
			faults++
			continue
		}
		require.Equal(t, want, got, "byte %d of %d changed from %#x to %#x", i, len(good), good[i], data[i])
	}
	t.Logf("%d of %d damaged workbooks are refused, the others read the same", faults, len(places))
	assert.Greater(t, faults, len(places)/3)
}

// A workbook cut off anywhere is refused.
func TestTruncated(t *testing.T) {
	good := undamaged(t)
	for n := 0; n < len(good); n += 1 + len(good)/500 {
		_, err := outcomeOf(good[:n])
		requireFault(t, err, "")
	}
	for n := len(good) - 40; n < len(good); n++ {
		_, err := outcomeOf(good[:n])
		requireFault(t, err, "")
	}
}
