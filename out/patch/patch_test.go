package patch

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// changes marks cells of every sheet: some that are there, some that are not, in rows that are not.
func changes(t *testing.T, data []byte, seed uint64) Change {
	book, err := sheets.Read(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	r := rand.New(rand.NewPCG(seed, 1))
	link := &Link{Sheet: book.Sheets()[0].Name, At: cell.Pos{Row: 2, Col: 2}}
	c := Change{Sheet: &Sheet{Name: "Findings", Widths: []float64{12, 40}, Header: 2, Colour: "AA3322", Rows: [][]Text{
		{{Text: "What was found"}},
		{{Text: "Cell", Role: Head}, {Text: "Says", Role: Head}},
		{{Text: "B2", Role: Linked, Link: link}, {Text: "=HYPERLINK(\"x\")&<b>_x0041_\n' \x01", Role: Body, Fill: "F4A6A0"}},
	}}}
	for i := range book.Sheets() {
		seen := map[cell.Pos]bool{}
		for _, at := range []cell.Pos{{Row: 2, Col: 1}, {Row: 6, Col: 2}, {Row: 90, Col: 4}, {Row: int32(r.IntN(25) + 1), Col: int32(r.IntN(8) + 1)}, {Row: int32(r.IntN(25) + 1), Col: int32(r.IntN(8) + 1)}} {
			if !seen[at] {
				seen[at] = true
				c.Cells = append(c.Cells, Cell{Sheet: i, At: at, Fill: []string{"F4A6A0", "FFE699"}[r.IntN(2)],
					Note: func(own string) string { return "said of <" + at.String() + ">\nit was " + own }})
			}
		}
	}
	return c
}

// TestRichWorkbooks marks workbooks that are full of what is not read here, and looks at the copies with
// other eyes than the patcher's own: zip entries, XML elements, and another reader.
func TestRichWorkbooks(t *testing.T) {
	parts, same, kept, packed := 0, 0, int64(0), int64(0)
	for n := range 70 {
		data, has := rich(t, n)
		c := changes(t, data, uint64(n))
		out, err := Apply(data, c)
		require.NoError(t, err, "%d %v", n, has)
		faithful(t, data, out.Bytes, fmt.Sprint(n, has))
		seen(t, data, out.Bytes, c)
		parts, same, kept, packed = parts+out.Parts, same+out.Same, kept+out.Kept, packed+out.Packed
	}
	t.Logf("70 workbooks: %d of %d parts byte for byte (%d %%), %d of %d packed bytes (%d %%)", same, parts, 100*same/parts, kept, packed, 100*kept/packed)
	assert.Greater(t, same, 0)
}

// TestWorkbooksOfTheTree does so with every workbook of the tree that can be read whole.
func TestWorkbooksOfTheTree(t *testing.T) {
	paths, err := filepath.Glob("../../testdata/*/*.xls?")
	require.NoError(t, err)
	copies := 0
	for _, path := range paths {
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		book, err := sheets.Read(bytes.NewReader(data), int64(len(data)))
		if err != nil || len(book.Sheets()) == 0 {
			continue
		}
		out, err := Apply(data, changes(t, data, 3))
		if err != nil {
			require.NotContains(t, err.Error(), "would not have been faithful", path)
			continue
		}
		faithful(t, data, out.Bytes, path)
		copies++
	}
	t.Logf("%d of %d workbooks copied; the others are damaged on purpose", copies, len(paths))
	assert.Greater(t, copies, 10)
}

// faithful holds that untouched entries are the same compressed bytes in the same order, and that no
// element of an edited part is lost.
func faithful(t *testing.T, was, is []byte, what string) {
	a, b := unpacked(t, was), unpacked(t, is)
	require.GreaterOrEqual(t, len(b), len(a), what)
	for i, f := range a {
		require.Equal(t, f.Name, b[i].Name, what)
		old, err := f.OpenRaw()
		require.NoError(t, err)
		now, err := b[i].OpenRaw()
		require.NoError(t, err)
		x, _ := io.ReadAll(old)
		y, _ := io.ReadAll(now)
		if bytes.Equal(x, y) {
			continue
		}
		edited := strings.Contains(f.Name, "worksheets/") || strings.Contains(f.Name, "comments") || strings.Contains(f.Name, "chartsheets/") || strings.HasSuffix(f.Name, ".vml") ||
			strings.HasSuffix(f.Name, ".rels") || slices.Contains([]string{"[Content_Types].xml", "xl/workbook.xml", "xl/styles.xml", "xl/work book.xml"}, f.Name) || !strings.HasPrefix(f.Name, "xl/")
		require.True(t, edited, "%s: %s changed", what, f.Name)
		before, after := tags(t, f), tags(t, b[i])
		for name, n := range before {
			require.GreaterOrEqual(t, after[name], n, "%s: %s: <%s>", what, f.Name, name)
		}
	}
}

func unpacked(t *testing.T, data []byte) []*zip.File {
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		require.ErrorIs(t, err, zip.ErrInsecurePath)
	}
	return z.File
}

