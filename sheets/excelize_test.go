package sheets_test

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"

	"ferrule/sheets"
	"ferrule/sheets/cell"
)

const (
	maxRows = 12
	maxCols = 8
)

// words are texts as people write them, besides what rapid thinks of. Characters that
// XML cannot hold are left out: excelize replaces them when it writes.
func words() *rapid.Generator[string] {
	odd := rapid.SampledFrom([]string{" x ", "a\nb", "\t", "1/2\"", "_x000D_", "_x005F_x0041_", "_x005F_", "<&>'\"", "Größe", "課題", "😀", "007", "1e5", "=A1", "TRUE", " "})
	any := rapid.StringOfN(rapid.RuneFrom(nil, unicode.L, unicode.N, unicode.P, unicode.Zs, unicode.So), 0, 12, -1)
	return rapid.OneOf(odd, any)
}

// writing is a workbook that is being made by excelize.
type writing struct {
	*rapid.T
	f      *excelize.File
	styles []int
}

func (w *writing) ok(err error) {
	w.Helper()
	require.NoError(w, err)
}

// addStyles makes the styles that cells are given: numbers, dates, times, struck.
func (w *writing) addStyles() {
	code, elapsed, quoted := `yyyy\-mm\-dd;@`, "[h]:mm", `0.0" days"`
	for _, s := range []excelize.Style{
		{}, {NumFmt: 2}, {NumFmt: 12}, {NumFmt: 14}, {NumFmt: 16}, {NumFmt: 21}, {NumFmt: 22}, {NumFmt: 46}, {NumFmt: 49},
		{CustomNumFmt: &code}, {CustomNumFmt: &elapsed}, {CustomNumFmt: &quoted},
		{Font: &excelize.Font{Strike: true}}, {Font: &excelize.Font{Strike: true}, NumFmt: 14},
	} {
		id, err := w.f.NewStyle(&s)
		w.ok(err)
		w.styles = append(w.styles, id)
	}
}

// fill puts something in a cell.
func (w *writing) fill(sheet, a1 string) {
	switch rapid.IntRange(0, 9).Draw(w.T, "what") {
	case 0, 1:
		w.ok(w.f.SetCellStr(sheet, a1, words().Draw(w.T, "text")))
	case 2:
		w.ok(w.f.SetCellInt(sheet, a1, rapid.Int64().Draw(w.T, "int")))
	case 3:
		w.ok(w.f.SetCellFloat(sheet, a1, rapid.Float64Range(-1e9, 1e9).Draw(w.T, "float"), -1, 64))
	case 4:
		w.ok(w.f.SetCellBool(sheet, a1, rapid.Bool().Draw(w.T, "bool")))
	case 5:
		at := time.Unix(rapid.Int64Range(-2_000_000_000, 4_000_000_000).Draw(w.T, "time"), 0).UTC()
		w.ok(w.f.SetCellValue(sheet, a1, at))
	case 6:
		w.ok(w.f.SetCellRichText(sheet, a1, []excelize.RichTextRun{
			{Text: words().Draw(w.T, "first run")},
			{Text: words().Draw(w.T, "second run"), Font: &excelize.Font{Bold: true, Strike: rapid.Bool().Draw(w.T, "strike")}},
		}))
	case 7:
		w.ok(w.f.SetCellFormula(sheet, a1, rapid.SampledFrom([]string{"SUM(A1:B2)", `A1&" x"`, "IF(A1<2,1,0)"}).Draw(w.T, "formula")))
	case 8:
		w.ok(w.f.SetCellFloat(sheet, a1, rapid.Float64Range(0, 60_000).Draw(w.T, "serial"), -1, 64))
	case 9:
		w.ok(w.f.SetCellFormula(sheet, a1, "A1"))
		w.ok(w.f.SetCellStr(sheet, a1, words().Draw(w.T, "stored")))
	}
	if rapid.Bool().Draw(w.T, "styled") {
		w.ok(w.f.SetCellStyle(sheet, a1, a1, rapid.SampledFrom(w.styles).Draw(w.T, "style")))
	}
}

func (w *writing) sheet(name string) {
	for range rapid.IntRange(0, 25).Draw(w.T, "cells") {
		w.fill(name, w.place())
	}
	if rapid.Bool().Draw(w.T, "merge") {
		w.ok(w.f.MergeCell(name, "B2", "C3"))
	}
	for _, row := range rapid.SliceOfN(rapid.IntRange(1, maxRows), 0, 3).Draw(w.T, "hidden rows") {
		w.ok(w.f.SetRowVisible(name, row, false))
	}
	if rapid.Bool().Draw(w.T, "hide columns") {
		w.ok(w.f.SetColVisible(name, "C:D", false))
	}
	if rapid.Bool().Draw(w.T, "link") {
		w.ok(w.f.SetCellHyperLink(name, "A1", "https://example.com", "External"))
	}
}

