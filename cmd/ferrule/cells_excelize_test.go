package main

import (
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// TestCellsLikeExcelize compares what is printed of the samples with what excelize, an
// independent reader, makes of the same workbooks.
func TestCellsLikeExcelize(t *testing.T) {
	var books []string
	for _, folder := range []string{"demo", "faulty"} {
		some, err := filepath.Glob("../../testdata/" + folder + "/*.xlsx")
		require.NoError(t, err)
		require.NotEmpty(t, some)
		books = append(books, some...)
	}
	kinds := map[string]bool{}
	for _, name := range books {
		status, stdout, stderr := cells(name)
		require.Zero(t, status, stderr)
		assert.Empty(t, stderr)
		want := otherCells(t, name)
		assert.Equal(t, want, strings.Split(strings.TrimSuffix(stdout, "\n"), "\n"), name)
		for _, l := range want {
			kinds[strings.Split(l, "\t")[2]] = true
		}
	}
	for _, kind := range []string{"text", "number", "date", "error", "blank"} {
		assert.True(t, kinds[kind], "the samples have no cell that is %s", kind)
	}
}

// otherCells gives the lines by excelize.
func otherCells(t *testing.T, name string) (lines []string) {
	f, err := excelize.OpenFile(name, excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	defer f.Close()
	for _, sheet := range f.GetSheetList() {
		stored, err := f.GetRows(sheet)
		require.NoError(t, err)
		// Rows of formulas without values are not counted at the end; the samples have
		// one at most, and no sheet as wide. What is printed of cells beyond has no like.
		const cols, more = 40, 2
		for row := 1; row <= len(stored)+more; row++ {
			for col := 1; col <= cols; col++ {
				a1, err := excelize.CoordinatesToCellName(col, row)
				require.NoError(t, err)
				if line, filled := otherLine(t, f, sheet, a1); filled {
					lines = append(lines, line)
				}
			}
		}
	}
	return lines
}

func otherLine(t *testing.T, f *excelize.File, sheet, a1 string) (line string, filled bool) {
	value, err := f.GetCellValue(sheet, a1)
	require.NoError(t, err)
	formula, err := f.GetCellFormula(sheet, a1)
	require.NoError(t, err)
	if under(t, f, sheet, a1) || value == "" && formula == "" {
		return "", false
	}
	kind, value := otherValue(t, f, sheet, a1, value)
	escape := strings.NewReplacer("\\", `\\`, "\t", `\t`, "\n", `\n`, "\r", `\r`).Replace
	return strings.Join([]string{escape(sheet), a1, kind, escape(value), escape(formula)}, "\t"), true
}

// under tells whether a cell lies under a merged range, for which excelize gives the
// value of the range's first cell. The samples store nothing there.
func under(t *testing.T, f *excelize.File, sheet, a1 string) bool {
	merges, err := f.GetMergeCells(sheet)
	require.NoError(t, err)
	col, row, err := excelize.CellNameToCoordinates(a1)
	require.NoError(t, err)
	for _, m := range merges {
		left, top, err := excelize.CellNameToCoordinates(m.GetStartAxis())
		require.NoError(t, err)
		right, bottom, err := excelize.CellNameToCoordinates(m.GetEndAxis())
		require.NoError(t, err)
		if col >= left && col <= right && row >= top && row <= bottom && a1 != m.GetStartAxis() {
			return true
		}
	}
	return false
}

func otherValue(t *testing.T, f *excelize.File, sheet, a1, raw string) (kind, value string) {
	is, err := f.GetCellType(sheet, a1)
	require.NoError(t, err)
	if raw == "" {
		return "blank", ""
	}
	switch is {
	case excelize.CellTypeSharedString, excelize.CellTypeInlineString, excelize.CellTypeFormula:
		return "text", raw
	case excelize.CellTypeBool:
		return "bool", map[string]string{"0": "FALSE", "1": "TRUE"}[raw]
	case excelize.CellTypeError:
		return "error", raw
	}
	number, err := strconv.ParseFloat(raw, 64)
	require.NoError(t, err, "%s!%s", sheet, a1)
	if dated(t, f, sheet, a1) {
		at, err := excelize.ExcelDateToTime(number, false)
		require.NoError(t, err)
		return "date", at.Format("2006-01-02")
	}
	return "number", strconv.FormatFloat(number, 'f', -1, 64)
}

// dated knows the date formats of the samples: what has a day, month or year.
func dated(t *testing.T, f *excelize.File, sheet, a1 string) bool {
	id, err := f.GetCellStyle(sheet, a1)
	require.NoError(t, err)
	style, err := f.GetStyle(id)
	require.NoError(t, err)
	if style.CustomNumFmt != nil {
		return strings.ContainsAny(*style.CustomNumFmt, "dmy")
	}
	return style.NumFmt >= 14 && style.NumFmt <= 22 // ECMA-376 Part 1, 18.8.30
}
