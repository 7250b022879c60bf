package patch

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// feature is something that people put into workbooks and that this program knows nothing of.
type feature struct {
	name string
	add  func(f *excelize.File) error
}

const sheetA, sheetB = "Stock & plan", "Second"

// features of which each rich workbook has some.
var features = []feature{
	{"chart", func(f *excelize.File) error {
		return f.AddChart(sheetA, "H2", &excelize.Chart{Type: excelize.Col, Series: []excelize.ChartSeries{{Name: "'" + sheetA + "'!$A$1", Categories: "'" + sheetA + "'!$A$2:$A$9", Values: "'" + sheetA + "'!$B$2:$B$9"}}})
	}},
	{"chart sheet", func(f *excelize.File) error {
		return f.AddChartSheet("Drawn", &excelize.Chart{Type: excelize.Line, Series: []excelize.ChartSeries{{Values: "'" + sheetA + "'!$B$2:$B$9"}}})
	}},
	{"pivot", func(f *excelize.File) error {
		return f.AddPivotTable(&excelize.PivotTableOptions{DataRange: sheetA + "!A1:C20", PivotTableRange: sheetB + "!H20:M40",
			Rows: []excelize.PivotTableField{{Data: "Name"}}, Data: []excelize.PivotTableField{{Data: "Count", Subtotal: "Sum"}}})
	}},
	{"table and slicer", func(f *excelize.File) error {
		if err := f.AddTable(sheetB, &excelize.Table{Range: "A1:C20", Name: "Kept"}); err != nil {
			return err
		}
		return f.AddSlicer(sheetB, &excelize.SlicerOptions{Name: "Name", Cell: "E2", TableSheet: sheetB, TableName: "Kept"})
	}},
	{"notes", func(f *excelize.File) error {
		for _, at := range []string{"A2", "B3", "C7"} {
			if err := f.AddComment(sheetA, excelize.Comment{Cell: at, Author: "keeper", Paragraph: []excelize.RichTextRun{{Text: "bold ", Font: &excelize.Font{Bold: true}}, {Text: "& more"}}}); err != nil {
				return err
			}
		}
		return f.AddComment(sheetB, excelize.Comment{Cell: "B2", Author: "keeper", Text: "a plain note"})
	}},
	{"controls", func(f *excelize.File) error {
		return f.AddFormControl(sheetA, excelize.FormControl{Cell: "J4", Type: excelize.FormControlCheckBox, Text: "Checked", Checked: true})
	}},
	{"picture", func(f *excelize.File) error {
		var b bytes.Buffer
		if err := png.Encode(&b, image.NewRGBA(image.Rect(0, 0, 4, 4))); err != nil {
			return err
		}
		return f.AddPictureFromBytes(sheetB, "J2", &excelize.Picture{Extension: ".png", File: b.Bytes()})
	}},
	{"validation", func(f *excelize.File) error {
		v := excelize.NewDataValidation(true)
		v.Sqref = "A2:A40"
		if err := v.SetDropList([]string{"one", "two"}); err != nil {
			return err
		}
		return f.AddDataValidation(sheetA, v)
	}},
	{"conditional format", func(f *excelize.File) error {
		return f.SetConditionalFormat(sheetA, "B2:B20", []excelize.ConditionalFormatOptions{{Type: "data_bar", Criteria: "=", MinType: "min", MaxType: "max", BarColor: "#638EC6", BarBorderColor: "#0000FF", BarSolid: true}})
	}},
	{"protection", func(f *excelize.File) error {
		if err := f.ProtectWorkbook(&excelize.WorkbookProtectionOptions{LockStructure: true}); err != nil {
			return err
		}
		return f.ProtectSheet(sheetB, &excelize.SheetProtectionOptions{Password: "x", SelectLockedCells: true})
	}},
	{"names", func(f *excelize.File) error {
		return f.SetDefinedName(&excelize.DefinedName{Name: "Counts", RefersTo: "'" + sheetA + "'!$B$2:$B$9", Scope: sheetB})
	}},
	{"links", func(f *excelize.File) error {
		return f.SetCellHyperLink(sheetA, "A4", "https://example.org/a?b=1&c=2", "External")
	}},
	{"merges and hidden", func(f *excelize.File) error {
		if err := f.MergeCell(sheetB, "B10", "C12"); err != nil {
			return err
		}
		return f.SetRowVisible(sheetB, 5, false)
	}},
	{"formulas", func(f *excelize.File) error {
		if err := f.SetCellFormula(sheetA, "E2", "=SUM(B2:B9)"); err != nil {
			return err
		}
		return f.SetCellRichText(sheetA, "C3", []excelize.RichTextRun{{Text: "rich", Font: &excelize.Font{Bold: true}}, {Text: " text"}})
	}},
	{"styles", func(f *excelize.File) error {
		for i, at := range []string{"A1", "B2", "C4", "D5"} {
			n, err := f.NewStyle(&excelize.Style{Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{fmt.Sprintf("%02X88FF", 40*i)}}, Font: &excelize.Font{Strike: i == 2, Color: "FF0000"}, NumFmt: 14 + i})
			if err != nil {
				return err
			}
			if err := f.SetCellStyle(sheetA, at, at, n); err != nil {
				return err
			}
		}
		n, err := f.NewStyle(&excelize.Style{Font: &excelize.Font{Italic: true}})
		if err != nil {
			return err
		}
		return f.SetColStyle(sheetB, "D:F", n)
	}},
	{"sparkline", func(f *excelize.File) error {
		return f.AddSparkline(sheetA, &excelize.SparklineOptions{Location: []string{"G2"}, Range: []string{sheetB + "!B2:C2"}})
	}},
	{"panes", func(f *excelize.File) error {
		return f.SetPanes(sheetA, &excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"})
	}},
	{"filter", func(f *excelize.File) error { return f.AutoFilter(sheetA, "A1:C20", nil) }},
	{"header and breaks", func(f *excelize.File) error {
		if err := f.InsertPageBreak(sheetA, "A9"); err != nil {
			return err
		}
		return f.SetHeaderFooter(sheetA, &excelize.HeaderFooterOptions{OddFooter: "&L&F"})
	}},
}

// rich makes the workbook of that number: nearly each feature is in half of them, and the first ones have
// one each.
func rich(t *testing.T, n int) (data []byte, has []string) {
	r := rand.New(rand.NewPCG(uint64(n), 7))
	f := excelize.NewFile()
	defer f.Close() //nolint:errcheck // it is in memory
	require.NoError(t, f.SetSheetName("Sheet1", sheetA))
	_, err := f.NewSheet(sheetB)
	require.NoError(t, err)
	for _, s := range []string{sheetA, sheetB} {
		require.NoError(t, f.SetSheetRow(s, "A1", &[]any{"Name", "Count", "Note"}))
		for row := 2; row <= 20; row++ {
			if row%6 != 0 { // some rows are not there
				require.NoError(t, f.SetSheetRow(s, fmt.Sprintf("A%d", row), &[]any{fmt.Sprintf("item %d", row), row * 7, "x < y & z"}))
			}
		}
	}
	for i, x := range features {
		if n == i || n >= len(features) && r.IntN(2) == 0 {
			require.NoError(t, x.add(f), x.name)
			has = append(has, x.name)
		}
	}
	var b bytes.Buffer
	require.NoError(t, f.Write(&b))
	return b.Bytes(), slices.Clip(has)
}
