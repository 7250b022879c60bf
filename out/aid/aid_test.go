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
		"-- a.xlsx/Cautions --", "Caution\tText", "air\tLet it out.", "chock\tChock the wheels.", "pair\tRenew both.", "cold\tWarm it up.",
		"-- a.xlsx/Cautions (2) --", "Caution\tText", "air\tLet it out.", "chock\tChock the wheels.", "pair\tRenew both.", "cold\tWarm it up.",
		"-- a.xlsx/Kits --", "Part\tNumber of them", "HD-1\t2",
		"-- a.xlsx/Parts --", "1", "2", "3", "4", "5", "6", "7", "8", "Part\tName", "HD-1\tDamper",
		"-- a.xlsx/Layouts --", "Sheet\tWord\tWhere\tAs", "Fitment old\ttable\theader 1\tFitment", "Fitment old\tis\tNumber\tPart", "Fitment old\tacross\tH7 … H9\tPlatform", "Fitment old\tmark\tx\tthis row", "Fitment old\tis\t\"Front damper\"\tPosition")
	require.NoError(t, os.WriteFile(filepath.Join(dir, "References.csv"), []byte("Number,Part\nA 1,HD-1\n"), 0o644))
	to, told := copies(t, dir)
	for sheet, why := range map[string]string{
		"Chart": "its name begins with no kind of sheet", "Fitment old": "it has a shape of its own, which Layouts says how to read",
		"_Notes": "its name begins with _", "Kits": "a column that it must have is missing; ferrule check tells which",
		"Cautions (2)": "it says the same as another sheet, which is read in its place",
		"References":   "a text file has no lists and no notes", "Parts": "its header is row 9, too far down to stay in sight",
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