// tags counts the elements of a part by name.
func tags(t *testing.T, f *zip.File) map[string]int {
	in, err := f.Open()
	require.NoError(t, err)
	d := xml.NewDecoder(in)
	out := map[string]int{}
	for {
		tok, err := d.Token()
		if err == io.EOF {
			return out
		}
		require.NoError(t, err, f.Name)
		if e, ok := tok.(xml.StartElement); ok {
			out[e.Name.Space+" "+e.Name.Local]++
		}
	}
}

// seen looks at a copy with another reader: values, notes and fills.
func seen(t *testing.T, was, is []byte, c Change) {
	a, err := excelize.OpenReader(bytes.NewReader(was))
	require.NoError(t, err)
	defer a.Close() //nolint:errcheck // it is in memory
	b, err := excelize.OpenReader(bytes.NewReader(is))
	require.NoError(t, err)
	defer b.Close() //nolint:errcheck // it is in memory
	require.Equal(t, append(a.GetSheetList(), "Findings"), b.GetSheetList())
	assert.Equal(t, "Findings", b.GetSheetName(b.GetActiveSheetIndex()))
	for i, name := range []string{sheetA, sheetB} {
		x, err := a.GetRows(name)
		require.NoError(t, err)
		y, err := b.GetRows(name)
		require.NoError(t, err)
		require.Equal(t, trimmed(x), trimmed(y))
		notes := map[string]string{}
		all, err := b.GetComments(name)
		require.NoError(t, err)
		for _, n := range all {
			notes[n.Cell] = n.Text
			for _, p := range n.Paragraph {
				notes[n.Cell] += p.Text
			}
		}
		old, err := a.GetComments(name)
		require.NoError(t, err)
		for _, n := range old {
			for _, p := range n.Paragraph {
				require.Contains(t, notes[n.Cell], p.Text, "what a note said before stays")
			}
		}
		for _, m := range c.Cells {
			if m.Sheet != i {
				continue
			}
			require.Contains(t, notes[m.At.String()], "said of <"+m.At.String()+">")
			n, err := b.GetCellStyle(name, m.At.String())
			require.NoError(t, err)
			style, err := b.GetStyle(n)
			require.NoError(t, err)
			require.Equal(t, []string{m.Fill}, style.Fill.Color)
			o, err := a.GetCellStyle(name, m.At.String())
			require.NoError(t, err)
			before, err := a.GetStyle(o)
			require.NoError(t, err)
			require.Equal(t, before.Font, style.Font)
			require.Equal(t, before.NumFmt, style.NumFmt)
			require.Equal(t, before.Border, style.Border)
		}
	}
	text, err := b.GetCellValue("Findings", "B3")
	require.NoError(t, err)
	assert.Equal(t, "=HYPERLINK(\"x\")&<b>_x0041_\n' <U+0001>", text)
	formula, err := b.GetCellFormula("Findings", "B3")
	require.NoError(t, err)
	assert.Empty(t, formula)
	on, target, err := b.GetCellHyperLink("Findings", "A3")
	require.NoError(t, err)
	assert.True(t, on)
	assert.Equal(t, "'"+a.GetSheetName(0)+"'!B2", target)
}

// trimmed leaves out blank cells and rows at the end: some are there now, with a format and nothing in
// them.
func trimmed(rows [][]string) [][]string {
	for i := range rows {
		for len(rows[i]) > 0 && rows[i][len(rows[i])-1] == "" {
			rows[i] = rows[i][:len(rows[i])-1]
		}
		if len(rows[i]) == 0 {
			rows[i] = nil
		}
	}
	for len(rows) > 0 && rows[len(rows)-1] == nil {
		rows = rows[:len(rows)-1]
	}
	return rows
}
