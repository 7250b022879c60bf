package intake_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake"
	"ferrule/sheets"
)

// TestRoles holds what a file of a folder is taken for, by its name.
func TestRoles(t *testing.T) {
	for name, want := range map[string]intake.Role{
		"a.xlsx": intake.Workbook, "a.XLSM": intake.Workbook, "a.csv": intake.Workbook, "A.TSV": intake.Workbook,
		"a.xls": intake.Strange, "a.xlsb": intake.Strange, "a.ods": intake.Strange, "a.fods": intake.Strange, "a.numbers": intake.Strange,
		"Fitment H7.txt": intake.Strange, "fitment.TXT": intake.Strange, "readme.txt": intake.Ignored, "fits.txt": intake.Ignored,
		"~$a.csv": intake.Ignored, ".a.csv": intake.Ignored, "a.csv.bak": intake.Ignored, "parts.schema.json": intake.Schema,
	} {
		assert.Equal(t, want, intake.RoleOf(name), name)
	}
}

// TestTypedNumbers holds that texts in digits are numbers under the columns of a text file that
// need numbers, and texts everywhere else.
func TestTypedNumbers(t *testing.T) {
	rows := map[string]string{"250": "250", "12.5": "12.5", "12.50": "12.5", "0.25": "0.25", "999999999999": "999999999999",
		"007": "", "1.250": "", "1,5": "", "1E5": "", "": ""}
	text := "Platform;On the road;Note\n"
	for road := range rows {
		text += "H7;" + road + ";" + road + "\n"
	}
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "Vehicles.csv"), []byte("sep=;\n"+text), 0o600))
	r := intake.NewReader()
	r.Book(intake.Source{Path: filepath.Join(dir, "Vehicles.csv"), Name: "Vehicles.csv"})
	r.Finish(&intake.Sources{}, func(f *finding.Finding) { assert.Fail(t, "told", "%s", f.Message) })
	require.Len(t, r.Tables, 1)
	require.Len(t, r.Tables[0].Records, len(rows))
	for _, rec := range r.Tables[0].Records {
		if len(rec.Fields) < 3 {
			continue // the blank one
		}
		road, note := rec.Fields[1], rec.Fields[2]
		assert.Equal(t, sheets.Text, note.Kind)
		want, known := rows[note.Text]
		require.True(t, known, note.Text)
		if want == "" {
			assert.Equal(t, sheets.Text, road.Kind, note.Text)
			assert.Equal(t, note.Text, road.Text)
			continue
		}
		assert.Equal(t, sheets.Number, road.Kind, note.Text)
		assert.Equal(t, want, road.Text)
	}
}
