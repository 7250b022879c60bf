package aid_test

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/intake"
	"ferrule/compiler/intake/seal"
	"ferrule/out/aid"
	"ferrule/out/mark"
	"ferrule/out/markup"
	"ferrule/schema"
)

const today = "2027-03-01"

// plain writes workbooks with nothing in them but cells.
func plain(t *testing.T, books []markup.Book) string {
	dir := t.TempDir()
	require.NoError(t, markup.WriteAll(dir, books, markup.Options{Plain: true}))
	return dir
}

// written writes workbooks from lines of the text form.
func written(t *testing.T, lines ...string) string {
	books, err := markup.Books([]byte(strings.Join(lines, "\n") + "\n"))
	require.NoError(t, err)
	return plain(t, books)
}

// copies makes copies of a catalogue's workbooks in another folder, and gives what was told of each sheet.
func copies(t *testing.T, dir string) (to string, told map[string]aid.Sheet) {
	src, err := intake.Find([]string{dir})
	require.NoError(t, err)
	to, told = t.TempDir(), map[string]aid.Sheet{}
	for _, b := range aid.Copies(src, func(name string) ([]byte, error) { return os.ReadFile(filepath.Join(dir, name)) }) {
		require.NoError(t, b.Err, b.Name)
		require.NoError(t, os.WriteFile(filepath.Join(to, b.Name), b.Bytes, 0o644))
		for _, s := range b.Sheets {
			told[s.Name] = s
		}
	}
	return to, told
}

// found lists what a catalogue's workbooks are told of, without the pictures, which were not copied.
func found(t *testing.T, dir string) []string {
	r, err := compiler.Compile(context.Background(), compiler.Input{Paths: []string{dir}}, compiler.Options{Today: today})
	require.NoError(t, err)
	var out []string
	for _, f := range r.Findings {
		at := ""
		for _, c := range f.Cells {
			at += " " + c.Place.String()
		}
		out = append(out, string(f.Code)+at+": "+f.Message)
	}
	return out
}

func open(t *testing.T, path string) *excelize.File {
	f, err := excelize.OpenFile(path)
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, f.Close()) })
	return f
}

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

// TestNothingNewIsFound holds it of whole catalogues, dressed and plain, and that a copy of a copy is the same
// byte for byte: what is there is left.
func TestNothingNewIsFound(t *testing.T) {
	catalogues := map[string]string{"starter": plain(t, markup.Starter())}
	for _, name := range []string{"demo", "faulty"} {
		var all []markup.Book
		texts, err := filepath.Glob(filepath.Join("../../testdata", name, "source", "*.txtar"))
		require.NoError(t, err)
		for _, path := range texts {
			text, err := os.ReadFile(path)
			require.NoError(t, err)
			books, err := markup.Books(text)
			require.NoError(t, err)
			all = append(all, books...)
		}
		require.Len(t, all, 3, name)
		catalogues[name] = plain(t, all)
	}
	for name, dir := range catalogues {
		to, told := copies(t, dir)
		before, after := found(t, dir), found(t, to)
		assert.NotEmpty(t, before, name)
		assert.Equal(t, before, after, name)
		assert.NotEmpty(t, told["Platforms"].Added, name)
		again, told := copies(t, to)
		for sheet, s := range told {
			assert.Empty(t, s.Added, "%s %s", name, sheet)
		}
		books, err := filepath.Glob(filepath.Join(to, "*.xlsx"))
		require.NoError(t, err)
		for _, path := range books {
			was, err := os.ReadFile(path)
			require.NoError(t, err)
			is, err := os.ReadFile(filepath.Join(again, filepath.Base(path)))
			require.NoError(t, err)
			assert.True(t, bytes.Equal(was, is), path)
		}
	}
}

// Every heading of the starter has a note that explains it, and every column that refers to names has a list.
func TestStarterIsComplete(t *testing.T) {
	to, _ := copies(t, plain(t, markup.Starter()))
	f := open(t, filepath.Join(to, "catalogue.xlsx"))
	for _, s := range markup.Starter()[0].Sheets {
		if strings.HasPrefix(s.Name, "_") {
			continue
		}
		notes, err := f.GetComments(s.Name)
		require.NoError(t, err)
		assert.Len(t, notes, len(s.Rows[0]), s.Name)
		for _, n := range notes {
			require.Len(t, n.Paragraph, 1)
			assert.True(t, schema.Explains(n.Paragraph[0].Text), "%s %s: %s", s.Name, n.Cell, n.Paragraph[0].Text)
		}
	}
	got, _ := lists(t, f, "Fitment restrictors")
	assert.Len(t, got, 6, "%v", got)
}

