package sheets_test

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// checkRead reads a workbook that can be anything: it never panics, fails with a
// fault only, and what it gives out keeps the promises of Row and Value.
func checkRead(t *testing.T, data []byte) {
	b, err := sheets.Read(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		requireFault(t, err, "")
		return
	}
	for i := range b.Sheets() {
		var last int32
		trailer, err := b.Rows(i, func(r *sheets.Row) error {
			require.Greater(t, r.Number, last)
			require.LessOrEqual(t, r.Number, int32(cell.MaxRow))
			last = r.Number
			checkCells(t, r.Cells)
			return nil
		})
		if err != nil {
			requireFault(t, err, "")
			continue
		}
		for i, one := range trailer.Merges {
			require.True(t, one.Contains(one.From) && one.From != one.To)
			for _, other := range trailer.Merges[:min(i, 50)] {
				require.False(t, one.Contains(other.From) || other.Contains(one.From), "%v and %v", one, other)
			}
		}
	}
}

func checkCells(t *testing.T, cells []sheets.Cell) {
	require.NotEmpty(t, cells)
	var last int32
	for _, c := range cells {
		require.Greater(t, c.Col, last)
		require.LessOrEqual(t, c.Col, int32(cell.MaxCol))
		last = c.Col
		require.False(t, math.IsNaN(c.Number) || math.IsInf(c.Number, 0))
		require.True(t, c.Text != "" || c.Formula != "", "%+v says nothing", c)
		require.True(t, c.Format == "" || c.Kind == sheets.Number || c.Kind == sheets.Date)
		require.Equal(t, c.Kind == sheets.Blank, c.Text == "" && c.Kind != sheets.Text)
	}
}

// FuzzRead reads anything as a workbook.
func FuzzRead(f *testing.F) {
	f.Add([]byte(nil))
	f.Add([]byte("PK\x05\x06"))
	f.Add([]byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"))
	f.Add([]byte("Platform;Years\n"))
	f.Add(ordinary().zip(f))
	f.Add(rows(`<row r="2" hidden="1"><c r="B2" s="2"><f>A1</f><v>45293.5</v></c><c t="e"><v>#N/A</v></c></row>`,
		`<mergeCells><mergeCell ref="A1:B2"/></mergeCells>`).zip(f))
	f.Fuzz(checkRead)
}

// FuzzSheet reads any XML as the parts of a sound package, which changed bytes of a
// package hardly ever reach because of its checksums.
func FuzzSheet(f *testing.F) {
	book := ordinary()
	for _, sheet := range []string{
		book[sheetPart],
		sheetXML(`<row><c t="str"><v>_x000D_</v></c><c s="1"><v>45293</v></c><c t="b"><v>1</v></c></row><row/><row r="9"/>`),
		sheetXML(`<row r="3"><c r="C3" t="inlineStr"><is><r><rPr><strike/></rPr><t>a</t></r><rPh/></is></c></row>`),
		sheetXML(`<row><c t="d"><v>2024-01-02T10:00:00</v></c><c><f t="shared" si="0"/></c></row>`,
			`<autoFilter><filterColumn><filters/></filterColumn></autoFilter><mergeCells><mergeCell ref="A1:B2"/><mergeCell ref="A3:C3"/></mergeCells>`),
		inUTF16(book[sheetPart], binary.LittleEndian),
	} {
		f.Add(sheet, book[stringsPart], book[stylesPart], book[workbookPart])
	}
	f.Fuzz(func(t *testing.T, sheet, texts, styles, workbook string) {
		changed := ordinary()
		changed[sheetPart], changed[stringsPart], changed[stylesPart], changed[workbookPart] = sheet, texts, styles, workbook
		checkRead(t, changed.pack(t, zip.Store))
	})
}
