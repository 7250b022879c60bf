package aid_test

import (
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"ferrule/out/aid"
)

// own is something that people have on a sheet of a catalogue and that stays as they made it. held looks at it.
type own struct {
	name string
	add  func(f *excelize.File) error
	held func(t *testing.T, f *excelize.File, told aid.Sheet)
}

const sheet = "Fitment H7"

var (
	picked = excelize.DataValidation{Type: "list", Sqref: "B3:B9", Formula1: `"Leaf"`}
	ruled  = excelize.DataValidation{Type: "whole", Operator: "between", Sqref: "D2:D5 D7", Formula1: "1", Formula2: "9", ShowErrorMessage: true}
)

var owned = []own{
	{"panes", func(f *excelize.File) error {
		return f.SetPanes(sheet, &excelize.Panes{Freeze: true, YSplit: 3, TopLeftCell: "A4", ActivePane: "bottomLeft"})
	}, func(t *testing.T, f *excelize.File, told aid.Sheet) {
		p, err := f.GetPanes(sheet)
		require.NoError(t, err)
		assert.Equal(t, "A4", p.TopLeftCell)
		assert.Contains(t, told.Kept, "what stays in sight")
	}},
	{"filter", func(f *excelize.File) error { return f.AutoFilter(sheet, "A1:B4", nil) }, func(t *testing.T, _ *excelize.File, told aid.Sheet) {
		assert.Contains(t, told.Kept, "the filter or table")
	}},
	{"table", func(f *excelize.File) error {
		return f.AddTable(sheet, &excelize.Table{Range: "A1:D4", Name: "Fits"})
	}, func(t *testing.T, f *excelize.File, told aid.Sheet) {
		all, err := f.GetTables(sheet)
		require.NoError(t, err)
		assert.Len(t, all, 1)
		assert.Contains(t, told.Kept, "the filter or table")
	}},
	{"lists", func(f *excelize.File) error {
		p, r := picked, ruled
		if err := f.AddDataValidation(sheet, &p); err != nil {
			return err
		}
		return f.AddDataValidation(sheet, &r)
	}, func(t *testing.T, f *excelize.File, told aid.Sheet) {
		all, err := f.GetDataValidations(sheet)
		require.NoError(t, err)
		require.Len(t, all, 4, "no list is added where there is one")
		assert.Equal(t, []string{picked.Sqref, ruled.Sqref, "A2:A1003", "C2:C1003"}, []string{all[0].Sqref, all[1].Sqref, all[2].Sqref, all[3].Sqref})
		assert.Contains(t, told.Kept, "the rule for cells under Front axle")
	}},
	{"note", func(f *excelize.File) error {
		return f.AddComment(sheet, excelize.Comment{Cell: "A1", Author: "keeper", Text: "see the plan"})
	}, func(t *testing.T, f *excelize.File, told aid.Sheet) {
		all, err := f.GetComments(sheet)
		require.NoError(t, err)
		require.Len(t, all, 5)
		assert.Equal(t, "keeper", all[0].Author)
		assert.Contains(t, told.Kept, "the note on Platform")
	}},
	{"page", func(f *excelize.File) error {
		portrait := "portrait"
		return f.SetPageLayout(sheet, &excelize.PageLayoutOptions{Orientation: &portrait})
	}, func(t *testing.T, f *excelize.File, told aid.Sheet) {
		l, err := f.GetPageLayout(sheet)
		require.NoError(t, err)
		assert.Equal(t, "portrait", *l.Orientation)
		assert.Contains(t, told.Kept, "the page set-up")
	}},
	{"width", func(f *excelize.File) error { return f.SetColWidth(sheet, "B", "B", 4) }, func(t *testing.T, f *excelize.File, _ aid.Sheet) {
		w, err := f.GetColWidth(sheet, "B")
		require.NoError(t, err)
		assert.Equal(t, 4.0, w)
		w, err = f.GetColWidth(sheet, "E")
		require.NoError(t, err)
		assert.Greater(t, w, 10.0)
	}},
	{"titles", func(f *excelize.File) error {
		return f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: "'" + sheet + "'!$1:$2", Scope: sheet})
	}, func(t *testing.T, f *excelize.File, told aid.Sheet) {
		n := 0
		for _, d := range f.GetDefinedName() {
			if d.Name == "_xlnm.Print_Titles" && d.Scope == sheet {
				assert.Equal(t, "'"+sheet+"'!$1:$2", d.RefersTo)
				n++
			}
		}
		assert.Equal(t, 1, n)
		assert.NotContains(t, told.Added, "header and first column on every printed page")
	}},
	{"chart", func(f *excelize.File) error {
		return f.AddChart(sheet, "H2", &excelize.Chart{Type: excelize.Col, Series: []excelize.ChartSeries{{Values: "'" + sheet + "'!$D$2:$D$4"}}})
	}, func(t *testing.T, f *excelize.File, _ aid.Sheet) {
		// The chart goes with its parts, which the patcher holds to be there.
		rows, err := f.GetRows(sheet)
		require.NoError(t, err)
		assert.Len(t, rows, 3)
	}},
	{"chart sheet before another", func(f *excelize.File) error {
		if err := f.AddChartSheet("Drawn", &excelize.Chart{Type: excelize.Line, Series: []excelize.ChartSeries{{Values: "'" + sheet + "'!$D$2:$D$4"}}}); err != nil {
			return err
		}
		if _, err := f.NewSheet("Kits"); err != nil {
			return err
		}
		return f.SetSheetRow("Kits", "A1", &[]any{"Kit", "Part"})
	}, func(t *testing.T, f *excelize.File, _ aid.Sheet) {
		assert.Contains(t, f.GetDefinedName(), excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: "'Kits'!$A:$A,'Kits'!$1:$1", Scope: "Kits"})
	}},
	{"protection", func(f *excelize.File) error {
		return f.ProtectSheet(sheet, &excelize.SheetProtectionOptions{Password: "x", SelectLockedCells: true})
	}, func(t *testing.T, f *excelize.File, _ aid.Sheet) {
		assert.Error(t, f.UnprotectSheet(sheet, "y"))
	}},
	{"highlights", func(f *excelize.File) error {
		return f.SetConditionalFormat(sheet, "A2:D9", []excelize.ConditionalFormatOptions{{Type: "data_bar", Criteria: "=", MinType: "min", MaxType: "max", BarColor: "#638EC6", BarSolid: true}})
	}, func(t *testing.T, f *excelize.File, _ aid.Sheet) {
		all, err := f.GetConditionalFormats(sheet)
		require.NoError(t, err)
		assert.Len(t, all, 1)
	}},
}

