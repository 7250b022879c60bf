package sheets_test

import (
	"encoding/binary"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// separatedRows reads a text file: its rows as texts by A1 notation, and their widths.
func separatedRows(name, data string) (cells map[string]string, widths []int32, err error) {
	b := sheets.ReadText(strings.NewReader(data), int64(len(data)), name)
	cells = map[string]string{}
	_, err = b.Rows(0, func(r *sheets.Row) error {
		widths = append(widths, r.Width)
		for _, c := range r.Cells {
			if c.Kind != sheets.Text || c.Text == "" {
				panic("a cell of a text file is no text")
			}
			cells[cell.Pos{Row: r.Number, Col: c.Col}.String()] = c.Text
		}
		return nil
	})
	return cells, widths, err
}

func inWide(text string, order binary.AppendByteOrder) string {
	out := order.AppendUint16(nil, 0xfeff)
	for _, u := range utf16.Encode([]rune(text)) {
		out = order.AppendUint16(out, u)
	}
	return string(out)
}

func TestSeparated(t *testing.T) {
	two := map[string]string{"A1": "Part", "B1": "Line size", "A2": "00417", "B2": "1/4"}
	for name, c := range map[string]struct {
		data string
		want map[string]string
	}{
		"commas":                {"Part,Line size\n00417,1/4\n", two},
		"semicolons":            {"Part;Line size\n00417;1/4\n", two},
		"tabs":                  {"Part\tLine size\n00417\t1/4\n", two},
		"ends of one system":    {"Part,Line size\r\n00417,1/4\r\n", two},
		"ends of another":       {"Part,Line size\r00417,1/4\r", two},
		"ends of all":           {"Part,Line size\r00417,1/4\n\r\n\n", two},
		"no end":                {"Part,Line size\n00417,1/4", two},
		"in quotation marks":    {"\"Part\",\"Line size\"\r\n\"00417\",\"1/4\"", two},
		"a mark of UTF-8":       {"\ufeffPart,Line size\n00417,1/4\n", two},
		"UTF-16, low first":     {inWide("Part,Line size\n00417,1/4\n", binary.LittleEndian), two},
		"UTF-16, high first":    {inWide("Part\tLine size\r\n00417\t1/4\r\n", binary.BigEndian), two},
		"declared":              {"sep=;\r\nPart;Line size\r\n00417;1/4\r\n", two},
		"declared in marks":     {"\ufeff\"SEP=,\"\nPart,Line size\n00417,1/4\n", two},
		"declared against many": {"sep=;\na,b;c\nd,e;f\n", map[string]string{"A1": "a,b", "B1": "c", "A2": "d,e", "B2": "f"}},
		"nothing is converted": {"1E5,007,2012-05-01,TRUE,=1+1, x ,12.50\n",
			map[string]string{"A1": "1E5", "B1": "007", "C1": "2012-05-01", "D1": "TRUE", "E1": "=1+1", "F1": " x ", "G1": "12.50"}},
		"other signs in cells":    {"a,b\n\"1;2\",3;4;5\n", map[string]string{"A1": "a", "B1": "b", "A2": "1;2", "B2": "3;4;5"}},
		"signs in marks alone":    {"a,b\n\"1;2\",\"3;4\"\n", map[string]string{"A1": "a", "B1": "b", "A2": "1;2", "B2": "3;4"}},
		"marks and breaks inside": {"a,\"1/2\"\" hose\"\r\n\"two\r\nlines\rmore\n\",b\r\n", map[string]string{"A1": "a", "B1": `1/2" hose`, "A2": "two\nlines\nmore\n", "B2": "b"}},
		"rows of no length":       {"\n\na,b\n\n,c\n", map[string]string{"A3": "a", "B3": "b", "B5": "c"}},
		"blank cells":             {"a,,\"\",d\n,,,\n", map[string]string{"A1": "a", "D1": "d"}},
		"one column":              {"Part\n00417\n", map[string]string{"A1": "Part", "A2": "00417"}},
		"a sign in one row":       {"Part,Name\n00417\n", map[string]string{"A1": "Part", "B1": "Name", "A2": "00417"}},
		"not declared":            {"sep=,;\na,b\n", map[string]string{"A1": "sep=", "B1": ";", "A2": "a", "B2": "b"}},
		"letters beyond a block":  {strings.Repeat("é", 100_001) + "\n", nil},
	} {
		t.Run(name, func(t *testing.T) {
			got, _, err := separatedRows("x.csv", c.data)
			if c.want == nil {
				requireFault(t, err, "cell A1: line 1: the cell holds more than the 32767 characters")
				return
			}
			require.NoError(t, err)
			assert.Equal(t, c.want, got)
		})
	}
}

// A block of the reader may end anywhere.
func TestSeparatedAcrossBlocks(t *testing.T) {
	const row = "\"a\"\"é,\r\n\",b;\u20ac,,𝄞\r\n"
	for shift := range len(row) {
		text := strings.Repeat("x", shift) + ",b,c,d\n" + strings.Repeat(row, 9_000)
		got, widths, err := separatedRows("x.csv", text)
		require.NoError(t, err)
		require.Len(t, widths, 9_001)
		for _, at := range []string{"2", "4000", "9001"} {
			require.Equal(t, []string{"a\"é,\n", "b;\u20ac", "", "𝄞"}, []string{got["A"+at], got["B"+at], got["C"+at], got["D"+at]}, "%d", shift)
		}
		require.Equal(t, int32(4), widths[9_000])
	}
}

func TestSeparatedFaults(t *testing.T) {
	for name, c := range map[string]struct{ data, fault string }{
		"empty":                     {"", "the file is empty"},
		"never closed":              {"a,b\n1,\"2\n3,4\n", `cell B2: line 2: the quotation mark that opens the cell is never closed`},
		"never closed after others": {"a,b\n\"x\ny\",\"2\n3,4\n", `cell B2: line 3: the quotation mark that opens`},
		"mark within":               {"a,b\n1,1/2\" hose\n", `cell B2: line 2: .*1/2" hose; put the cell into quotation marks and double those inside: "1/2"" hose"`},
		"mark behind a blank":       {"a,b\n1, \"2\"\n", `cell B2: line 2: a quotation mark stands within`},
		"text behind a mark":        {"a,b\n1,\"2\"x\n", `cell B2: line 2: behind the quotation mark that ends the cell stands "x"; the cell begins in line 2`},
		"far behind a mark":         {"a,b\n1,\"2\n3,\"x,4\n", `cell B2: line 3: behind .* stands "x"; the cell begins in line 2`},
		"kept from changing":        {"a,b\n=\"00417\",2\n", `cell A2: line 2: .*; write 00417 alone`},
		"two fit":                   {"a,b;c\nd,e;f\n", `may be separated by commas \(2 in each row\) or by semicolons \(2 in each row\).*"sep=," or "sep=;"`},
		"two fit, one row":          {"a,b;c\td\n", `commas .* or by semicolons .* or by tabs .*"sep=," or "sep=;" or "sep=" and a tab`},
		"none fits":                 {"a,b\nc;d\n", `it holds commas and semicolons, and by none`},
		"none fits any more":        {"a,b,c\nd;e,f\n", `it holds commas and semicolons, and by none`},
		"declared otherwise":        {"sep=|\na|b\n", `line 1 says that "\|" separates the cells`},
		"an old encoding":           {"a,b\nGest\xe4nge,1\n", `line 2 of the file has a byte \(E4, behind "Gest"\).*UTF-8`},
		"an old encoding, far down": {strings.Repeat("a,b\r\n", 30_000) + "\xa0", `line 30001 of the file has a byte \(A0`},
		"cut letter":                {"a,b\n\xc3", `line 2 of the file has a byte \(C3`},
		"zero byte":                 {"a,b\nc\x00,d\n", "line 2 of the file holds a zero byte"},
		"UTF-16 without its mark":   {inWide("Part,Name\n", binary.LittleEndian)[2:], "line 1 of the file holds a zero byte"},
		"half a character":          {"\xff\xfea\x00\x00\xd8,\x00", "the file is damaged: .*half a character"},
		"an odd byte":               {"\xff\xfea\x00,", "the file is damaged: .*half a character"},
		"a package":                 {"PK\x03\x04", "workbook or an archive under another name"},
		"an old workbook":           {"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "workbook or an archive under another name"},
		"a web page":                {"\n<html><body>", `a web page \(HTML\) under another name`},
		"a pointer":                 {"version https://git-lfs.github.com/spec/v1\n", "only a pointer of Git LFS"},
		"too many columns":          {strings.Repeat(",", cell.MaxCol) + "\n", "line 1: the row has cells beyond the last column"},
		"too many rows":             {strings.Repeat("\n", cell.MaxRow) + "a\n", "rows beyond the last one"},
	} {
		t.Run(name, func(t *testing.T) {
			_, _, err := separatedRows("x.csv", c.data)
			requireFault(t, err, c.fault)
		})
	}
	_, _, err := separatedRows("x.csv", strings.Repeat("a,", cell.MaxCol-1)+"b\n"+strings.Repeat("\n", cell.MaxRow-2)+"a\n\n\n")
	require.NoError(t, err)
}

// The ending .tsv declares tabs.
func TestSeparatedByTabs(t *testing.T) {
	got, _, err := separatedRows("x.TSV", "a,b\tc\nd,e\tf\n")
	require.NoError(t, err)
	assert.Equal(t, map[string]string{"A1": "a,b", "B1": "c", "A2": "d,e", "B2": "f"}, got)
	got, _, err = separatedRows("x.tsv", "a\nd,e\n")
	require.NoError(t, err)
	assert.Equal(t, map[string]string{"A1": "a", "A2": "d,e"}, got)
	got, _, err = separatedRows("x.tsv", "sep=,\na,b\n")
	require.NoError(t, err)
	assert.Equal(t, map[string]string{"A1": "a", "B1": "b"}, got)
	_, _, err = separatedRows("x.tsv", "a,b\nd,e\n")
	requireFault(t, err, `its name ends in .tsv, and it has no tab; its cells look separated by commas; give it the ending .csv, or a first line "sep=,"`)
}

func TestSeparatedWidth(t *testing.T) {
	_, widths, err := separatedRows("x.csv", "a,b,\n\"c\"\nd,e,,\n\nf,")
	require.NoError(t, err)
	assert.Equal(t, []int32{3, 1, 4, 2}, widths)
}

func TestOpenSeparated(t *testing.T) {
	name := filepath.Join(t.TempDir(), "Fitment H7.front.CSV")
	require.NoError(t, os.WriteFile(name, []byte("a,b\n"), 0o600))
	b, err := sheets.Open(name)
	require.NoError(t, err)
	assert.Equal(t, []sheets.Info{{Name: "Fitment H7.front"}}, b.Sheets())
	assert.True(t, b.Typed())
	assert.False(t, b.Coloured())
	assert.Zero(t, b.SharedTexts())
	trailer, err := b.Rows(0, func(*sheets.Row) error { return nil })
	require.NoError(t, err)
	assert.Equal(t, &sheets.Trailer{}, trailer)
	at, n, err := b.Commented(0, nil)
	require.NoError(t, err)
	assert.Empty(t, at)
	assert.Zero(t, n)
	require.NoError(t, b.Close())
}
