package sheets_test

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/klauspost/compress/flate"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/tidy/yardstick"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// attack is a small file that asks for much.
type attack struct {
	parts func() parts // megabytes, made when they are wanted
	fault string       // "" where it is read
}

func many(n int, text string) string { return strings.Repeat(text, n) }

// numbered writes a text once for each number.
func numbered(n int, format string) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, format, i+1)
	}
	return b.String()
}

func inStyles(inside string) parts {
	return ordinary().with(parts{stylesPart: `<styleSheet xmlns="` + mainSpace + `">` + inside + `</styleSheet>`})
}

func inTexts(inside string) parts {
	return ordinary().with(parts{stringsPart: `<sst xmlns="` + mainSpace + `">` + inside + `</sst>`})
}

// attacks are files that took seconds or hundreds of megabytes, or would have.
func attacks() map[string]attack {
	const harm = "as files do that are made to do harm"
	const harmless = ""
	one := `<row r="1"><c r="A1"><v>1</v></c></row>`
	return map[string]attack{
		"texts without text":      {func() parts { return inTexts(many(6_000_000, `<si/>`)) }, "more texts than a file of this size needs"},
		"texts without text, odd": {func() parts { return inTexts(many(5_000_000, `<si />`)) }, harm},
		"texts of one letter":     {func() parts { return inTexts(many(1_500_000, `<si><t>x</t></si>`)) }, "more texts than a file of this size needs"},
		"long texts":              {func() parts { return inTexts(many(1_000, `<si><t>`+many(32_000, "x")+`</t></si>`)) }, "more texts than a file of this size needs"},
		"texts of many runs":      {func() parts { return inTexts(`<si>` + many(1_000_000, `<r><t>x</t></r>`) + `</si>`) }, harm},
		"cell formats":            {func() parts { return inStyles(`<cellXfs>` + many(6_000_000, `<xf/>`) + `</cellXfs>`) }, "more than 261960 cell formats"},
		"fonts":                   {func() parts { return inStyles(`<fonts>` + many(4_000_000, `<font/>`) + `</fonts>`) }, "more than 261960 fonts"},
		"fills":                   {func() parts { return inStyles(`<fills>` + many(4_000_000, `<fill/>`) + `</fills>`) }, "more than 261960 fills"},
		"colours of a gradient": {func() parts {
			return inStyles(`<fills><fill><gradientFill>` + many(200_000, `<stop><color rgb="FF00FF00"/></stop>`) + `</gradientFill></fill></fills>`)
		}, "a fill in it has more than 100 colours"},
		"number formats": {func() parts {
			return inStyles(`<numFmts>` + numbered(600_000, `<numFmt numFmtId="%d"/>`) + `</numFmts>`)
		}, "more than 261960 number formats"},
		"sections of a number format": {func() parts {
			return inStyles(`<numFmts><numFmt numFmtId="164" formatCode="` + many(900_000, ";") + `"/></numFmts><cellXfs><xf numFmtId="164"/></cellXfs>`)
		}, "a number format in it is longer than 4096 characters"},
		"attributes":                {func() parts { return rows(`<row r="1"><c` + many(180_000, ` a=""`) + `/></row>`) }, "more than 256 attributes"},
		"tags with many attributes": {func() parts { return rows(many(20_000, `<row`+numbered(250, ` a%d=""`)+`/>`)) }, harmless},
		"long names in one another": {func() parts { return inStyles(many(16, "<"+many(900_000, "x")+">")) }, "a tag in it has a name of more than 1024 bytes"},
		"namespaces in one another": {func() parts { return rows(one, many(90, `<x `+numbered(90, `xmlns:a%d="x" `)+`>`)) }, "more than 256 namespaces at one place"},
		"what may be ignored": {func() parts {
			return rows(one, `<x xmlns:mc="`+compatSpace+`" mc:Ignorable="`+many(250_000, "a ")+`">`+many(250_000, `<y:y xmlns:y="z"/>`)+`</x>`)
		}, harmless},
		"columns": {func() parts {
			return rows(one).with(parts{sheetPart: strings.Replace(sheetXML(one), "<sheetData>", `<cols>`+many(1_000_000, `<col min="1" max="1" hidden="1"/>`)+`</cols><sheetData>`, 1)})
		}, "more than 16384 times that columns are hidden"},
		"tags that are left out":  {func() parts { return rows(one, many(6_000_000, `<x/>`)) }, harm},
		"empty rows":              {func() parts { return rows(numbered(700_000, `<row r="%d"/>`)) }, harmless},
		"empty rows, odd":         {func() parts { return rows(numbered(700_000, `<row r='%d'/>`)) }, harmless},
		"odd rows between others": {func() parts { return rows(numbered(500_000, `<row/><row a='%d'/>`)) }, harmless},
		"tall merges":             {func() parts { return rows(one, `<mergeCells>`+tallMerges()+`</mergeCells>`) }, harmless},
		"wide merges": {func() parts {
			return rows(one, `<mergeCells>`+numbered(400_000, `<mergeCell ref="A%[1]d:XFD%[1]d"/>`)+`</mergeCells>`)
		}, harmless},
		"merges over one another": {func() parts {
			return rows(one, `<mergeCells>`+many(400_000, `<mergeCell ref="A1:XFD1"/>`)+`</mergeCells>`)
		}, "lie over each other"},
		"relationships": {func() parts {
			return ordinary().with(parts{workbookRels: strings.Replace(ordinary()[workbookRels], "</R", numbered(300_000, `<Relationship Id="x%d"/>`)+"</R", 1)})
		}, "leads to more than 100000 places"},
		"names": {func() parts {
			return ordinary().with(parts{workbookPart: workbookXML(`<sheets><sheet name="Fitment" sheetId="1" r:id="rId1"/></sheets><definedNames>` + many(1_000_000, `<definedName name="a">A1</definedName>`) + `</definedNames>`)})
		}, harm},
		"sheets": {func() parts {
			return ordinary().with(parts{workbookPart: workbookXML(`<sheets>` + numbered(300_000, `<sheet name="%d" sheetId="1" r:id=""/>`) + `</sheets>`)})
		}, "lists more than 20000 sheets"},
		"dimension": {func() parts {
			return rows(one).with(parts{sheetPart: strings.Replace(sheetXML(one), "<sheetData>", `<dimension ref="A1:XFD1048576"/><sheetData>`, 1)})
		}, harmless},
		"rows of all columns": {func() parts { return rows(numbered(120, `<row r="%d">`+many(cell.MaxCol, `<c><v>1</v></c>`)+`</row>`)) }, harmless},
		"hyperlinks":          {func() parts { return rows(one, `<hyperlinks>`+many(2_000_000, `<hyperlink/>`)+`</hyperlinks>`) }, harm},
		"many sheets":         {func() parts { return manySheets(40, sheetXML(many(1_000_000, `<row/>`))) }, "in files that are made to do harm"},
	}
}