// TestWhatPeopleMadeStays gives workbooks with things of their own, alone and together, what they lack.
func TestWhatPeopleMadeStays(t *testing.T) {
	for n := range len(owned) + 24 {
		dir := written(t,
			"-- a.xlsx/Platforms --", "Platform\tYears", "H7\t2010-2012",
			"-- a.xlsx/Traits --", "Trait\tValue", "Front axle\tLeaf", "Front axle\tAir",
			"-- a.xlsx/Vehicles --", "Platform\tFront axle", "H7\tany",
			"-- a.xlsx/Positions --", "Position", "Front damper",
			"-- a.xlsx/Parts --", "Part\tName", "HD-1\tDamper", "HD-2\tDamper",
			"-- a.xlsx/"+sheet+" --", "Platform\tFront axle\tFront damper\tPrecedence\tNote", "H7\tLeaf\tHD-1\t1\tfits with the long bolts that stand in the kit of the axle", "H7\tAir\tHD-2\t2")
		path := filepath.Join(dir, "a.xlsx")
		f, err := excelize.OpenFile(path)
		require.NoError(t, err)
		r := rand.New(rand.NewPCG(uint64(n), 11))
		var has []own
		tabled := false
		for i, o := range owned {
			if n == i || n >= len(owned) && r.IntN(2) == 0 && !(tabled && o.name == "table") {
				require.NoError(t, o.add(f), o.name)
				has = append(has, o)
				tabled = tabled || o.name == "filter"
			}
		}
		require.NoError(t, f.Save())
		require.NoError(t, f.Close())
		to, told := copies(t, dir)
		assert.Equal(t, found(t, dir), found(t, to), "%d", n)
		done := open(t, filepath.Join(to, "a.xlsx"))
		for _, o := range has {
			t.Run(fmt.Sprint(n, " ", o.name), func(t *testing.T) { o.held(t, done, told[sheet]) })
		}
		again, told := copies(t, to)
		assert.Equal(t, found(t, to), found(t, again))
		assert.Empty(t, told[sheet].Added, "%d", n)
	}
}
