package markup

import (
	"fmt"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// tables are characters that XML 1.0 can hold and that programs leave alone.
var tables = []*unicode.RangeTable{unicode.L, unicode.M, unicode.N, unicode.P, unicode.S, unicode.Zs}

func TestDressed(t *testing.T) {
	b := one(t, "-- a.xlsx/_Read me --", "About", "words",
		"-- a.xlsx/Parts --", "#header 2", "Ours", "Part\tLine size\tSummary\tMass [kg]", "HD-1\t1/4 in\tA long sentence that is about the part\t2.5")
	f, pkg := written(t, b, Options{})
	panes, err := f.GetPanes("Parts")
	require.NoError(t, err)
	assert.True(t, panes.Freeze)
	assert.Equal(t, 2, panes.YSplit)
	layout, err := f.GetPageLayout("Parts")
	require.NoError(t, err)
	assert.Equal(t, "landscape", *layout.Orientation)
	assert.Equal(t, [2]int{1, 0}, [2]int{*layout.FitToWidth, *layout.FitToHeight})
	props, err := f.GetSheetProps("Parts")
	require.NoError(t, err)
	assert.True(t, *props.FitToPage)
	assert.Equal(t, "FFB26A00", *props.TabColorRGB)
	names := map[string]string{}
	for _, n := range f.GetDefinedName() {
		names[n.Name+"@"+n.Scope] = n.RefersTo
	}
	assert.Equal(t, "'Parts'!$A:$A,'Parts'!$2:$2", names["_xlnm.Print_Titles@Parts"])
	assert.Contains(t, part(t, pkg, "xl/worksheets/sheet2.xml"), `<autoFilter ref="$A$2:$D$3">`)
	assert.Empty(t, names["_xlnm.Print_Titles@_Read me"])

	format := func(at string) string {
		n, err := f.GetCellStyle("Parts", at)
		require.NoError(t, err)
		s, err := f.GetStyle(n)
		require.NoError(t, err)
		if s.CustomNumFmt == nil {
			return fmt.Sprint(s.NumFmt)
		}
		return *s.CustomNumFmt
	}
	size := func(at string) float64 {
		n, err := f.GetCellStyle("Parts", at)
		require.NoError(t, err)
		s, err := f.GetStyle(n)
		require.NoError(t, err)
		return s.Font.Size
	}
	assert.Greater(t, size("A1"), size("A2"), "what stands above the header is a title")
	assert.Equal(t, size("A3"), size("A2"), "the header is as large as its rows")
	assert.Equal(t, "@", format("B3"), "1/4 typed into a cell of another format becomes a date")
	assert.Equal(t, "@", format("B900"), "also in rows still to come")
	assert.Equal(t, "0", format("C3"))
	assert.Equal(t, "0", format("D3"))
	wide, err := f.GetColWidth("Parts", "C")
	require.NoError(t, err)
	narrow, err := f.GetColWidth("Parts", "D")
	require.NoError(t, err)
	assert.Greater(t, wide, 2*narrow)
}
