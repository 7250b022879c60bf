package markup

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestLinesOf(t *testing.T) {
	for _, tt := range []struct {
		text  string
		width int
		want  int
	}{
		{"", 9, 1}, {"short", 9, 1}, {"just fits", 9, 1}, {"just fits not", 9, 2}, {"one\ntwo\n", 9, 3},
		{"aaaa bbbb cccc dddd", 9, 2}, {"aaaaa bbbbb ccccc", 9, 3}, {strings.Repeat("x", 20), 9, 3}, {"é é é é é", 9, 1},
	} {
		assert.Equal(t, tt.want, linesOf(tt.text, tt.width), tt.text)
	}
}

// Rows are as high as the lines that they hold, and grow with what is typed later.
func TestRowsAreAsHighAsTheirLines(t *testing.T) {
	long := strings.TrimSpace(strings.Repeat("words that go on ", 12)) // 203 characters in a column of 56
	b := one(t, "-- a.xlsx/_Read me --", "About", strings.TrimSpace(strings.Repeat("sentence ", 25)),
		"-- a.xlsx/Parts --", "#header 2", "Ours", "Part\tExtended length at rest\tSummary", "HD-1\t2\tshort", "HD-2\t2\t"+long)
	f, pkg := written(t, b, Options{})
	height := func(sheet string, row int) float64 {
		h, err := f.GetRowHeight(sheet, row)
		require.NoError(t, err)
		return h
	}
	assert.Equal(t, 20.0, height("Parts", 1))
	assert.Equal(t, 45.0, height("Parts", 2), "the heading breaks twice")
	assert.Equal(t, 15.0, height("Parts", 3))
	assert.Equal(t, 60.0, height("Parts", 4))
	assert.Equal(t, 45.0, height("_Read me", 2))
	xml := part(t, pkg, "xl/worksheets/sheet2.xml")
	assert.Contains(t, xml, `ht="60"`)
	assert.NotContains(t, xml, "customHeight")
	_, pkg = written(t, b, Options{Plain: true})
	assert.NotContains(t, part(t, pkg, "xl/worksheets/sheet2.xml"), "ht=")
}

// A sheet that is too wide to be read on one page takes as few side by side as it must.
func TestPages(t *testing.T) {
	for want, widths := range map[int][]float64{1: {100, 90}, 2: {100, 91, 10}, 3: {100, 91, 100}} {
		assert.Equal(t, want, Pages(widths), "%v", widths)
	}
	assert.Equal(t, 1, Pages(nil))
}