// A note that somebody has changed is theirs and told; one of ours is not, also with a mark below it.
func TestNotesOfOurs(t *testing.T) {
	dir := written(t, "-- a.xlsx/Parts --", "Part\tName\tNane", "HD-1\tDamper\tx", "HD-1\tSpring")
	to, _ := copies(t, dir)
	path := filepath.Join(to, "a.xlsx")
	src, err := intake.Find([]string{to})
	require.NoError(t, err)
	r, err := compiler.Compile(context.Background(), compiler.Input{Paths: []string{to}}, compiler.Options{Today: today})
	require.NoError(t, err)
	require.NotContains(t, strings.Join(found(t, to), "\n"), string(finding.CellComment))
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	marked := mark.Books([]string{src.Books[0].Name}, r.Findings)
	c, err := marked[0].Copy(data)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path, c.Bytes, 0o644))
	now := strings.Join(found(t, to), "\n")
	assert.Contains(t, now, string(finding.MarksIgnored))
	assert.NotContains(t, now, string(finding.CellComment), "ours and a mark below it")

	require.NoError(t, os.WriteFile(path, data, 0o644))
	f, err := excelize.OpenFile(path)
	require.NoError(t, err)
	require.NoError(t, f.DeleteComment("Parts", "B1"))
	require.NoError(t, f.AddComment("Parts", excelize.Comment{Cell: "B1", Author: "ferrule", Text: "What the part is, in a few words that guides print. Not for left-hand drive."}))
	require.NoError(t, f.Save())
	require.NoError(t, f.Close())
	assert.Contains(t, strings.Join(found(t, to), "\n"), "cell-comment a.xlsx:Parts!B1")
}

// Sheets in a shape of their own, sheets for people alone and sheets without their header are left alone.
func TestLeftAlone(t *testing.T) {
	dir := written(t,
		"-- a.xlsx/Chart --", "Number\tH7\tH9", "HD-1\tx\tx",
		"-- a.xlsx/Fitment old --", "Number\tH7\tH9", "HD-1\tx\tx",
		"-- a.xlsx/_Notes --", "to do",
		"-- a.xlsx/Kits --", "Part\tNumber of them", "HD-1\t2",
		"-- a.xlsx/Parts --", "1", "2", "3", "4", "5", "6", "7", "8", "Part\tName", "HD-1\tDamper",
		"-- a.xlsx/Layouts --", "Sheet\tWord\tWhere\tAs", "Fitment old\ttable\theader 1\tFitment", "Fitment old\tis\tNumber\tPart", "Fitment old\tacross\tH7 … H9\tPlatform", "Fitment old\tmark\tx\tthis row", "Fitment old\tis\t\"Front damper\"\tPosition")
	require.NoError(t, os.WriteFile(filepath.Join(dir, "References.csv"), []byte("Number,Part\nA 1,HD-1\n"), 0o644))
	to, told := copies(t, dir)
	for sheet, why := range map[string]string{
		"Chart": "its name begins with no kind of sheet", "Fitment old": "it has a shape of its own, which Layouts says how to read",
		"_Notes": "its name begins with _", "Kits": "a column that it must have is missing; ferrule check tells which",
		"References": "a text file has no lists and no notes", "Parts": "its header is row 9, too far down to stay in sight",
	} {
		assert.Equal(t, why, told[sheet].Left, sheet)
		assert.Equal(t, sheet == "Parts", len(told[sheet].Added) > 0, sheet)
	}
	assert.NotEmpty(t, told["Layouts"].Added)
	assert.Equal(t, found(t, dir), found(t, to))
	f := open(t, filepath.Join(to, "a.xlsx"))
	for _, sheet := range []string{"Chart", "Fitment old", "_Notes", "Kits"} {
		notes, err := f.GetComments(sheet)
		require.NoError(t, err)
		assert.Empty(t, notes, sheet)
	}
}
