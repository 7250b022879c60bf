package markup

import (
	"archive/zip"
	"bytes"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"
)

// written writes a book and opens it again with excelize.
func written(t require.TestingT, b *Book, o Options) (*excelize.File, []byte) {
	var buf bytes.Buffer
	require.NoError(t, b.Write(&buf, o))
	f, err := excelize.OpenReader(bytes.NewReader(buf.Bytes()))
	require.NoError(t, err)
	return f, buf.Bytes()
}

func one(t *testing.T, lines ...string) *Book {
	books, err := Books([]byte(strings.Join(lines, "\n") + "\n"))
	require.NoError(t, err)
	require.Len(t, books, 1)
	return &books[0]
}

// part gives one part of a package.
func part(t *testing.T, pkg []byte, name string) string {
	z, err := zip.NewReader(bytes.NewReader(pkg), int64(len(pkg)))
	require.NoError(t, err)
	r, err := z.Open(name)
	require.NoError(t, err)
	defer r.Close()
	text, err := io.ReadAll(r)
	require.NoError(t, err)
	return string(text)
}

func TestWriteCells(t *testing.T) {
	b := one(t, "-- a.xlsx/Parts --",
		"#format C2 d-mmm", "#format D2 00000", "#strike A2", "#merge A4:A5", "#hiderow 3", "#hidecol B",
		"Part\tName\tLine\tNumber\tHidden",
		"HD-1\ttwo\\nlines\t2024-01-02\t417\t2028-06-30",
		"TRUE\t#N/A\t=D2*2\t=D2*2 => 834\t=A2&\"<\" => HD-1<",
		"K-1\t\t=NA() => #REF!\t'12\t0.1",
		"under the merge")
	for _, o := range []Options{{}, {Plain: true}} {
		f, pkg := written(t, b, o)
		for at, want := range map[string]string{
			"A2": "HD-1", "B2": "two\nlines", "C2": "2-Jan", "D2": "00417", "E2": "2028-06-30",
			"A3": "TRUE", "B3": "#N/A", "C3": "", "D3": "834", "E3": "HD-1<",
			"A4": "K-1", "B4": "", "C4": "#REF!", "D4": "12", "E4": "0.1", "A5": "K-1",
		} {
			got, err := f.GetCellValue("Parts", at)
			require.NoError(t, err)
			assert.Equal(t, want, got, at)
		}
		for at, want := range map[string]excelize.CellType{
			"A2": excelize.CellTypeSharedString, "C2": excelize.CellTypeUnset, "A3": excelize.CellTypeBool,
			"B3": excelize.CellTypeError, "C3": excelize.CellTypeFormula, "D3": excelize.CellTypeNumber,
			"C4": excelize.CellTypeError, "D4": excelize.CellTypeSharedString, "E4": excelize.CellTypeUnset,
		} {
			got, err := f.GetCellType("Parts", at)
			require.NoError(t, err)
			assert.Equal(t, want, got, at)
		}
		for at, want := range map[string]string{"C3": "D2*2", "D3": "D2*2", "E3": `A2&"<"`, "C4": "NA()", "B3": ""} {
			got, err := f.GetCellFormula("Parts", at)
			require.NoError(t, err)
			assert.Equal(t, want, got, at)
		}
		raw, err := f.GetCellValue("Parts", "C2", excelize.Options{RawCellValue: true})
		require.NoError(t, err)
		assert.Equal(t, "45293", raw, "2 January 2024; 45292 is the day before (ECMA-376, Part 1, 18.17.4.1)")
		shown, err := f.GetRowVisible("Parts", 3)
		require.NoError(t, err)
		assert.False(t, shown)
		shown, err = f.GetColVisible("Parts", "B")
		require.NoError(t, err)
		assert.False(t, shown)
		style, err := f.GetCellStyle("Parts", "A2")
		require.NoError(t, err)
		look, err := f.GetStyle(style)
		require.NoError(t, err)
		assert.True(t, look.Font.Strike)
		assert.NotContains(t, part(t, pkg, "xl/worksheets/sheet1.xml"), "filterMode")
		assert.NotRegexp(t, `r="A5"[^>]*><v>`, part(t, pkg, "xl/worksheets/sheet1.xml"), "nothing is left under a merge")
	}
}

