package main

import (
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// floors reads the table of folders in DEVELOPERS.md, from the top down.
func floors(t *testing.T) [][]string {
	t.Helper()
	_, table, ok := strings.Cut(read(t, filepath.Join("..", "..", "DEVELOPERS.md")), "| folder | what lives there |\n| --- | --- |\n")
	require.True(t, ok, "the page has no table of folders")
	table, _, _ = strings.Cut(table, "\n\n")
	var out [][]string
	for line := range strings.SplitSeq(table, "\n") {
		first, _, _ := strings.Cut(strings.TrimPrefix(line, "| "), " | ")
		var row []string
		for _, name := range regexp.MustCompile("`([^`]+)`").FindAllStringSubmatch(first, -1) {
			row = append(row, name[1])
		}
		require.NotEmpty(t, row, line)
		out = append(out, row)
	}
	return out
}

// floorOf gives the row of the innermost folder that a package is in; -1 for none.
func floorOf(rows [][]string, pkg string) int {
	floor, longest := -1, 0
	for i, row := range rows {
		for _, folder := range row {
			if below(pkg, folder) && len(folder) > longest {
				floor, longest = i, len(folder)
			}
		}
	}
	return floor
}

// TestFloors holds that packages import only what the page lists above them, or in their
// own row: no arrow goes back up.
func TestFloors(t *testing.T) {
	rows := floors(t)
	used := map[int]bool{}
	for pkg, names := range allImports(t) {
		floor := floorOf(rows, pkg)
		if !assert.NotEqual(t, -1, floor, "%s is not in the table", pkg) {
			continue
		}
		used[floor] = true
		for _, name := range names {
			assert.LessOrEqual(t, floorOf(rows, name), floor, "%s imports %s, which stands below it", pkg, name)
		}
	}
	for i, row := range rows {
		assert.True(t, used[i], "no package is in %s", strings.Join(row, ", "))
	}
}

func TestFloorOf(t *testing.T) {
	rows := [][]string{{"a/b"}, {"a", "c"}}
	assert.Equal(t, 0, floorOf(rows, "a/b/x"))
	assert.Equal(t, 1, floorOf(rows, "a/x"))
	assert.Equal(t, 1, floorOf(rows, "c"))
	assert.Equal(t, -1, floorOf(rows, "ab"))
}
