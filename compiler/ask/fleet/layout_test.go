package fleet_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"ferrule/compiler/ask/fleet"
)

// sheetsOf writes a workbook with rows of text.
func sheetsOf(t *testing.T, sheets map[string][][]string, order ...string) string {
	t.Helper()
	f := excelize.NewFile()
	for i, name := range order {
		if i == 0 {
			require.NoError(t, f.SetSheetName("Sheet1", name))
		} else {
			_, err := f.NewSheet(name)
			require.NoError(t, err)
		}
		for r, row := range sheets[name] {
			for c, text := range row {
				at, err := excelize.CoordinatesToCellName(c+1, r+1)
				require.NoError(t, err)
				require.NoError(t, f.SetCellStr(name, at, text))
			}
		}
	}
	path := filepath.Join(t.TempDir(), "fleet.xlsx")
	require.NoError(t, f.SaveAs(path))
	return path
}

// TestLayoutsHoldForFleets reads a list with words of its own by the Layouts sheet beside it, and says
// which rows of that are about no fleet.
func TestLayoutsHoldForFleets(t *testing.T) {
	cat, laid := demo(t)
	path := sheetsOf(t, map[string][][]string{
		"January": {{"Our list"}, {"Chassis", "Made", "Springs in front", "Depot"}, {"H7", "2012", "A", "North"}, {"H7", "2016", "I", "South"}},
		"Layouts": {{"Sheet", "Word", "Where", "As"}, {"January", "table", "header 2", "Fleet"}, {"January", "skip", "cell A1", ""}, {"January", "is", "Chassis", "Platform"},
			{"January", "is", "Made", "Years"}, {"January", "is", "Springs in front", "Front suspension"}, {"January", "is", "Depot", "Depot"},
			{"January", "say", "Front suspension", "A = Air beam"}, {"January", "say", "Front suspension", "I = IFS"}, {"Old", "table", "header 1", "Fleets"}},
	}, "January", "Layouts")
	f := answered(t, cat, laid, path)
	require.Len(t, f.Rows, 2)
	assert.Empty(t, f.Refused)
	assert.Equal(t, "H7, 2012, Front suspension Air beam", f.Rows[0].Says())
	assert.Equal(t, int32(3), f.Rows[0].At.Row)
	assert.Equal(t, []string{"South"}, f.Rows[1].Carried)
	require.Len(t, f.Remarks, 1)
	assert.Contains(t, f.Remarks[0].What, `no row table about the sheet "Old" has Fleet under As`)
}

// TestHeadingsThatMayBeMeant holds that no column is carried along in silence that was meant as a condition.
func TestHeadingsThatMayBeMeant(t *testing.T) {
	cat, laid := demo(t)
	path := filepath.Join(t.TempDir(), "fleet.csv")
	require.NoError(t, os.WriteFile(path, []byte("Platform,Qty,Frnt suspension,Depot\nH7,4,Air beam,North\n"), 0o644))
	f := answered(t, cat, laid, path)
	var told []string
	for _, r := range f.Remarks {
		told = append(told, r.What+" | "+r.Nearest)
	}
	assert.Equal(t, []string{`the column "Qty" is carried along, and nothing is read from it | call it Quantity if it says how many vehicles there are`,
		`the column "Frnt suspension" is carried along, and nothing is read from it | did you mean Front suspension?`}, told)
	assert.Equal(t, int64(1), f.Rows[0].Quantity)
}

func TestFleetsThatCannotBeRead(t *testing.T) {
	cat, laid := demo(t)
	for text, want := range map[string]string{
		"What,When\nnothing,never\n": "no sheet of the fleet has a header with Platform, Year or a trait",
		"Platform,Year\n":            "the fleet has no vehicle",
		"Platform,Year\n\"H7":        "fleet.csv cannot be read whole",
	} {
		path := filepath.Join(t.TempDir(), "fleet.csv")
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
		assert.ErrorContains(t, fleet.New(cat).Read(path, laid), want)
	}
	assert.ErrorContains(t, fleet.New(cat).Read("nowhere.csv", laid), "nowhere.csv cannot be read")
}

// TestSheetsOfAFleet holds which sheets vehicles are read from: not from those that are set aside by a name with _,
// unless Layouts says how to read one; and that a sheet without a header is told.
func TestSheetsOfAFleet(t *testing.T) {
	cat, laid := demo(t)
	sheets := map[string][][]string{
		"Cover": {{"Our vehicles, with best wishes"}},
		"_Old":  {{"Platform", "Year"}, {"H7", "2016"}},
		"Fleet": {{"List of", "Year", "2026"}, {"Depot", "Platform", "Year"}, {"North", "H7", "2012"}},
	}
	f := answered(t, cat, laid, sheetsOf(t, sheets, "Cover", "_Old", "Fleet"))
	require.Len(t, f.Rows, 1)
	assert.Equal(t, fleet.At{Sheet: "Fleet", Row: 3}, f.Rows[0].At, "the row with most conditions is the header")
	assert.Equal(t, []string{"North"}, f.Rows[0].Carried)
	require.Len(t, f.Remarks, 1)
	assert.Equal(t, "Cover", f.Remarks[0].At.Sheet)

	sheets["Layouts"] = [][]string{{"Sheet", "Word", "Where", "As"}, {"_Old", "table", "header 1", "Fleet"}, {"_Old", "is", "Platform", "Platform"}, {"_Old", "is", "Year", "Years"}}
	f = answered(t, cat, laid, sheetsOf(t, sheets, "Cover", "_Old", "Fleet", "Layouts"))
	require.Len(t, f.Rows, 2)
	assert.Equal(t, "_Old", f.Rows[0].At.Sheet)
}
