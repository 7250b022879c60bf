package compiler_test

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
	"golang.org/x/tools/txtar"

	"ferrule/sheets/cell"
)

// dress gives cells of a case what its files `colour` and `comment` say, a line each, in
// the fields of `merge` and, of a colour, which: `fill FFC000` or `type C00000`.
func dress(t *testing.T, dir string, a *txtar.Archive, down int) {
	t.Helper()
	for _, f := range a.Files {
		if f.Name != "colour" && f.Name != "comment" {
			continue
		}
		for _, line := range strings.Split(strings.TrimSpace(string(f.Data)), "\n") {
			dressCells(t, dir, strings.Fields(line), down)
		}
	}
}

func dressCells(t *testing.T, dir string, fields []string, down int) {
	t.Helper()
	require.Contains(t, []int{3, 5}, len(fields), "a line is a workbook, a sheet, a range and for a colour which")
	path := filepath.Join(dir, fields[0])
	book, err := excelize.OpenFile(path)
	require.NoError(t, err)
	defer book.Close()
	if !strings.Contains(fields[2], ":") {
		fields[2] += ":" + fields[2]
	}
	r, ok := cell.ParseRange(fields[2])
	require.True(t, ok, fields[2])
	r = movedRange(r, down)
	if len(fields) == 3 {
		require.NoError(t, book.AddComment(fields[1], excelize.Comment{Cell: r.From.String(), Author: "A. Person", Text: "not for left-hand drive"}))
	} else {
		style := &excelize.Style{Font: &excelize.Font{Color: fields[4]}}
		if fields[3] == "fill" {
			style = &excelize.Style{Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{fields[4]}}}
		}
		id, err := book.NewStyle(style)
		require.NoError(t, err)
		require.NoError(t, book.SetCellStyle(fields[1], r.From.String(), r.To.String(), id))
	}
	require.NoError(t, book.Save())
}

// isDress tells whether a file of a case is for dress.
func isDress(name string) bool { return slices.Contains([]string{"colour", "comment"}, name) }
