package cell_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ferrule/sheets/cell"
)

func TestColumn(t *testing.T) {
	for col, want := range map[int32]string{1: "A", 26: "Z", 27: "AA", 28: "AB", 52: "AZ", 702: "ZZ", 703: "AAA", cell.MaxCol: "XFD", 0: "?", -3: "?"} {
		assert.Equal(t, want, cell.Column(col))
	}
}

// Every column's letters are read back, and they ascend by length, then alphabet.
func TestColumnsAll(t *testing.T) {
	last := ""
	for col := int32(1); col <= cell.MaxCol; col++ {
		name := cell.Column(col)
		p, ok := cell.Parse(name + "1")
		require.True(t, ok, name)
		require.Equal(t, cell.Pos{Row: 1, Col: col}, p)
		require.True(t, len(last) < len(name) || len(last) == len(name) && last < name, "%s after %s", name, last)
		last = name
	}
}

func TestParse(t *testing.T) {
	for a1, want := range map[string]cell.Pos{
		"A1": {Row: 1, Col: 1}, "B12": {Row: 12, Col: 2}, "XFD1048576": {Row: cell.MaxRow, Col: cell.MaxCol},
	} {
		p, ok := cell.Parse(a1)
		assert.True(t, ok, a1)
		assert.Equal(t, want, p)
		assert.Equal(t, a1, p.String())
	}
	for _, bad := range []string{
		"", "A", "1", "A0", "A01", "a1", "$A$1", "A1 ", " A1", "A-1", "A1:B2", "Ä1", "1A", "A1B",
		"XFE1", "AAAA1", "A1048577", "A99999999999999999999", strings.Repeat("Z", 1000) + "1",
	} {
		p, ok := cell.Parse(bad)
		assert.False(t, ok, bad)
		assert.Equal(t, cell.Pos{}, p)
	}
}

func TestParseRange(t *testing.T) {
	want := cell.Range{From: cell.Pos{Row: 1, Col: 1}, To: cell.Pos{Row: 3, Col: 2}}
	for _, s := range []string{"A1:B3", "B3:A1", "A3:B1", "B1:A3"} {
		r, ok := cell.ParseRange(s)
		assert.True(t, ok, s)
		assert.Equal(t, want, r, s)
	}
	assert.Equal(t, "A1:B3", want.String())
	r, ok := cell.ParseRange("C7")
	assert.True(t, ok)
	assert.Equal(t, cell.Range{From: cell.Pos{Row: 7, Col: 3}, To: cell.Pos{Row: 7, Col: 3}}, r)
	for _, bad := range []string{"", ":", "A1:", ":A1", "A1:B2:C3", "A:B", "1:2", "A1:XFE1", "A1;B2"} {
		_, ok := cell.ParseRange(bad)
		assert.False(t, ok, bad)
	}
}

func TestContains(t *testing.T) {
	r, _ := cell.ParseRange("B2:C4")
	in := 0
	for row := int32(1); row <= 6; row++ {
		for col := int32(1); col <= 5; col++ {
			if r.Contains(cell.Pos{Row: row, Col: col}) {
				in++
			}
		}
	}
	assert.Equal(t, 6, in)
	assert.True(t, r.Contains(r.From) && r.Contains(r.To))
	assert.False(t, r.Contains(cell.Pos{Row: 5, Col: 3}))
}

func TestPlaces(t *testing.T) {
	first := &cell.Sheet{File: "a.xlsx", Name: "Parts", Order: 2}
	again := &cell.Sheet{File: "a.xlsx", Name: "Fitment H7", Order: 3}
	other := &cell.Sheet{File: "b.xlsx", Name: "Fitment", Order: 1}
	sorted := []cell.Place{
		{},
		{Pos: cell.Pos{Row: 1, Col: 1}},
		{Sheet: first},
		{Sheet: first, Pos: cell.Pos{Row: 1, Col: 2}},
		{Sheet: first, Pos: cell.Pos{Row: 2, Col: 1}},
		{Sheet: again, Pos: cell.Pos{Row: 14, Col: 6}},
		{Sheet: other},
	}
	for i, a := range sorted {
		for j, b := range sorted {
			assert.Equal(t, i < j, cell.Compare(a, b) < 0, "%v and %v", a, b)
			assert.Equal(t, i == j, cell.Compare(a, b) == 0, "%v and %v", a, b)
		}
	}
	var told []string
	for _, p := range sorted {
		told = append(told, p.String())
	}
	assert.Equal(t, []string{"", "", "a.xlsx:Parts", "a.xlsx:Parts!B1", "a.xlsx:Parts!A2", "a.xlsx:Fitment H7!F14", "b.xlsx:Fitment"}, told)
	assert.Equal(t, "b.xlsx", cell.Place{Sheet: &cell.Sheet{File: "b.xlsx"}}.String())
	assert.Equal(t, "a.xlsx:Parts!C3", sorted[2].At(cell.Pos{Row: 3, Col: 3}).String())
}

func TestComparePos(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pos := rapid.Custom(func(t *rapid.T) cell.Pos {
			return cell.Pos{Row: rapid.Int32Range(1, 4).Draw(t, "row"), Col: rapid.Int32Range(1, 4).Draw(t, "col")}
		})
		all := rapid.SliceOf(pos).Draw(t, "all")
		slices.SortFunc(all, cell.ComparePos)
		for i := 1; i < len(all); i++ {
			a, b := all[i-1], all[i]
			if a.Row > b.Row || a.Row == b.Row && a.Col > b.Col {
				t.Fatalf("%v before %v", a, b)
			}
		}
	})
}

// What Parse takes is a cell of a sheet and is written the same way again.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"A1", "XFD1048576", "XFE1", "A0", "a1", "", "ZZZ999", "A1:B2"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if p, ok := cell.Parse(s); ok {
			require.Equal(t, s, p.String())
			require.True(t, p.Row >= 1 && p.Row <= cell.MaxRow && p.Col >= 1 && p.Col <= cell.MaxCol, s)
		}
		if r, ok := cell.ParseRange(s); ok {
			require.True(t, r.Contains(r.From) && r.Contains(r.To), s)
			again, ok := cell.ParseRange(r.String())
			require.True(t, ok)
			require.Equal(t, r, again)
		}
	})
}
