package compiler_test

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/tools/txtar"

	"ferrule/compiler"
	"ferrule/compiler/finding"
)

// The first bytes of a compound file ([MS-CFB] 2.2), which is what a spreadsheet program
// saves where a workbook gets a password, and the name of the stream that then holds the
// workbook ([MS-OFFCRYPTO] 2.3.1). Old binary workbooks are compound files as well.
const compoundFile = "\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1"

func encrypted() []byte {
	name := "E n c r y p t e d P a c k a g e "
	return []byte(compoundFile + strings.Repeat("\x00", 600) + strings.ReplaceAll(name, " ", "\x00"))
}

// faulty is a catalogue with a gap, an unreachable row and a cell that cannot be read.
const faulty = `
-- c.xlsx/Fitment --
Platform	Years	Suspension	Line	Damper	Restrictor
H7		Air		D-1, D-2	
H7	2001	Steel		D-2	
H7			1/4 in		R-14
-- want --
`

func TestUnreadable(t *testing.T) {
	whole := workbook(t)
	for name, c := range map[string]struct {
		data []byte
		says string
	}{
		"cut in the middle":     {whole[:len(whole)/2], "cut off or damaged.*copy or download it again"},
		"its last byte is gone": {whole[:len(whole)-1], "cut off or damaged.*copy or download it again"},
		"no byte":               {nil, "the file is empty"},
		"text":                  {[]byte("Part,Family\nD-1,Damper\n"), "a text file .*save it as .xlsx"},
		"with a password":       {encrypted(), "encrypted with a password"},
		"an old workbook":       {[]byte(compoundFile + strings.Repeat("\x00", 600)), "old binary workbook .*save it as .xlsx"},
		"a byte was changed":    {damaged(whole), "Kits.* is damaged.*copy or download it again"},
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			writeCase(t, dir, txtar.Parse([]byte(faulty)))
			require.NoError(t, os.WriteFile(filepath.Join(dir, "z.xlsx"), c.data, 0o644))
			res, err := compiler.Compile(context.Background(), compiler.Input{Paths: []string{dir}}, compiler.Options{Today: "2027-03-01", Guides: true})
			require.NoError(t, err)
			assert.False(t, res.Whole)
			assert.Nil(t, res.Catalogue)
			assert.Empty(t, res.Guides)
			require.Len(t, res.Read.Files, 2)
			assert.False(t, res.Read.Files[0].Failed)
			assert.True(t, res.Read.Files[1].Failed)
			require.Len(t, res.Findings, 2, "%v", lines(res.Findings))
			assert.Equal(t, "c.xlsx:Fitment!E2", place(res.Findings[0]))
			assert.Equal(t, finding.Code("fitment-malformed"), res.Findings[0].Code)
			got := res.Findings[1]
			assert.Equal(t, finding.WorkbookUnreadable, got.Code)
			assert.Equal(t, finding.Error, got.Severity)
			assert.Equal(t, "z.xlsx", got.Cells[0].Place.Sheet.File)
			assert.Regexp(t, `^z\.xlsx cannot be read whole: .*(`+c.says+`)`, got.Message)
		})
	}
}

// TestReadableBeside holds that the same catalogue beside a whole workbook has the
// findings that a damaged one holds back.
func TestReadableBeside(t *testing.T) {
	dir := t.TempDir()
	writeCase(t, dir, txtar.Parse([]byte(faulty)))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "z.xlsx"), workbook(t), 0o644))
	res, err := compiler.Compile(context.Background(), compiler.Input{Paths: []string{dir}}, compiler.Options{Today: "2027-03-01", Guides: true})
	require.NoError(t, err)
	assert.True(t, res.Whole)
	require.NotNil(t, res.Catalogue)
	assert.Len(t, res.Guides, 1)
	for _, code := range []finding.Code{"coverage-gap", "row-unreachable", "part-unused"} {
		assert.True(t, slices.ContainsFunc(res.Findings, func(f *finding.Finding) bool { return f.Code == code }), "%s is not told", code)
	}
}

// workbook gives the bytes of a workbook with one sheet that adds nothing.
func workbook(t *testing.T) []byte {
	t.Helper()
	dir := t.TempDir()
	writeCase(t, dir, txtar.Parse([]byte("-- z.xlsx/Kits --\nKit\tPart\n-- want --\n")))
	data, err := os.ReadFile(filepath.Join(dir, "z.xlsx"))
	require.NoError(t, err)
	return data
}

// damaged changes a byte in the data of the file's first part.
func damaged(whole []byte) []byte {
	out := slices.Clone(whole)
	// The name's length is at 26 of a local header (APPNOTE 4.3.7), the data follow the
	// name and the extra field.
	at := 30 + int(out[26]) + int(out[27])<<8 + int(out[28]) + int(out[29])<<8
	out[at+10] ^= 0x55
	return out
}

func lines(fs []*finding.Finding) []string {
	var out []string
	for _, f := range fs {
		out = append(out, line(f))
	}
	return out
}

// A schema of one's own that is too large to be one stops the run, and is not read.
func TestSchemaTooLarge(t *testing.T) {
	dir := t.TempDir()
	base, err := txtar.ParseFile("testdata/base.txtar")
	require.NoError(t, err)
	writeCase(t, dir, base)
	rule := `{"description": "` + strings.Repeat("x", 1<<20) + `"}`
	require.NoError(t, os.WriteFile(filepath.Join(dir, "parts.schema.json"), []byte(rule), 0o644))
	_, err = compiler.Compile(t.Context(), compiler.Input{Paths: []string{dir}}, compiler.Options{})
	assert.ErrorContains(t, err, "parts.schema.json cannot be read: it is larger than 1 MB")
}