func (w *writing) place() string {
	col, row := rapid.IntRange(1, maxCols).Draw(w.T, "col"), rapid.IntRange(1, maxRows).Draw(w.T, "row")
	a1, err := excelize.CoordinatesToCellName(col, row)
	w.ok(err)
	return a1
}

// streamed writes a sheet with excelize's stream writer, which stores inline strings.
func (w *writing) streamed(name string) {
	s, err := w.f.NewStreamWriter(name)
	w.ok(err)
	for row := 1; row <= maxRows; row++ {
		if rapid.Bool().Draw(w.T, "no row") {
			continue
		}
		values := []any{words().Draw(w.T, "text"), rapid.Int32().Draw(w.T, "int"), nil, rapid.Bool().Draw(w.T, "bool"),
			excelize.Cell{StyleID: w.styles[3], Value: 45293}, excelize.Cell{Formula: "A1", Value: 5},
			[]excelize.RichTextRun{{Text: "air "}, {Text: words().Draw(w.T, "run")}}}
		w.ok(s.SetRow("A"+strconv.Itoa(row), values, excelize.RowOpts{Hidden: rapid.Bool().Draw(w.T, "hidden")}))
	}
	w.ok(s.Flush())
}

// write makes a workbook; it gives the bytes.
func write(t *rapid.T) []byte {
	w := &writing{T: t, f: excelize.NewFile()}
	defer w.f.Close()
	w.addStyles()
	late := rapid.Bool().Draw(t, "1904")
	w.ok(w.f.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &late}))
	w.sheet("Sheet1")
	for _, name := range []string{"Fitment H7", "Größe"} {
		_, err := w.f.NewSheet(name)
		w.ok(err)
	}
	w.sheet("Größe")
	w.streamed("Fitment H7")
	if rapid.Bool().Draw(t, "hide a sheet") {
		w.ok(w.f.SetSheetVisible("Größe", false, rapid.Bool().Draw(t, "very")))
	}
	buf, err := w.f.WriteToBuffer()
	w.ok(err)
	return buf.Bytes()
}

// Workbooks of all kinds of cells that excelize writes are read as excelize reads them.
func TestLikeExcelize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		data := write(t)
		infos, cells, trailers, err := readAll(data)
		require.NoError(t, err)
		f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{RawCellValue: true})
		require.NoError(t, err)
		defer f.Close()
		require.Len(t, infos, len(f.GetSheetList()))
		for i, name := range f.GetSheetList() {
			require.Equal(t, name, infos[i].Name)
			visible, err := f.GetSheetVisible(name)
			require.NoError(t, err)
			require.Equal(t, visible, infos[i].Visibility == sheets.Visible)
			compareSheet(t, f, name, cells[i])
			compareTrailer(t, f, name, trailers[i], cells[i])
		}
	})
}

// compareSheet compares all cells. Asked about one cell under a merged range, excelize
// answers for the range's first; what is stored there it tells only by rows.
func compareSheet(t *rapid.T, f *excelize.File, name string, got sheetCells) {
	merges, err := f.GetMergeCells(name)
	require.NoError(t, err)
	stored, err := f.GetRows(name)
	require.NoError(t, err)
	seen := 0
	for row := int32(1); row <= maxRows; row++ {
		for col := int32(1); col <= maxCols; col++ {
			pos := cell.Pos{Row: row, Col: col}
			v, ok := got[pos]
			if ok {
				seen++
			}
			if len(merges) > 0 && row >= 2 && row <= 3 && col >= 2 && col <= 3 && pos != (cell.Pos{Row: 2, Col: 2}) {
				require.Equal(t, storedAt(stored, pos), storedText(v), "%s!%s", name, pos)
				continue
			}
			raw, err := f.GetCellValue(name, pos.String())
			require.NoError(t, err)
			formula, err := f.GetCellFormula(name, pos.String())
			require.NoError(t, err)
			where := fmt.Sprintf("%s!%s: %q, =%s", name, pos, raw, formula)
			require.Equal(t, raw != "" || formula != "", ok, where)
			if ok {
				require.Equal(t, formula, v.Formula, where)
				compareValue(t, f, name, pos.String(), raw, v)
			}
		}
	}
	require.Equal(t, len(got), seen, "cells where none were written")
}

func storedAt(rows [][]string, pos cell.Pos) string {
	if int(pos.Row) > len(rows) || int(pos.Col) > len(rows[pos.Row-1]) {
		return ""
	}
	return rows[pos.Row-1][pos.Col-1]
}

// storedText is how excelize tells a value as it is stored.
func storedText(v sheets.Value) string {
	switch v.Kind {
	case sheets.Number, sheets.Date:
		return strconv.FormatFloat(v.Number, 'f', -1, 64)
	case sheets.Bool:
		return strconv.Itoa(int(v.Number))
	}
	return v.Text
}

