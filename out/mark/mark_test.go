package mark_test

import (
	"bytes"
	"context"
	"crypto/sha256"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/intake"
	"ferrule/compiler/intake/seal"
	"ferrule/out/mark"
)

const today = "2027-03-01"

// compiled compiles a catalogue, with copies in the place of its workbooks.
func compiled(t *testing.T, dir string, copies map[string]string) *compiler.Result {
	r, err := compiler.Compile(context.Background(), compiler.Input{Paths: []string{dir}, Instead: copies}, compiler.Options{Today: today})
	require.NoError(t, err)
	return r
}

// told lists findings but for that a workbook is marked.
func told(fs []*finding.Finding) (out []string, marks int) {
	for _, f := range fs {
		if f.Code == finding.MarksIgnored {
			marks++
			continue
		}
		at := ""
		for _, c := range f.Cells {
			at += " " + c.Place.String()
		}
		out = append(out, string(f.Code)+at+": "+f.Message)
	}
	return out, marks
}

// marked writes marked copies of a catalogue's workbooks.
func marked(t *testing.T, dir string) (map[string]string, *compiler.Result) {
	r := compiled(t, dir, nil)
	src, err := intake.Find([]string{dir})
	require.NoError(t, err)
	var names []string
	to := t.TempDir()
	sums := map[string][sha256.Size]byte{}
	for _, b := range src.Books {
		names = append(names, b.Name)
		data, err := os.ReadFile(b.Path)
		require.NoError(t, err)
		sums[b.Path] = sha256.Sum256(data)
	}
	copies := map[string]string{}
	for _, b := range mark.Books(names, r.Findings) {
		data, err := os.ReadFile(filepath.Join(dir, b.Name))
		require.NoError(t, err)
		c, err := b.Copy(data)
		require.NoError(t, err)
		copies[b.Name] = filepath.Join(to, b.Name)
		require.NoError(t, os.WriteFile(copies[b.Name], c.Bytes, 0o600))
	}
	for path, sum := range sums {
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, sum, sha256.Sum256(data), "the workbook is not written")
	}
	return copies, r
}

// TestMarkedCopiesReadAlike holds that marks change no finding.
func TestMarkedCopiesReadAlike(t *testing.T) {
	for _, dir := range []string{"../../testdata/demo", "../../testdata/faulty"} {
		to, r := marked(t, dir)
		want, none := told(r.Findings)
		got, marks := told(compiled(t, dir, to).Findings)
		assert.Zero(t, none)
		assert.Positive(t, marks)
		assert.Equal(t, want, got)
	}
}

// TestOthersMarksAreTold edits a marked copy as people and liars do: what is not word for word ours is
// told.
func TestOthersMarksAreTold(t *testing.T) {
	for name, c := range map[string]struct {
		edit func(t *testing.T, f *excelize.File, sheet, cell, note string)
		want finding.Code
	}{
		"a word behind a note": {func(t *testing.T, f *excelize.File, sheet, cell, note string) {
			renote(t, f, sheet, cell, note+"\nnot on the long chassis")
		}, finding.CellComment},
		"a word before it": {func(t *testing.T, f *excelize.File, sheet, cell, note string) {
			renote(t, f, sheet, cell, "only until 2012\n"+note)
		}, finding.CellComment},
		"a word in it": {func(t *testing.T, f *excelize.File, sheet, cell, note string) {
			renote(t, f, sheet, cell, note[:30]+" only until 2012 "+note[30:])
		}, finding.CellComment},
		"a note that only begins as ours": {func(t *testing.T, f *excelize.File, sheet, cell, _ string) {
			renote(t, f, sheet, cell, seal.Opens+"\nnot on the long chassis\nferrule mark 000000000000000000000000")
		}, finding.CellComment},
		"a list with a word more": {func(t *testing.T, f *excelize.File, _, _, _ string) {
			require.NoError(t, f.SetCellValue(seal.Sheet, "K7", "done"))
		}, finding.SheetIgnored},
		"a fill of ours without a note": {func(t *testing.T, f *excelize.File, sheet, _, _ string) {
			n, err := f.NewStyle(&excelize.Style{Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{seal.ErrorFill}}})
			require.NoError(t, err)
			require.NoError(t, f.SetCellStyle(sheet, "A5", "A5", n))
		}, finding.CellColour},
	} {
		t.Run(name, func(t *testing.T) {
			to, _ := marked(t, "../../testdata/demo")
			path := to["fitment.xlsx"]
			data, err := os.ReadFile(path)
			require.NoError(t, err)
			f, err := excelize.OpenReader(bytes.NewReader(data))
			require.NoError(t, err)
			sheet, cell, note := someNote(t, f)
			c.edit(t, f, sheet, cell, note)
			require.NoError(t, f.SaveAs(path))
			before, _ := told(compiled(t, "../../testdata/demo", nil).Findings)
			after, _ := told(compiled(t, "../../testdata/demo", to).Findings)
			more := map[string]int{}
			for _, s := range after {
				more[s]++
			}
			for _, s := range before {
				more[s]--
			}
			found := false
			for s, n := range more {
				found = found || n > 0 && len(s) > len(c.want) && s[:len(c.want)] == string(c.want)
			}
			assert.True(t, found, "%v", more)
		})
	}
}

func someNote(t *testing.T, f *excelize.File) (sheet, cell, note string) {
	for _, s := range f.GetSheetList() {
		all, err := f.GetComments(s)
		require.NoError(t, err)
		for _, c := range all {
			text := c.Text
			for _, p := range c.Paragraph {
				text += p.Text
			}
			if _, ok := seal.Read(text); ok {
				return s, c.Cell, text
			}
		}
	}
	require.Fail(t, "there is no note of ours")
	return "", "", ""
}

func renote(t *testing.T, f *excelize.File, sheet, cell, text string) {
	require.NoError(t, f.DeleteComment(sheet, cell))
	require.NoError(t, f.AddComment(sheet, excelize.Comment{Cell: cell, Author: "ferrule", Paragraph: []excelize.RichTextRun{{Text: text}}}))
}

func TestSeal(t *testing.T) {
	text := seal.Opens + "\nERROR x: y"
	m, ok := seal.Read(seal.Note(text, "FFFF00"))
	assert.True(t, ok)
	assert.Equal(t, seal.Mark{Own: "FFFF00"}, m)
	m, ok = seal.Read("theirs\r\n" + seal.Note(text, "") + "\n")
	assert.True(t, ok)
	assert.Equal(t, seal.Mark{Beside: "theirs"}, m)
	for _, forged := range []string{text, text + "\nferrule mark ", "", seal.Note("theirs", ""), seal.Note(text, "") + " more"} {
		_, ok := seal.Read(forged)
		assert.False(t, ok, forged)
	}
}
