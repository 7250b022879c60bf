package markup

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ferrule/sheets/cell"
)

func TestParseCell(t *testing.T) {
	for _, c := range []struct {
		text string
		want Cell
	}{
		{"", Cell{}},
		{"Front damper", Cell{Kind: Text, Text: "Front damper"}},
		{"12", Cell{Kind: Number, Text: "12"}},
		{"-0.5", Cell{Kind: Number, Text: "-0.5"}},
		{"1.50", Cell{Kind: Text, Text: "1.50"}},
		{"007", Cell{Kind: Text, Text: "007"}},
		{"NaN", Cell{Kind: Text, Text: "NaN"}},
		{"Inf", Cell{Kind: Text, Text: "Inf"}},
		{"1e3", Cell{Kind: Text, Text: "1e3"}},
		{"1/2", Cell{Kind: Text, Text: "1/2"}},
		{"2028-06-30", Cell{Kind: Date, Text: "2028-06-30"}},
		{"2028-06-31", Cell{Kind: Text, Text: "2028-06-31"}},
		{"TRUE", Cell{Kind: Bool, Text: "TRUE"}},
		{"true", Cell{Kind: Text, Text: "true"}},
		{"#N/A", Cell{Kind: Error, Text: "#N/A"}},
		{"#12", Cell{Kind: Text, Text: "#12"}},
		{"=A1*2", Cell{Formula: "A1*2"}},
		{"=A1*2 => 8", Cell{Kind: Number, Text: "8", Formula: "A1*2"}},
		{"=NA() => #N/A", Cell{Kind: Error, Text: "#N/A", Formula: "NA()"}},
		{`=A1&"x" => '8`, Cell{Kind: Text, Text: "8", Formula: `A1&"x"`}},
		{"=", Cell{Kind: Text, Text: "="}},
		{"'12", Cell{Kind: Text, Text: "12"}},
		{"''12", Cell{Kind: Text, Text: "'12"}},
		{"'=A1", Cell{Kind: Text, Text: "=A1"}},
		{"'", Cell{}},
		{`one\ntwo\tthree\\`, Cell{Kind: Text, Text: "one\ntwo\tthree\\"}},
	} {
		got, err := parseCell(c.text)
		require.NoError(t, err, c.text)
		assert.Equal(t, c.want, got, c.text)
	}
	for _, bad := range []string{`a\`, `\x`, `=A\`, `'\q`} {
		_, err := parseCell(bad)
		assert.Error(t, err, bad)
	}
}

func TestBooks(t *testing.T) {
	books, err := Books([]byte(strings.Join([]string{
		"a comment",
		"-- want --", "left to the caller",
		"-- b.xlsx/Parts --", "#header 2", "#format B3 d-mmm", "#strike A3", "Our parts", "Part\tLine", "HD-1\t2026-01-02",
		"-- a.xlsm/Kits --", "#hidden", "#merge A2:A3", "#hiderow 3", "#hidecol AA", "Kit", "", "K-1",
		"-- b.xlsx/Kits --",
	}, "\n") + "\n"))
	require.NoError(t, err)
	a1, _ := cell.ParseRange("A2:A3")
	assert.Equal(t, []Book{
		{Name: "b.xlsx", Sheets: []Sheet{
			{Name: "Parts", Header: 2, Rows: [][]Cell{
				{Words("Our parts")},
				{Words("Part"), Words("Line")},
				{{Kind: Text, Text: "HD-1", Struck: true}, {Kind: Date, Text: "2026-01-02", Format: "d-mmm"}},
			}},
			{Name: "Kits", Rows: [][]Cell{nil}},
		}},
		{Name: "a.xlsm", Sheets: []Sheet{{
			Name: "Kits", Visibility: Hidden, Merges: []cell.Range{a1}, HiddenRows: []int32{3}, HiddenCols: []int32{27},
			Rows: [][]Cell{{Words("Kit")}, nil, {Words("K-1")}},
		}}},
	}, books)
}

func TestBooksSaysWhatIsWrong(t *testing.T) {
	for text, want := range map[string]string{
		"-- a.xls/Parts --\nPart\n":                          "not the name of a workbook",
		"-- a.xlsx/Parts --\n-- a.xlsx/parts --\n":           "has this sheet already",
		"-- a.xlsx/Parts --\n#tilt A1\nPart\n":               "no directive #tilt",
		"-- a.xlsx/Parts --\n#merge A0\nPart\n":              "wants a range",
		"-- a.xlsx/Parts --\n#header two\nPart\n":            "number of a row",
		"-- a.xlsx/Parts --\n#hiderow 0\nPart\n":             "number of a row",
		"-- a.xlsx/Parts --\n#hidecol 3\nPart\n":             "letters of a column",
		"-- a.xlsx/Parts --\n#format A1\nPart\n":             "write #format",
		"-- a.xlsx/Parts --\n#strike A1 x\nPart\n":           "write #format",
		"-- a.xlsx/Parts --\n#format B2 0.0\nPart\n":         "has no cell B2",
		"-- a.xlsx/Parts --\n#hidden\nPart\tName\nH\ta\\z\n": `line 3: column B: \z means nothing`,
	} {
		_, err := Books([]byte(text))
		assert.ErrorContains(t, err, want, text)
	}
}

// Whatever text a cell is to hold, the apostrophe and the escapes can say it.
func TestAnyTextCanBeSaid(t *testing.T) {
	escape := strings.NewReplacer(`\`, `\\`, "\n", `\n`, "\t", `\t`)
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String().Draw(t, "text")
		got, err := parseCell("'" + escape.Replace(text))
		require.NoError(t, err)
		assert.Equal(t, Words(text), got)
	})
}

// Serials of ECMA-376, Part 1, 18.17.4.1.
func TestSerial(t *testing.T) {
	for iso, want := range map[string]int{
		"1900-01-01": 1, "1900-02-28": 59, "1900-03-01": 61, "1970-01-01": 25569, "2024-01-01": 45292,
	} {
		got, err := serial(iso)
		require.NoError(t, err)
		assert.Equal(t, want, got, iso)
	}
	for _, bad := range []string{"1899-12-31", "yesterday"} {
		_, err := serial(bad)
		assert.Error(t, err, bad)
	}
}
