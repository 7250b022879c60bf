package compiler_test

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// mergeOver merges ranges, each given as a workbook, a sheet and a range, and leaves
// what stands in them where it is, as some programs do. The library that writes our
// workbooks takes it out, so the ranges are added to the finished file.
func mergeOver(t *testing.T, dir string, fields []string) {
	t.Helper()
	require.Zero(t, len(fields)%3, "merge: a line is not a workbook, a sheet and a range")
	ranges := map[[2]string][]string{}
	for f := range slices.Chunk(fields, 3) {
		at := [2]string{f[0], f[1]}
		ranges[at] = append(ranges[at], f[2])
	}
	for at, refs := range ranges {
		path := filepath.Join(dir, at[0])
		addMerges(t, path, sheetPart(t, path, at[1]), refs)
	}
}

// sheetPart gives the name of a sheet's part in a workbook that we wrote.
func sheetPart(t *testing.T, path, sheet string) string {
	t.Helper()
	book, err := excelize.OpenFile(path)
	require.NoError(t, err)
	defer book.Close()
	i := slices.Index(book.GetSheetList(), sheet)
	require.GreaterOrEqual(t, i, 0, "no sheet %s", sheet)
	return fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1)
}

func addMerges(t *testing.T, path, part string, refs []string) {
	t.Helper()
	in, err := zip.OpenReader(path)
	require.NoError(t, err)
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	done := false
	for _, f := range in.File {
		data := content(t, f)
		if f.Name == part {
			require.NotContains(t, data, "<mergeCells", "%s has merged cells of its own", part)
			var cells strings.Builder
			for _, ref := range refs {
				fmt.Fprintf(&cells, `<mergeCell ref="%s"/>`, ref)
			}
			end := "</sheetData>"
			require.Equal(t, 1, strings.Count(data, end))
			data = strings.Replace(data, end, end+"<mergeCells>"+cells.String()+"</mergeCells>", 1)
			done = true
		}
		entry, err := w.Create(f.Name)
		require.NoError(t, err)
		_, err = io.WriteString(entry, data)
		require.NoError(t, err)
	}
	require.NoError(t, in.Close())
	require.NoError(t, w.Close())
	require.True(t, done, "%s has no part %s", path, part)
	require.NoError(t, os.WriteFile(path, out.Bytes(), 0o644))
}

func content(t *testing.T, f *zip.File) string {
	t.Helper()
	r, err := f.Open()
	require.NoError(t, err)
	defer r.Close()
	data, err := io.ReadAll(r)
	require.NoError(t, err)
	return string(data)
}
