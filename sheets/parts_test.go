package sheets_test

import (
	"archive/zip"
	"bytes"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/sheets"
)

const (
	mainSpace   = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	strictSpace = "http://purl.oclc.org/ooxml/spreadsheetml/main"
	relSpace    = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	strictRel   = "http://purl.oclc.org/ooxml/officeDocument/relationships"
	listSpace   = "http://schemas.openxmlformats.org/package/2006/relationships"
)

// Names of the parts that most tests change. None is the usual name of its kind,
// since parts are found by relationships.
const (
	workbookPart = "book/main.xml"
	workbookRels = "book/_rels/main.xml.rels"
	sheetPart    = "book/one.xml"
	stringsPart  = "book/texts.xml"
	stylesPart   = "book/look.xml"
)

// parts is a package by its parts' names.
type parts map[string]string

// rels writes a relationship part; each entry is "id kind target".
func rels(entries ...string) string {
	var b strings.Builder
	b.WriteString(`<Relationships xmlns="` + listSpace + `">`)
	for _, e := range entries {
		f := strings.SplitN(e, " ", 3)
		kind := f[1]
		if !strings.Contains(kind, "/") {
			kind = relSpace + "/" + kind
		}
		b.WriteString(`<Relationship Id="` + f[0] + `" Type="` + kind + `" Target="` + f[2] + `"/>`)
	}
	return b.String() + `</Relationships>`
}

// workbookXML writes a workbook part with what stands inside it.
func workbookXML(inside string) string {
	return `<workbook xmlns="` + mainSpace + `" xmlns:r="` + relSpace + `">` + inside + `</workbook>`
}

// sheetXML writes a sheet with what stands inside sheetData, and after it.
func sheetXML(rows string, after ...string) string {
	return `<worksheet xmlns="` + mainSpace + `"><sheetData>` + rows + `</sheetData>` + strings.Join(after, "") + `</worksheet>`
}

// ordinary is a workbook with one sheet, two shared texts and some styles: 1 a date,
// 2 a date with time, 3 struck through, 4 a fraction, 5 elapsed time, 6 struck number.
func ordinary() parts {
	return parts{
		"[Content_Types].xml": `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>`,
		"_rels/.rels":         rels("rId1 officeDocument " + workbookPart),
		workbookPart:          workbookXML(`<sheets><sheet name="Fitment" sheetId="1" r:id="rId1"/></sheets>`),
		workbookRels:          rels("rId1 worksheet one.xml", "rId2 sharedStrings /"+stringsPart, "rId3 styles look.xml"),
		sheetPart:             sheetXML(`<row r="1"><c r="A1" t="s"><v>1</v></c></row>`),
		stringsPart:           `<sst xmlns="` + mainSpace + `"><si><t>Platform</t></si><si><t>Front damper</t></si></sst>`,
		stylesPart: `<styleSheet xmlns="` + mainSpace + `"><numFmts><numFmt numFmtId="164" formatCode="yyyy\-mm\-dd hh:mm"/></numFmts>` +
			`<fonts><font/><font><strike/></font></fonts><cellStyleXfs><xf numFmtId="14"/></cellStyleXfs>` +
			`<cellXfs><xf/><xf numFmtId="14"/><xf numFmtId="164"/><xf fontId="1"/><xf numFmtId="12"/><xf numFmtId="46"/><xf fontId="1" numFmtId="2"/></cellXfs>` +
			`<dxfs><dxf><font><strike/></font></dxf></dxfs></styleSheet>`,
	}
}

// with gives the package with some parts changed; an empty text takes a part away.
func (p parts) with(changes parts) parts {
	p = maps.Clone(p)
	for name, text := range changes {
		p[name] = text
		if text == "" {
			delete(p, name)
		}
	}
	return p
}

// rows gives the ordinary workbook with other rows.
func rows(inside string, after ...string) parts {
	return ordinary().with(parts{sheetPart: sheetXML(inside, after...)})
}

// zip writes the package, its parts in the order of their names.
func (p parts) zip(t testing.TB) []byte {
	t.Helper()
	return p.pack(t, zip.Deflate)
}

func (p parts) pack(t testing.TB, method uint16) []byte {
	t.Helper()
	var buf bytes.Buffer
	z := zip.NewWriter(&buf)
	for _, name := range slices.Sorted(maps.Keys(p)) {
		w, err := z.CreateHeader(&zip.FileHeader{Name: name, Method: method})
		require.NoError(t, err)
		_, err = w.Write([]byte(p[name]))
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return buf.Bytes()
}

// one reads a workbook that must be good and gives its only sheet.
func (p parts) one(t testing.TB) (sheetCells, *sheets.Trailer) {
	t.Helper()
	_, cells, trailers, err := readAll(p.zip(t))
	require.NoError(t, err)
	require.Len(t, cells, 1)
	return cells[0], trailers[0]
}

// requireFault checks that an error is a fault in good form that matches a pattern.
func requireFault(t testing.TB, err error, pattern string) *sheets.Fault {
	t.Helper()
	require.Error(t, err)
	var f *sheets.Fault
	require.ErrorAs(t, err, &f)
	require.Regexp(t, pattern, f.Why)
	assert.Equal(t, f.Why, f.Error())
	assert.NotContains(t, f.Why, "\n", "one line")
	assert.NotContains(t, f.Why, "%!", "a message that fits its format")
	assert.Contains(t, f.Why, "; ", "says what to do")
	assert.Less(t, len(f.Why), 500, "short")
	first := f.Why[0]
	assert.True(t, first >= 'a' && first <= 'z', "lower case: %s", f.Why)
	return f
}
