package aid_test

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"ferrule/compiler/intake/seal"
)

// lists gives the source of each list of a sheet, by the range that it is for, and whether anything asks where
// something else is typed.
func lists(t *testing.T, f *excelize.File, sheet string) (sources map[string]string, asks map[string]bool) {
	all, err := f.GetDataValidations(sheet)
	require.NoError(t, err)
	sources, asks = map[string]string{}, map[string]bool{}
	for _, v := range all {
		sources[v.Sqref] = strings.NewReplacer("&quot;", `"`, "&#39;", "'", "&lt;", "<", "&gt;", ">", "&amp;", "&").Replace(v.Formula1)
		asks[v.Sqref] = v.ShowErrorMessage
		require.LessOrEqual(t, len([]rune(*v.Prompt)), 255)
		require.LessOrEqual(t, len([]rune(*v.PromptTitle)), 32)
	}
	return sources, asks
}

func TestPickFromTheSameBook(t *testing.T) {
	to, _ := copies(t, written(t,
		"-- a.xlsx/Platforms --", "Ours", "Platform\tYears", "P&Q\t2010-2012", "", "R\t2010-2012",
		"-- a.xlsx/Traits --", "Trait\tValue\tKind\tPlatform", "Cab\tLong", "Cab\tShort", "Line\t1/4 in\tsize", "Cab\tLong\t\tP&Q", "Split\tA", "Line\t8 mm", "Split\tB", "W*?\tA", "W*?\tB",
		"-- a.xlsx/Positions --", "Position\tPair\tAir line\tCab", "Front damper",
		"-- a.xlsx/Parts --", "Part\tStatus\tReplaced by\tFamily", "HD-1\t\t\tDamper",
		"-- a.xlsx/Fitment Q --", "Platform\tCab\tSplit\tW*?\tFront damper\tFront damper note\tNote",
	))
	f := open(t, filepath.Join(to, "a.xlsx"))
	got, asks := lists(t, f, "Fitment Q")
	assert.Equal(t, map[string]string{
		"A2:A1001": "OFFSET('Platforms'!$A$3,0,0,MAX(1,COUNTA('Platforms'!$A$3:$A$5005)+1),1)",
		"B2:B1001": `OFFSET('Traits'!$B$1,MATCH("Cab",'Traits'!$A$1:$A$5003,0)-1,0,COUNTIFS('Traits'!$A$1:$A$5003,"Cab",'Traits'!$D$1:$D$5003,""),1)`,
		"C2:C1001": `"A,B"`, // its rows do not stand together
		"D2:D1001": `OFFSET('Traits'!$B$1,MATCH("W~*~?",'Traits'!$A$1:$A$5010,0)-1,0,COUNTIFS('Traits'!$A$1:$A$5010,"W~*~?",'Traits'!$D$1:$D$5010,""),1)`,
		"E2:E1001": "OFFSET('Parts'!$A$2,0,0,MAX(1,COUNTA('Parts'!$A$2:$A$5002)),1)",
	}, got)
	for at, s := range asks {
		assert.False(t, s, "a condition takes `not A` and lists: %s", at)
	}
	got, asks = lists(t, f, "Parts")
	assert.Equal(t, `"current,superseded,withdrawn"`, got["B2:B1002"])
	assert.True(t, asks["B2:B1002"])
	assert.Contains(t, got["C2:C1002"], "'Parts'!$A$2")
	assert.NotContains(t, got, "D2:D1002", "what a column declares is typed")
	got, _ = lists(t, f, "Positions")
	assert.Equal(t, `"Line"`, got["C2:C1002"])
	assert.Contains(t, got["B2:B1002"], "'Positions'!$A$2")
}

// Names of other workbooks stand in the list while they are short, and else in a hidden sheet that is read as
// nothing and told as nothing; one that somebody has changed is told.
func TestPickFromOtherBooks(t *testing.T) {
	parts := []string{"-- p.xlsx/Parts --", "Part"}
	for n := range 80 {
		parts = append(parts, "HD-"+strings.Repeat("7", 1+n%9)+string(rune('A'+n%26)))
	}
	dir := written(t, append(parts,
		"-- v.xlsx/Platforms --", "Platform\tYears", "P, long\t2010-2012", "R\t2010-2012",
		"-- v.xlsx/Traits --", "Trait\tValue", "Cab\tLong", "Cab\tShort",
		"-- v.xlsx/Positions --", "Position", "Front damper",
		"-- f.xlsx/Fitment --", "Platform\tCab\tFront damper", "R\tLong\tHD-7A", "R\tShort\tHD-7A")...)
	to, told := copies(t, dir)
	f := open(t, filepath.Join(to, "f.xlsx"))
	got, _ := lists(t, f, "Fitment")
	assert.Equal(t, `"Long,Short"`, got["B2:B1003"])
	assert.Equal(t, "'_Lists'!$A$4:$A$5", got["A2:A1003"], "a name holds a comma")
	assert.Equal(t, "'_Lists'!$B$4:$B$83", got["C2:C1003"])
	rows, err := f.GetRows(seal.Names)
	require.NoError(t, err)
	assert.Equal(t, []string{"P, long", "HD-7A"}, rows[3])
	assert.Len(t, rows, 83)
	shown, err := f.GetSheetVisible(seal.Names)
	require.NoError(t, err)
	assert.False(t, shown)
	assert.Contains(t, told["Fitment"].Added, "of which 3 have the names as they are today")
	assert.Equal(t, found(t, dir), found(t, to))

	require.NoError(t, f.SetCellStr(seal.Names, "B90", "HD-8"))
	require.NoError(t, f.SaveAs(filepath.Join(to, "f.xlsx")))
	assert.Contains(t, strings.Join(found(t, to), "\n"), `the sheet "_Lists" is left alone`)
}
