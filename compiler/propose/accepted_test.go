package propose_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/propose"
	"ferrule/out/markup"
	"ferrule/out/proposal"
	"ferrule/sheets"
)

const existing = "../../testdata/existing"

// accept puts a workbook and the proposal for it into a folder, with the drafts accepted as they are,
// and compiles it.
func accept(t *testing.T, file string) (*propose.Proposal, *compiler.Result) {
	t.Helper()
	book, err := sheets.Open(file)
	require.NoError(t, err)
	defer book.Close() //nolint:errcheck // it was only read
	p, err := propose.Look(filepath.Base(file), book, propose.NewNames(nil))
	require.NoError(t, err)
	dir := t.TempDir()
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(dir, filepath.Base(file)), data, 0o644))
	out := proposal.Sheets(p)
	for i := range out {
		if out[i].Name != "_Preview" {
			out[i].Name = strings.TrimPrefix(out[i].Name, "_")
		}
	}
	require.NoError(t, markup.Create(filepath.Join(dir, "layouts.xlsx"), out...))
	r, err := compiler.Compile(t.Context(), compiler.Input{Paths: []string{dir}}, compiler.Options{Today: "2027-03-01", Guides: true})
	require.NoError(t, err)
	return p, r
}

// TestSamplesAreReadAtOnce holds that the first proposal for each sample, with its drafts as they are,
// reads all cells without an error.
func TestSamplesAreReadAtOnce(t *testing.T) {
	files, err := filepath.Glob(existing + "/*.xlsx")
	require.NoError(t, err)
	require.Len(t, files, 3)
	for _, file := range files {
		p, r := accept(t, file)
		require.True(t, r.Whole, file)
		assert.Empty(t, p.Told, file)
		for _, s := range p.Seen {
			assert.Equal(t, s.Filled, s.Claimed, "%s %s", file, s.Sheet)
		}
		for _, f := range r.Findings {
			assert.NotEqual(t, finding.Error, f.Severity, "%s: %s: %s", file, f.Code, f.Message)
			if f.Severity == finding.Warning {
				t.Logf("%s: %s: %s", filepath.Base(file), f.Code, f.Message)
			}
		}
	}
}

// TestShapesAreReadAtOnce is the same for the shapes that leave nothing open.
func TestShapesAreReadAtOnce(t *testing.T) {
	for _, name := range []string{"above", "bare", "grades", "numbered", "restrictions", "sections", "several", "transposed"} {
		text, err := os.ReadFile(filepath.Join("testdata/shapes", name+".txtar"))
		require.NoError(t, err)
		books, err := markup.Books(text)
		require.NoError(t, err)
		dir := t.TempDir()
		require.NoError(t, markup.WriteAll(dir, books, markup.Options{}))
		_, r := accept(t, filepath.Join(dir, books[0].Name))
		for _, f := range r.Findings {
			assert.NotEqual(t, finding.Error, f.Severity, "%s: %s: %s", name, f.Code, f.Message)
		}
	}
}
