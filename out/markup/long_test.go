package markup

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"ferrule/sheets"
)

// counted is a table of so many rows.
func counted(name string, rows int) Long {
	return Long{Name: name, Columns: []LongColumn{{"Row", 8}, {"Text", 30}, {"Blank", 10}},
		Rows: func(yield func([]any) error) error {
			for i := range rows {
				if err := yield([]any{int64(i), fmt.Sprintf("=1+%d", i), nil}); err != nil {
					return err
				}
			}
			return nil
		}}
}

func TestLongTables(t *testing.T) {
	path := filepath.Join(t.TempDir(), "long.xlsx")
	require.NoError(t, CreateLong(path, []Long{counted("First", 3), counted("None", 0)}))
	assert.ErrorContains(t, CreateLong(path, []Long{counted("First", 1)}), "is there already")

	f, err := excelize.OpenFile(path)
	require.NoError(t, err)
	defer f.Close()
	assert.Equal(t, []string{"First", "None"}, f.GetSheetList())
	rows, err := f.GetRows("First")
	require.NoError(t, err)
	assert.Equal(t, [][]string{{"Row", "Text", "Blank"}, {"0", "=1+0"}, {"1", "=1+1"}, {"2", "=1+2"}}, rows)
	formula, err := f.GetCellFormula("First", "B2")
	require.NoError(t, err)
	assert.Empty(t, formula, "a text is never a formula")
	panes, err := f.GetPanes("First")
	require.NoError(t, err)
	assert.True(t, panes.Freeze)
	tables, err := f.GetTables("First")
	require.NoError(t, err)
	require.Len(t, tables, 1)
	assert.Equal(t, "A1:C4", tables[0].Range, "it has filters")
	width, err := f.GetColWidth("First", "B")
	require.NoError(t, err)
	assert.Equal(t, 30.0, width)

	book, err := sheets.Open(path)
	require.NoError(t, err, "our own reader takes it whole")
	n := 0
	_, err = book.Rows(0, func(*sheets.Row) error { n++; return nil })
	require.NoError(t, err)
	assert.Equal(t, 4, n)
	require.NoError(t, book.Close())
}

func TestLongTextsAreRefused(t *testing.T) {
	path := filepath.Join(t.TempDir(), "long.xlsx")
	err := CreateLong(path, []Long{{Name: "A", Columns: []LongColumn{{"Text", 10}}, Rows: func(yield func([]any) error) error {
		return yield([]any{strings.Repeat("x", excelize.TotalCellChars+1)})
	}}})
	assert.ErrorContains(t, err, "A: the text in row 2 has more than 32767 characters")
	assert.NoFileExists(t, path)
}

func TestLongTablesGoOnInFurtherSheets(t *testing.T) {
	path := filepath.Join(t.TempDir(), "long.xlsx")
	require.NoError(t, createLong(path, []Long{counted("First", 7), counted("Second", 3)}, 4))
	f, err := excelize.OpenFile(path)
	require.NoError(t, err)
	defer f.Close()
	assert.Equal(t, []string{"First", "First 2", "First 3", "Second"}, f.GetSheetList())
	for name, want := range map[string][]string{"First": {"0", "1", "2"}, "First 2": {"3", "4", "5"}, "First 3": {"6"}, "Second": {"0", "1", "2"}} {
		rows, err := f.GetRows(name)
		require.NoError(t, err)
		assert.Equal(t, []string{"Row", "Text", "Blank"}, rows[0], name)
		var got []string
		for _, r := range rows[1:] {
			got = append(got, r[0])
		}
		assert.Equal(t, want, got, name)
	}
}
