package compiler_test

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
	"golang.org/x/tools/txtar"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/out/markup"
	"ferrule/out/site"
)

// TestTwins holds that a workbook in a shape that people already have, with a Layouts sheet
// beside it, publishes the same as its twin in the native shape.
//
// A twin is a txtar archive. Files below `native/` and `laid/` are sheets that stand in place of
// those of the base, or beside them; a sheet of the base without a line is left out. A file
// `laid/merge` has a line for each range that is merged, `laid/bold` for each range in bold type.
func TestTwins(t *testing.T) {
	files, err := filepath.Glob("testdata/twins/*.txtar")
	require.NoError(t, err)
	n := 0
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".txtar")
		if name == "base" {
			continue
		}
		n++
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			a, err := txtar.ParseFile(file)
			require.NoError(t, err)
			native := twin(t, a, "native/")
			laid := twin(t, a, "laid/")
			for _, f := range laid.Findings {
				assert.NotContains(t, layoutCodes, f.Code, line(f))
			}
			if !assert.Equal(t, counts(native), counts(laid), "the findings of both, by code") {
				for _, f := range laid.Findings {
					t.Log(line(f))
				}
			}
			want, got := public(t, native), public(t, laid)
			require.NotEmpty(t, want)
			assert.Equal(t, want, got)
		})
	}
	assert.GreaterOrEqual(t, n, 12)
}

// layoutCodes are what no twin is told.
var layoutCodes = []finding.Code{finding.LayoutMalformed, finding.LayoutConflict, finding.LayoutUnmatched, finding.LayoutIdle,
	finding.CellUnclaimed, finding.MarkUndeclared, finding.MarksSeveral, finding.SheetIgnored}

func twin(t *testing.T, a *txtar.Archive, side string) *compiler.Result {
	t.Helper()
	dir := t.TempDir()
	base, err := txtar.ParseFile("testdata/twins/base.txtar")
	require.NoError(t, err)
	files := map[string][]byte{}
	var order []string
	for _, f := range append(base.Files, a.Files...) {
		name := strings.TrimPrefix(f.Name, side)
		if strings.HasPrefix(name, "native/") || strings.HasPrefix(name, "laid/") {
			continue
		}
		if _, ok := files[name]; !ok {
			order = append(order, name)
		}
		files[name] = f.Data
	}
	sheets := &txtar.Archive{}
	for _, name := range order {
		if strings.Contains(name, "/") && len(strings.TrimSpace(string(files[name]))) > 0 {
			sheets.Files = append(sheets.Files, txtar.File{Name: name, Data: files[name]})
		}
	}
	books, err := markup.Books(txtar.Format(sheets))
	require.NoError(t, err)
	require.NoError(t, markup.WriteAll(dir, books, markup.Options{Plain: true}))
	if merge := files["merge"]; merge != nil {
		mergeOver(t, dir, strings.Fields(string(merge)))
	}
	for _, line := range strings.Split(strings.TrimSpace(string(files["bold"])), "\n") {
		if line != "" {
			embolden(t, dir, strings.Split(line, "\t"))
		}
	}
	res, err := compiler.Compile(context.Background(), compiler.Input{Paths: []string{dir}}, compiler.Options{Today: "2027-03-01", Guides: true})
	require.NoError(t, err)
	require.True(t, res.Whole, "%v", res.Findings)
	return res
}

// embolden makes cells of a sheet bold; fields are a workbook, a sheet and a cell.
func embolden(t *testing.T, dir string, fields []string) {
	t.Helper()
	require.Len(t, fields, 3)
	path := filepath.Join(dir, fields[0])
	book, err := excelize.OpenFile(path)
	require.NoError(t, err)
	defer book.Close()
	id, err := book.NewStyle(&excelize.Style{Font: &excelize.Font{Bold: true}})
	require.NoError(t, err)
	require.NoError(t, book.SetCellStyle(fields[1], fields[2], fields[2], id))
	require.NoError(t, book.Save())
}

// counts gives how many findings there are of each code that is about vehicles or names.
func counts(r *compiler.Result) map[finding.Code]int {
	out := map[finding.Code]int{}
	for _, f := range r.Findings {
		if f.Severity != finding.Note && f.Code != finding.RowUnreachable {
			out[f.Code]++
		}
	}
	return out
}

// public gives the JSON that is published, by file.
func public(t *testing.T, r *compiler.Result) map[string]string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "out")
	_, err := site.Publish(context.Background(), dir, nil, r, site.Options{})
	require.NoError(t, err)
	out := map[string]string{}
	root := filepath.Join(dir, "public")
	require.NoError(t, filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || filepath.Ext(path) != ".json" {
			return err
		}
		data, err := os.ReadFile(path)
		name, _ := filepath.Rel(root, path)
		out[name] = string(data)
		return err
	}))
	return out
}
