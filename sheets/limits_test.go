package sheets_test

import (
	"bytes"
	"fmt"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/tidy/yardstick"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// What spreadsheet programs can keep is read, however it is written. (Their limits are in
// limits.go, with where they come from.)
func TestLimitsOfPrograms(t *testing.T) {
	formats := numbered(65_490, `<xf numFmtId="0" fontId="1" fillId="0" borderId="%d" xfId="0" applyNumberFormat="1"><alignment horizontal="left" wrapText="1"/></xf>`)
	prefixed := strings.NewReplacer("</", "</x:", "<", "<x:", "xmlns=", "xmlns:x=").Replace(
		sheetXML(numbered(120_000, `<row r="%[1]d"><c r="A%[1]d" s="3"><v>%[1]d</v></c><c r="B%[1]d" t="s"><v>1</v></c><c r="C%[1]d" s="2"/></row>`)))
	for name, c := range map[string]struct {
		parts parts
		rows  int
	}{
		"formats": {inStyles(`<fonts><font/><font><strike/></font></fonts><cellXfs>` + formats + `</cellXfs>`).with(
			parts{sheetPart: sheetXML(`<row r="1"><c r="A1" s="65489"><v>1</v></c></row>`)}), 1},
		"columns":        {rows(`<row r="1">` + many(cell.MaxCol, `<c><v>1</v></c>`) + `</row>`), 1},
		"last row":       {rows(`<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>`), 1},
		"all rows":       {rows(numbered(cell.MaxRow, `<row r="%[1]d"><c r="A%[1]d"><v>%[1]d</v></c></row>`)), cell.MaxRow},
		"rows of a look": {rows(numbered(cell.MaxRow-1, `<row r="%d" s="3" customFormat="1" ht="15.75" customHeight="1"/>`) + `<row r="1048576"><c><v>7</v></c></row>`), 1},
		"odd rows":       {rows(numbered(300_000, `<row r='%[1]d'><c r='A%[1]d'><v>%[1]d</v></c></row>`)), 300_000},
		"prefixed":       {ordinary().with(parts{sheetPart: prefixed}), 120_000},
		"texts not shared": {inTexts(numbered(400_000, `<si><t>see the drawing of bracket</t></si>`)).with(
			parts{sheetPart: sheetXML(numbered(400_000, `<row r="%[1]d"><c r="A%[1]d" t="s"><v>%[1]d</v></c></row>`)), stringsPart: `<sst xmlns="` + mainSpace + `">` + many(400_001, `<si><t>see the drawing of the bracket</t></si>`) + `</sst>`}), 400_000},
		"hyperlinks": {rows(`<row r="1"><c r="A1"><v>1</v></c></row>`, `<hyperlinks>`+numbered(65_530, `<hyperlink ref="A%[1]d" r:id="rId%[1]d" xmlns:r="`+relSpace+`"/>`)+`</hyperlinks>`), 1},
		"merges":     {rows(`<row r="1"><c r="A1"><v>1</v></c></row>`, `<mergeCells>`+numbered(300_000, `<mergeCell ref="C%[1]d:F%[1]d"/>`)+`</mergeCells>`), 1},
	} {
		t.Run(name, func(t *testing.T) {
			data := c.parts.packedFast(t)
			b, err := sheets.Read(bytes.NewReader(data), int64(len(data)))
			require.NoError(t, err)
			n := 0
			_, err = b.Rows(0, func(*sheets.Row) error { n++; return nil })
			require.NoError(t, err)
			assert.Equal(t, c.rows, n)
		})
	}
}

// Reading a workbook again costs nothing more, and another sheet's reading is not held
// against it.
func TestReadAgain(t *testing.T) {
	odd := sheetXML(`<row r='1'><c r='A1'><v>1</v></c></row>` + many(500_000, "<row/>") + many(250_000, `<row a=""/>`))
	data := manySheets(2, odd).packedFast(t)
	b, err := sheets.Read(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	for range 5 {
		for i := range b.Sheets() {
			_, err := b.Rows(i, func(*sheets.Row) error { return nil })
			require.NoError(t, err)
		}
	}
}

// A part of comments that many sheets lead to is refused instead of read for each.
func TestCommentsOfManySheets(t *testing.T) {
	book := manySheets(3, sheetXML(`<row r="1"><c><v>1</v></c></row>`))
	for i := range 3 {
		book[fmt.Sprintf("book/_rels/s%d.xml.rels", i)] = rels("rId1 comments notes.xml", "rId2 comments notes.xml")
	}
	book["book/notes.xml"] = `<comments xmlns="` + mainSpace + `"><commentList><comment ref="B2"/></commentList></comments>`
	data := book.zip(t)
	b, err := sheets.Read(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	for range 2 {
		at, n, err := b.Commented(0, nil)
		require.NoError(t, err)
		assert.Equal(t, 1, n)
		assert.Equal(t, []cell.Pos{{Row: 2, Col: 2}}, at)
	}
	_, _, err = b.Commented(1, nil)
	requireFault(t, err, `sheet "S1": it has the comments of another sheet`)
}

// allocated tells how many bytes are allocated in all, freed or not: it stands for the work
// that is done, and is the same on every machine.
func allocated(do func()) uint64 {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	do()
	runtime.ReadMemStats(&after)
	return after.TotalAlloc - before.TotalAlloc
}

// mostWork is what reading any file of less than 5 MB may allocate in all. The parser makes
// about 300 bytes for each tag and needs half a microsecond for it.
const mostWork = 4 << 30

// FuzzRepeated holds that no text, repeated in some part as often as it likes, makes a small
// file large: what is in use at once, and what is done in all, stay bounded.
func FuzzRepeated(f *testing.F) {
	for _, seed := range []struct {
		part        uint8
		head, again string
		count       uint32
	}{
		{0, "", `<row/>`, 90_000}, {0, "", `<row r='1'/>`, 90_000}, {0, `<row r="1">`, `<c><v>1</v></c>`, 20_000},
		{0, "</sheetData><mergeCells>", `<mergeCell ref="A1:B2"/>`, 20_000}, {0, `<row r="1"><c t="inlineStr"><is>`, `<r><t>x</t></r>`, 50_000},
		{0, `</sheetData><x `, `a="" `, 50_000}, {0, "</sheetData>", `<x xmlns:a="b">`, 300}, {0, "", "<!-- -->", 50_000},
		{1, "", `<si/>`, 200_000}, {1, "", `<si />`, 200_000}, {1, "", `<si><t>x</t></si>`, 90_000}, {1, "<si>", `<r><rPr><b/></rPr><t>x</t></r>`, 50_000},
		{2, "<cellXfs>", `<xf/>`, 200_000}, {2, "<fonts>", `<font><color rgb="00000000"/></font>`, 50_000}, {2, "<fills>", `<fill/>`, 90_000},
		{2, "<fills><fill><gradientFill>", `<stop><color/></stop>`, 20_000}, {2, `<numFmts><numFmt numFmtId="164" formatCode="`, `;`, 900_000},
		{3, "<sheets>", `<sheet name="a" r:id=""/>`, 20_000}, {3, "<definedNames>", `<definedName name="a">A</definedName>`, 50_000},
		{4, "", `<Relationship Id="a"/>`, 50_000},
	} {
		f.Add(seed.part, seed.head, seed.again, seed.count)
	}
	names := []string{sheetPart, stringsPart, stylesPart, workbookPart, workbookRels}
	f.Fuzz(func(t *testing.T, part uint8, head, again string, count uint32) {
		const most = 40 << 20 // bytes that a text is repeated to
		if len(again) > 1<<16 || len(head) > 1<<16 {
			return
		}
		count = min(count, most/uint32(max(1, len(again))))
		book := ordinary()
		name := names[int(part)%len(names)]
		at := strings.LastIndex(book[name], "</")
		if name == sheetPart {
			at = strings.Index(book[name], "</sheetData>")
		}
		book[name] = book[name][:at] + head + many(int(count), again) + book[name][at:]
		data := book.packedFast(t)
		if len(data) >= smallFile {
			return
		}
		var work uint64
		peak := yardstick.PeakOf(func() { work = allocated(func() { _ = readThrough(data) }) })
		require.Less(t, peak, float64(mostOfThem))
		require.Less(t, work, uint64(mostWork))
	})
}