// Every text comes back as it was, in either style of writing.
func TestWriteKeepsEveryText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// What XML cannot hold is out of reach of any workbook.
		text := rapid.StringOf(rapid.RuneFrom(nil, tables...)).Draw(t, "text")
		b := &Book{Name: "a.xlsx", Sheets: []Sheet{{Name: "Parts", Rows: [][]Cell{{Words("Part")}, {Words(text)}}}}}
		f, _ := written(t, b, Options{Plain: rapid.Bool().Draw(t, "plain")})
		got, err := f.GetCellValue("Parts", "A2")
		require.NoError(t, err)
		assert.Equal(t, text, got)
	})
}

func TestWriteSheets(t *testing.T) {
	b := one(t, "-- a.xlsm/_Notes --", "#hidden", "x", "-- a.xlsm/Parts --", "Part", "-- a.xlsm/Kits --", "#veryhidden", "Kit\tPart")
	f, pkg := written(t, b, Options{Plain: true})
	assert.Equal(t, []string{"_Notes", "Parts", "Kits"}, f.GetSheetList())
	assert.Equal(t, 1, f.GetActiveSheetIndex())
	for sheet, want := range map[string]bool{"_Notes": false, "Parts": true, "Kits": false} {
		got, err := f.GetSheetVisible(sheet)
		require.NoError(t, err)
		assert.Equal(t, want, got, sheet)
	}
	assert.Contains(t, part(t, pkg, "xl/workbook.xml"), `state="veryHidden"`)
	assert.Contains(t, part(t, pkg, "[Content_Types].xml"), "application/vnd.ms-excel.sheet.macroEnabled.main+xml")
	props, err := f.GetDocProps()
	require.NoError(t, err)
	assert.Equal(t, made, props.Created)
	assert.Equal(t, made, props.Modified)
}

func TestWriteSaysWhatCannotBeWritten(t *testing.T) {
	for name, c := range map[string]struct {
		book Book
		want string
	}{
		"no sheet":       {Book{Name: "a.xlsx"}, "needs a sheet"},
		"nothing shown":  {Book{Name: "a.xlsx", Sheets: []Sheet{{Name: "Parts", Visibility: Hidden}}}, "at least one sheet"},
		"sheet's name":   {Book{Name: "a.xlsx", Sheets: []Sheet{{Name: "Parts [1]"}}}, "Parts [1]"},
		"book's name":    {Book{Name: "a.txt", Sheets: []Sheet{{Name: "Parts"}}}, "a.txt"},
		"long text":      {of(Words(strings.Repeat("é", 32768))), "Parts: A1: the text has 32768 characters"},
		"no number":      {of(Cell{Kind: Number, Text: "1.50"}), "A1"},
		"no date":        {of(Cell{Kind: Date, Text: "soon"}), "A1"},
		"no error value": {of(Cell{Kind: Error, Text: "#OOPS"}), "A1"},
	} {
		assert.ErrorContains(t, c.book.Write(io.Discard, Options{}), c.want, name)
	}
}

func of(c Cell) Book {
	return Book{Name: "a.xlsx", Sheets: []Sheet{{Name: "Parts", Rows: [][]Cell{{c}}}}}
}

// A build on another day, or in another order of Go's maps, gives the same bytes.
func TestWriteIsDeterministic(t *testing.T) {
	for _, b := range Starter() {
		for _, o := range []Options{{}, {Plain: true}} {
			var first bytes.Buffer
			require.NoError(t, b.Write(&first, o))
			for range 5 {
				var again bytes.Buffer
				require.NoError(t, b.Write(&again, o))
				require.True(t, bytes.Equal(first.Bytes(), again.Bytes()), b.Name)
			}
		}
	}
}
