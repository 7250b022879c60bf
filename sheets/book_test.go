package sheets_test

import (
	"bytes"
	"errors"
	"fmt"
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// sheetCells are the cells of one sheet by their place in it.
type sheetCells map[cell.Pos]sheets.Value

// readAll reads every sheet of a workbook in memory. Values come without Shared, which
// is checked here.
func readAll(data []byte) (infos []sheets.Info, cells []sheetCells, trailers []*sheets.Trailer, err error) {
	b, err := sheets.Read(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, nil, nil, err
	}
	infos = b.Sheets()
	shared := make([]*string, b.SharedTexts()+1)
	for i := range infos {
		all := sheetCells{}
		t, err := b.Rows(i, func(r *sheets.Row) error {
			for _, c := range r.Cells {
				if err := checkShared(shared, c.Value); err != nil {
					return err
				}
				c.Shared = 0
				all[cell.Pos{Row: r.Number, Col: c.Col}] = c.Value
			}
			return nil
		})
		if err != nil {
			return nil, nil, nil, err
		}
		cells, trailers = append(cells, all), append(trailers, t)
	}
	return infos, cells, trailers, nil
}

// checkShared checks that all cells of one shared text have the same text.
func checkShared(known []*string, v sheets.Value) error {
	switch {
	case v.Shared == 0:
		return nil
	case v.Kind != sheets.Text || int(v.Shared) >= len(known):
		return fmt.Errorf("%+v cannot share a text", v)
	case known[v.Shared] == nil:
		known[v.Shared] = &v.Text
	case *known[v.Shared] != v.Text:
		return fmt.Errorf("%+v should be %q", v, *known[v.Shared])
	}
	return nil
}

// at reads A1 notation in tests.
func at(t testing.TB, a1 string) cell.Pos {
	t.Helper()
	p, ok := cell.Parse(a1)
	require.True(t, ok, a1)
	return p
}

func TestOpenOrdinary(t *testing.T) {
	f := excelize.NewFile()
	require.NoError(t, f.SetSheetName("Sheet1", "Fitment H7"))
	require.NoError(t, f.SetSheetRow("Fitment H7", "B2", &[]any{"Platform", 12.5, true, "AB-100 or AB-200"}))
	require.NoError(t, f.SetCellFormula("Fitment H7", "C4", "SUM(A1:A2)"))
	name := filepath.Join(t.TempDir(), "fitment.xlsx")
	require.NoError(t, f.SaveAs(name))

	b, err := sheets.Open(name)
	require.NoError(t, err)
	assert.Equal(t, []sheets.Info{{Name: "Fitment H7"}}, b.Sheets())
	var rows []sheets.Row
	for range 2 { // a sheet can be read again
		rows = nil
		_, err = b.Rows(0, func(r *sheets.Row) error {
			rows = append(rows, sheets.Row{Number: r.Number, Cells: append([]sheets.Cell(nil), r.Cells...)})
			return nil
		})
		require.NoError(t, err)
	}
	assert.Equal(t, []sheets.Row{
		{Number: 2, Cells: []sheets.Cell{
			{Col: 2, Value: sheets.Value{Kind: sheets.Text, Text: "Platform", Shared: 1}},
			{Col: 3, Value: sheets.Value{Kind: sheets.Number, Number: 12.5, Text: "12.5"}},
			{Col: 4, Value: sheets.Value{Kind: sheets.Bool, Number: 1, Text: "TRUE"}},
			{Col: 5, Value: sheets.Value{Kind: sheets.Text, Text: "AB-100 or AB-200", Shared: 2}},
		}},
		{Number: 4, Cells: []sheets.Cell{{Col: 3, Value: sheets.Value{Formula: "SUM(A1:A2)"}}}},
	}, rows)
	require.NoError(t, b.Close())
}

func TestYieldError(t *testing.T) {
	f := excelize.NewFile()
	require.NoError(t, f.SetSheetCol("Sheet1", "A1", &[]any{1, 2, 3}))
	data, err := f.WriteToBuffer()
	require.NoError(t, err)
	b, err := sheets.Read(bytes.NewReader(data.Bytes()), int64(data.Len()))
	require.NoError(t, err)
	enough := errors.New("enough")
	n := 0
	_, err = b.Rows(0, func(*sheets.Row) error {
		if n++; n == 2 {
			return enough
		}
		return nil
	})
	assert.True(t, err == enough, "the error of yield is passed on as it is: %v", err)
	assert.Equal(t, 2, n)
}

// A Book's sheets can be read at the same time.
func TestRowsAtOnce(t *testing.T) {
	data := undamaged(t)
	b, err := sheets.Read(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	counts := make([]int, 8)
	var all sync.WaitGroup
	for i := range counts {
		all.Go(func() {
			_, err := b.Rows(i%2, func(r *sheets.Row) error {
				counts[i] += len(r.Cells)
				return nil
			})
			assert.NoError(t, err)
		})
	}
	all.Wait()
	assert.Equal(t, []int{43, 24, 43, 24, 43, 24, 43, 24}, counts)
}

// What is missing and not needed is no reason to refuse a workbook; what a cell needs is.
func TestSharedTextsMissing(t *testing.T) {
	book := rows(`<row r="1"><c r="A1"><v>5</v></c><c r="B1" t="s"/></row>`).with(parts{stringsPart: ""})
	cells, _ := book.one(t)
	assert.Len(t, cells, 1)
	_, _, _, err := readAll(ordinary().with(parts{stringsPart: ""}).zip(t))
	requireFault(t, err, `its part "`+stringsPart+`" is missing; copy or download it again`)
}

// Old programs list module sheets, which have no cells and lead nowhere.
func TestModuleSheets(t *testing.T) {
	book := ordinary().with(parts{workbookPart: workbookXML(`<sheets><sheet name="Fitment" sheetId="1" r:id="rId1" state="show"/>` +
		`<sheet name="Module1" sheetId="2" state="veryHidden" r:id=""/></sheets>`)})
	infos, cells, _, err := readAll(book.zip(t))
	require.NoError(t, err)
	assert.Equal(t, []sheets.Info{{Name: "Fitment"}}, infos)
	assert.Len(t, cells[0], 1)
	_, _, _, err = readAll(ordinary().with(parts{workbookPart: workbookXML(`<sheets><sheet name="Fitment" sheetId="1"/></sheets>`)}).zip(t))
	requireFault(t, err, `nothing says where the cells of sheet "Fitment" are`)
}
