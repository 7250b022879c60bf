package sheets_test

import (
	"bytes"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// A workbook with many sheets that have notes is made of many small parts, and is none that asks for much.
func TestManySheetsWithNotes(t *testing.T) {
	const many = 120
	f := excelize.NewFile()
	defer f.Close() //nolint:errcheck // it is in memory
	for i := range many {
		name := fmt.Sprintf("Fitment %d", i)
		_, err := f.NewSheet(name)
		require.NoError(t, err)
		require.NoError(t, f.SetCellStr(name, "A1", "Platform"))
		require.NoError(t, f.AddComment(name, excelize.Comment{Cell: "A1", Author: "keeper", Text: "one of them"}))
	}
	var b bytes.Buffer
	require.NoError(t, f.Write(&b))
	book, err := sheets.Read(bytes.NewReader(b.Bytes()), int64(b.Len()))
	require.NoError(t, err)
	require.Len(t, book.Sheets(), many+1)
	for i := 1; i <= many; i++ {
		_, err := book.Rows(i, func(*sheets.Row) error { return nil })
		require.NoError(t, err)
		at, _, err := book.Commented(i, nil)
		require.NoError(t, err)
		assert.Equal(t, []cell.Pos{{Row: 1, Col: 1}}, at)
	}
}