func compareValue(t *rapid.T, f *excelize.File, name, a1, raw string, v sheets.Value) {
	where := name + "!" + a1
	style := styleOf(t, f, name, a1)
	kind, err := f.GetCellType(name, a1)
	require.NoError(t, err)
	switch kind {
	case excelize.CellTypeSharedString, excelize.CellTypeInlineString, excelize.CellTypeFormula:
		if v.Kind != sheets.Blank {
			require.Equal(t, sheets.Text, v.Kind, where)
		}
		require.Equal(t, raw, v.Text, where)
		require.Equal(t, "", v.Format, where)
		if runs, err := f.GetCellRichText(name, a1); err == nil && len(runs) == 0 {
			require.Equal(t, style.Font != nil && style.Font.Strike, v.Struck, where)
		}
	case excelize.CellTypeBool:
		require.Equal(t, sheets.Bool, v.Kind, where)
		require.Equal(t, map[string]string{"1": "TRUE", "0": "FALSE"}[raw], v.Text, where)
	default:
		compareNumber(t, f, where, raw, style, v)
	}
}

// compareNumber also takes formulas without a stored value, which have no type.
func compareNumber(t *rapid.T, f *excelize.File, where, raw string, style *excelize.Style, v sheets.Value) {
	if raw == "" {
		require.Equal(t, sheets.Blank, v.Kind, where)
		return
	}
	want, err := strconv.ParseFloat(raw, 64)
	require.NoError(t, err, where)
	require.Equal(t, want, v.Number, where)
	require.Equal(t, style.Font != nil && style.Font.Strike, v.Struck, where)
	code := map[int]string{0: "", 2: "0.00", 12: "# ?/?", 14: "mm-dd-yy", 16: "d-mmm", 17: "mmm-yy", 21: "h:mm:ss", 22: "m/d/yy h:mm", 46: "[h]:mm:ss", 49: "@"}[style.NumFmt]
	if style.CustomNumFmt != nil {
		code = *style.CustomNumFmt
	}
	require.Equal(t, code, v.Format, where)
	plain := code == "" || strings.ContainsAny(code, "0#") || code == "@"
	if plain || want < 0 || want >= 2_957_004 {
		require.Equal(t, sheets.Number, v.Kind, where)
		again, err := strconv.ParseFloat(v.Text, 64)
		require.NoError(t, err)
		require.Equal(t, want, again, where)
		return
	}
	require.Equal(t, sheets.Date, v.Kind, where)
	props, err := f.GetWorkbookProps()
	require.NoError(t, err)
	compareDate(t, where, want, props.Date1904 != nil && *props.Date1904, v.Text)
}

// compareDate leaves out what excelize does otherwise: days before March 1900, and elapsed time,
// which it shows as a day.
func compareDate(t *rapid.T, where string, serial float64, late bool, text string) {
	if serial < 61 || !strings.Contains(text, "-") {
		return
	}
	want, err := excelize.ExcelDateToTime(serial, late)
	require.NoError(t, err)
	if len(text) == len(time.DateOnly) {
		text += "T00:00:00"
	}
	got, err := time.Parse("2006-01-02T15:04:05", text)
	require.NoError(t, err, where)
	require.WithinDuration(t, want, got, time.Second, where)
}

func styleOf(t *rapid.T, f *excelize.File, name, a1 string) *excelize.Style {
	id, err := f.GetCellStyle(name, a1)
	require.NoError(t, err)
	style, err := f.GetStyle(id)
	require.NoError(t, err)
	return style
}

func compareTrailer(t *rapid.T, f *excelize.File, name string, got *sheets.Trailer, cells sheetCells) {
	merges, err := f.GetMergeCells(name)
	require.NoError(t, err)
	require.Len(t, got.Merges, len(merges))
	for i, m := range merges {
		require.Equal(t, m.GetStartAxis()+":"+m.GetEndAxis(), got.Merges[i].String())
	}
	hidden := 0
	for row := 1; row <= maxRows; row++ {
		visible, err := f.GetRowVisible(name, row)
		require.NoError(t, err)
		if !visible && holdsRow(cells, int32(row)) {
			hidden++
		}
	}
	require.Equal(t, hidden, got.HiddenRows)
	visible, err := f.GetColVisible(name, "D")
	require.NoError(t, err)
	if visible {
		require.Empty(t, got.HiddenCols)
	} else {
		require.Equal(t, "C1:D1048576", got.HiddenCols[0].String())
	}
	linked, _, err := f.GetCellHyperLink(name, "A1")
	require.NoError(t, err)
	require.Equal(t, linked, got.LinkedCells == 1)
}

func holdsRow(cells sheetCells, row int32) bool {
	for pos := range cells {
		if pos.Row == row {
			return true
		}
	}
	return false
}