// tallMerges covers all columns from the top, one merge each, and has one in each row below.
func tallMerges() string {
	var b strings.Builder
	for col := int32(2); col <= cell.MaxCol; col++ {
		fmt.Fprintf(&b, `<mergeCell ref="%[1]s1:%[1]s%d"/>`, cell.Column(col), cell.MaxRow)
	}
	for row := 1; row < 400_000; row += 2 {
		fmt.Fprintf(&b, `<mergeCell ref="A%d:A%d"/>`, row, row+1)
	}
	return b.String()
}

// manySheets is a workbook of n equal sheets.
func manySheets(n int, sheet string) parts {
	out := ordinary()
	var list strings.Builder
	leads := []string{"rId2 sharedStrings /" + stringsPart, "rId3 styles look.xml"}
	for i := range n {
		fmt.Fprintf(&list, `<sheet name="S%d" sheetId="%d" r:id="s%d"/>`, i, i+1, i)
		leads = append(leads, fmt.Sprintf("s%d worksheet s%d.xml", i, i))
		out[fmt.Sprintf("book/s%d.xml", i)] = sheet
	}
	out[workbookPart], out[workbookRels] = workbookXML(`<sheets>`+list.String()+`</sheets>`), rels(leads...)
	return out
}

// packedFast is zip for parts of many megabytes.
func (p parts) packedFast(t testing.TB) []byte {
	t.Helper()
	var buf bytes.Buffer
	z := zip.NewWriter(&buf)
	z.RegisterCompressor(zip.Deflate, func(w io.Writer) (io.WriteCloser, error) { return flate.NewWriter(w, 5) })
	for _, name := range slices.Sorted(maps.Keys(p)) {
		w, err := z.Create(name)
		require.NoError(t, err)
		_, err = io.WriteString(w, p[name])
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return buf.Bytes()
}

// readThrough reads all that a workbook has and keeps nothing.
func readThrough(data []byte) error {
	b, err := sheets.Read(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return err
	}
	for i := range b.Sheets() {
		if _, err := b.Rows(i, func(*sheets.Row) error { return nil }); err != nil {
			return err
		}
		if _, _, err := b.Commented(i, nil); err != nil {
			return err
		}
	}
	return nil
}

// What a file of less than 5 MB may take: bytes of memory.
const (
	smallFile  = 5 << 20
	mostOfThem = 200 << 20
)

// Small files that ask for much are refused, or read in bounded memory.
func TestAttacks(t *testing.T) {
	for name, a := range attacks() {
		t.Run(name, func(t *testing.T) {
			data := a.parts().packedFast(t)
			require.Less(t, len(data), smallFile)
			var err error
			var work uint64
			peak := yardstick.PeakOf(func() { work = allocated(func() { err = readThrough(data) }) })
			assert.Less(t, peak, float64(mostOfThem))
			assert.Less(t, work, uint64(mostWork))
			if a.fault == "" {
				require.NoError(t, err)
				return
			}
			requireFault(t, err, a.fault)
		})
	}
}

// BenchmarkAttacks tells the size, the memory and the time of each.
func BenchmarkAttacks(b *testing.B) {
	all := attacks()
	for _, name := range slices.Sorted(maps.Keys(all)) {
		b.Run(name, func(b *testing.B) {
			data := all[name].parts().packedFast(b)
			b.ReportMetric(float64(len(data))/1000, "kB")
			peak := 0.0
			var least cost
			for b.Loop() {
				least.least(costOf(func() { peak = max(peak, yardstick.PeakOf(func() { _ = readThrough(data) })) }))
			}
			b.ReportMetric(peak/(1<<20), "peak-MiB")
			b.ReportMetric(least.cpu.Seconds(), "cpu-s")
		})
	}
}
