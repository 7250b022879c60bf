package guide_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/tools/txtar"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/tidy"
	"ferrule/out/workbook"
)

// lineSample compiles a catalogue with serial numbers, dates and vehicles that Breaks rule out.
func lineSample(t *testing.T) *sample {
	t.Helper()
	archive, err := txtar.ParseFile("testdata/line/stork.txtar")
	require.NoError(t, err)
	var sheets []tidy.Sheet
	for _, f := range archive.Files {
		s := tidy.Sheet{Name: f.Name}
		for _, row := range strings.Split(strings.TrimSuffix(string(f.Data), "\n"), "\n") {
			s.Rows = append(s.Rows, strings.Split(row, "\t"))
		}
		sheets = append(sheets, s)
	}
	out := compiled(t, sheets)
	for _, f := range out.findings {
		require.Equal(t, finding.AcceptedUnused, f.Code, f.Message) // the row is there for where it cuts
	}
	return out
}

// compiled compiles a catalogue of texts with its guides.
func compiled(t *testing.T, sheets []tidy.Sheet) *sample {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, workbook.Write(dir, sheets))
	res, err := compiler.Compile(context.Background(), compiler.Input{Paths: []string{dir}},
		compiler.Options{Today: "2027-03-01", Guides: true})
	require.NoError(t, err)
	require.True(t, res.Whole)
	return &sample{Cat: res.Catalogue, Guides: opened(res), pictures: res.Pictures, findings: res.Findings}
}
