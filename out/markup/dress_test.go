package markup

import (
	"fmt"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// tables are characters that XML 1.0 can hold and that programs leave alone.
var tables = []*unicode.RangeTable{unicode.L, unicode.M, unicode.N, unicode.P, unicode.S, unicode.Zs}

// lists gives the source of each list of a sheet, by the range that it is for, and
// whether other values are refused.
func lists(t *testing.T, f *excelize.File, sheet string) (sources map[string]string, strict map[string]bool) {
	all, err := f.GetDataValidations(sheet)
	require.NoError(t, err)
	sources, strict = map[string]string{}, map[string]bool{}
	for _, v := range all {
		sources[v.Sqref], strict[v.Sqref] = v.Formula1, v.ShowErrorMessage
	}
	return sources, strict
}

func TestPickFromTheSameBook(t *testing.T) {
	b := one(t,
		"-- a.xlsx/Platforms --", "#header 2", "Ours", "Platform\tYears", "P&Q\t2010-2012",
		"-- a.xlsx/Traits --", "Trait\tValue\tKind\tPlatform", "Cab\tLong", "Cab\tShort", "Line\t1/4 in\tsize", "Cab\tLong\t\tP&Q", "Split\tA", "Line\t8 mm", "Split\tB",
		"-- a.xlsx/Positions --", "Position\tPair\tAir line\tCab", "Front damper",
		"-- a.xlsx/Parts --", "Part\tStatus\tReplaced by", "HD-1",
		"-- a.xlsx/Fitment Q --", "Platform\tCab\tSplit\tFront damper\tFront damper note\tNote",
	)
	f, _ := written(t, b, Options{})
	got, strict := lists(t, f, "Fitment Q")
	assert.Equal(t, map[string]string{
		"A2:A1001": "OFFSET('Platforms'!$A$3,0,0,MAX(1,COUNTA('Platforms'!$A$3:$A$5003)),1)",
		"B2:B1001": `OFFSET('Traits'!$B$1,MATCH("Cab",'Traits'!$A$1:$A$5000,0)-1,0,COUNTIFS('Traits'!$A$1:$A$5000,"Cab",'Traits'!$D$1:$D$5000,""),1)`,
		"C2:C1001": `"A,B"`, // its rows do not stand together
		"D2:D1001": "OFFSET('Parts'!$A$2,0,0,MAX(1,COUNTA('Parts'!$A$2:$A$5002)),1)",
	}, got)
	for at, s := range strict {
		assert.False(t, s, "a condition takes `not A` and lists: %s", at)
	}
	got, strict = lists(t, f, "Parts")
	assert.Equal(t, `"current,superseded,withdrawn"`, got["B2:B1001"])
	assert.True(t, strict["B2:B1001"])
	assert.Contains(t, got["C2:C1001"], "'Parts'!$A$2")
	got, _ = lists(t, f, "Positions")
	assert.Equal(t, `"Line"`, got["C2:C1001"])
	assert.Contains(t, got["B2:B1001"], "'Positions'!$A$2")
}

// TestPickFromTheSheetThatDeclares holds that a Traits sheet without the columns of a list
// is passed over, and one that has them is not.
func TestPickFromTheSheetThatDeclares(t *testing.T) {
	for _, columns := range []string{"Trait\tHow to tell", "How to tell\tValue", "How to tell\tKind"} {
		b := one(t,
			"-- a.xlsx/Traits --", columns, "Cab\tLong",
			"-- a.xlsx/Traits cabs --", "Trait\tValue", "Cab\tLong", "Cab\tShort",
			"-- a.xlsx/Fitment --", "Cab\tFront damper",
		)
		f, _ := written(t, b, Options{})
		got, _ := lists(t, f, "Fitment")
		assert.Equal(t, `OFFSET('Traits cabs'!$B$1,MATCH("Cab",'Traits cabs'!$A$1:$A$5000,0)-1,0,COUNTIF('Traits cabs'!$A$1:$A$5000,"Cab"),1)`, got["A2:A1001"], columns)
	}
}

func TestLinkListsWhatOtherBooksDeclare(t *testing.T) {
	books, err := Books([]byte("-- v.xlsx/Platforms --\nPlatform\tYears\nP1\nP2\n" +
		"-- v.xlsx/Traits --\nTrait\tValue\nCab\tLong\nCab\tShort\n" +
		"-- v.xlsx/Positions --\nPosition\nFront damper\n" +
		"-- f.xlsx/Fitment --\nPlatform\tCab\tFront damper\n" +
		"-- p.xlsx/Parts --\nPart\nHD-1\nHD-2\n"))
	require.NoError(t, err)
	linked := Link(books)
	assert.Len(t, books[1].Sheets, 1, "the books given are left as they were")
	assert.Equal(t, books[0], linked[0])
	assert.Equal(t, books[2], linked[2])
	require.Len(t, linked[1].Sheets, 2)
	assert.Equal(t, Sheet{Name: "_Lists", Rows: [][]Cell{
		{Words("Platform"), Words("Cab"), Words("Part"), Words("Position")},
		{Words("P1"), Words("Long"), Words("HD-1"), Words("Front damper")},
		{Words("P2"), Words("Short"), Words("HD-2"), {}},
	}}, linked[1].Sheets[1])
	f, _ := written(t, &linked[1], Options{})
	got, _ := lists(t, f, "Fitment")
	assert.Equal(t, map[string]string{
		"A2:A1001": "'_Lists'!$A$2:$A$3", "B2:B1001": "'_Lists'!$B$2:$B$3", "C2:C1001": "'_Lists'!$C$2:$C$3",
	}, got)
}

func TestDressed(t *testing.T) {
	b := one(t, "-- a.xlsx/_Read me --", "About", "words",
		"-- a.xlsx/Parts --", "#header 2", "Ours", "Part\tLine size\tSummary\tMass [kg]", "HD-1\t1/4 in\tA long sentence that is about the part\t2.5")
	f, pkg := written(t, b, Options{})
	panes, err := f.GetPanes("Parts")
	require.NoError(t, err)
	assert.True(t, panes.Freeze)
	assert.Equal(t, 2, panes.YSplit)
	layout, err := f.GetPageLayout("Parts")
	require.NoError(t, err)
	assert.Equal(t, "landscape", *layout.Orientation)
	assert.Equal(t, [2]int{1, 0}, [2]int{*layout.FitToWidth, *layout.FitToHeight})
	props, err := f.GetSheetProps("Parts")
	require.NoError(t, err)
	assert.True(t, *props.FitToPage)
	assert.Equal(t, "FFB26A00", *props.TabColorRGB)
	names := map[string]string{}
	for _, n := range f.GetDefinedName() {
		names[n.Name+"@"+n.Scope] = n.RefersTo
	}
	assert.Equal(t, "'Parts'!$2:$2", names["_xlnm.Print_Titles@Parts"])
	assert.Contains(t, part(t, pkg, "xl/worksheets/sheet2.xml"), `<autoFilter ref="$A$2:$D$3">`)
	assert.Empty(t, names["_xlnm.Print_Titles@_Read me"])

	format := func(at string) string {
		n, err := f.GetCellStyle("Parts", at)
		require.NoError(t, err)
		s, err := f.GetStyle(n)
		require.NoError(t, err)
		if s.CustomNumFmt == nil {
			return fmt.Sprint(s.NumFmt)
		}
		return *s.CustomNumFmt
	}
	size := func(at string) float64 {
		n, err := f.GetCellStyle("Parts", at)
		require.NoError(t, err)
		s, err := f.GetStyle(n)
		require.NoError(t, err)
		return s.Font.Size
	}
	assert.Greater(t, size("A1"), size("A2"), "what stands above the header is a title")
	assert.Equal(t, size("A3"), size("A2"), "the header is as large as its rows")
	assert.Equal(t, "@", format("B3"), "1/4 typed into a cell of another format becomes a date")
	assert.Equal(t, "@", format("B900"), "also in rows still to come")
	assert.Equal(t, "0", format("C3"))
	assert.Equal(t, "0", format("D3"))
	wide, err := f.GetColWidth("Parts", "C")
	require.NoError(t, err)
	narrow, err := f.GetColWidth("Parts", "D")
	require.NoError(t, err)
	assert.Greater(t, wide, 2*narrow)
}
