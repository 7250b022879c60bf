package sheets_test

import (
	"encoding/binary"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/sheets"
)

func TestSheetList(t *testing.T) {
	book := ordinary().with(parts{
		workbookPart: workbookXML(`<bookViews/><sheets>` +
			`<sheet name="Fitment H7" sheetId="9" r:id="a"/><sheet name="Chart" sheetId="2" r:id="b"/>` +
			`<sheet name="Lists" sheetId="3" state="hidden" r:id="c"/><sheet name="Dialogue" sheetId="4" r:id="d"/>` +
			`<sheet name="Macro" sheetId="5" r:id="e"/><sheet name="Größe &amp; Maß" sheetId="6" state="veryHidden" r:id="f"/>` +
			`<sheet name="a_x005F_x0041_" sheetId="7" state="visible" r:id="g"/></sheets><definedNames/>`),
		workbookRels: rels("a worksheet one.xml", "b chartsheet chart.xml", "c worksheet ../two%20.xml", "d dialogsheet d.xml",
			"e http://schemas.microsoft.com/office/2006/relationships/xlMacrosheet m.xml", "f worksheet /Three.XML",
			"g worksheet deep/four.xml", "h theme theme.xml", "i urn:unknown x.xml"),
		"two .xml":           sheetXML(`<row><c><v>2</v></c></row>`),
		"three.xml":          sheetXML(`<row><c><v>3</v></c></row>`),
		"book/deep/four.xml": sheetXML(``),
		sheetPart:            sheetXML(`<row><c><v>1</v></c></row>`),
		stringsPart:          "", stylesPart: "",
	})
	infos, cells, _, err := readAll(book.zip(t))
	require.NoError(t, err)
	assert.Equal(t, []sheets.Info{
		{Name: "Fitment H7"}, {Name: "Lists", Visibility: sheets.Hidden},
		{Name: "Größe & Maß", Visibility: sheets.VeryHidden}, {Name: "a_x0041_"},
	}, infos)
	for i, want := range []string{"1", "2", "3", ""} {
		assert.Equal(t, want, cells[i][at(t, "A1")].Text)
	}
}

// A strict workbook has other namespaces throughout, and may have prefixes everywhere.
func TestNamespaces(t *testing.T) {
	strict := parts{}
	for name, text := range ordinary() {
		text = strings.ReplaceAll(text, mainSpace, strictSpace)
		strict[name] = strings.ReplaceAll(text, relSpace, strictRel)
	}
	cells, _ := strict.one(t)
	assert.Equal(t, text("Front damper"), cells[at(t, "A1")])

	cells, _ = ordinary().with(parts{
		sheetPart: `<x:worksheet xmlns:x="` + mainSpace + `" xmlns:y="urn:y"><x:sheetData><x:row r="2" y:r="7" y:hidden="1">` +
			`<x:c r="B2" y:r="C9" t="inlineStr"><x:is><x:t>a</x:t></x:is></x:c></x:row></x:sheetData><y:mergeCells><y:z/></y:mergeCells></x:worksheet>`,
	}).one(t)
	assert.Equal(t, sheetCells{at(t, "B2"): text("a")}, cells)
}

func TestWorkbookFaults(t *testing.T) {
	sheet := func(attrs string) string {
		return workbookXML(`<sheets><sheet name="Fitment" r:id="rId1"/><sheet ` + attrs + `/></sheets>`)
	}
	list := func(entries ...string) string { return rels(append([]string{"rId1 worksheet one.xml"}, entries...)...) }
	tests := []struct {
		name    string
		changes parts
		want    string
	}{
		{"two of one name", parts{workbookPart: sheet(`name="FITMENT" r:id="rId1"`)}, `two of its sheets have the name "FITMENT"`},
		{"two of one name, not in ASCII", parts{workbookPart: workbookXML(`<sheets><sheet name="Maß ÄΣ" r:id="rId1"/><sheet name="maß äς" r:id="rId1"/></sheets>`)}, `two of its sheets`},
		{"no name", parts{workbookPart: sheet(`r:id="rId1"`)}, "no name"},
		{"state", parts{workbookPart: sheet(`name="a" state="gone" r:id="rId1"`)}, `state of sheet "a" is "gone"`},
		{"no relation", parts{workbookPart: sheet(`name="a" r:id="rId9"`)}, `nothing says where the cells of sheet "a" are`},
		{"id without namespace", parts{workbookPart: sheet(`name="a" id="rId1"`)}, `nothing says where the cells of sheet "a" are`},
		{"same cells", parts{workbookPart: sheet(`name="a" r:id="rId1"`)}, `sheet "a" has the cells of another sheet`},
		{"unknown kind", parts{workbookPart: sheet(`name="a" r:id="rId2"`)}, `sheet "a" is of a kind`},
		{"sheet missing", parts{sheetPart: ""}, `its part "book/one.xml" is missing`},
		{"texts missing", parts{stringsPart: ""}, `its part "book/texts.xml" is missing`},
		{"styles missing", parts{stylesPart: ""}, `its part "book/look.xml" is missing`},
		{"workbook missing", parts{workbookPart: ""}, `its part "book/main.xml" is missing`},
		{"relations missing", parts{workbookRels: ""}, `its part "book/_rels/main.xml.rels" is missing`},
		{"package's relations missing", parts{"_rels/.rels": ""}, "no workbook"},
		{"outside", parts{workbookRels: strings.Replace(list(), `Target="one.xml"`, `Target="https://example.com/one.xml" TargetMode="External"`, 1)}, `outside of its file, at "https://example.com/one.xml"`},
		{"above the package", parts{workbookRels: rels("rId1 worksheet ../../../one.xml")}, `is missing`},
		{"id twice", parts{workbookRels: list("rId1 worksheet two.xml")}, `relationship "rId1" twice`},
		{"two texts", parts{workbookRels: list("b sharedStrings texts.xml", "c sharedStrings texts.xml")}, `two parts of the kind "sharedStrings"`},
		{"two workbooks", parts{"_rels/.rels": rels("a officeDocument book/main.xml", "b officeDocument book/main.xml")}, "two workbooks"},
		{"relations are something else", parts{workbookRels: `<Relations/>`}, "should list relationships"},
		{"worksheet in no namespace", parts{sheetPart: `<worksheet><sheetData/></worksheet>`}, "should begin with <worksheet>"},
		{"worksheet is a chart", parts{sheetPart: `<chartsheet xmlns="` + mainSpace + `"/>`}, "begins with <chartsheet>"},
		{"no cells", parts{sheetPart: `<worksheet xmlns="` + mainSpace + `"/>`}, "its cells are missing"},
		{"font missing", parts{stylesPart: `<styleSheet xmlns="` + mainSpace + `"><fonts><font/></fonts><cellXfs><xf fontId="1"/></cellXfs></styleSheet>`}, "cell style 0 uses font 1"},
		{"format is no number", parts{stylesPart: `<styleSheet xmlns="` + mainSpace + `"><cellXfs><xf numFmtId="-1"/></cellXfs></styleSheet>`}, `numFmtId of <xf> is "-1"`},
		{"strike is neither", parts{stylesPart: strings.Replace(ordinary()[stylesPart], "<strike/>", `<strike val="x"/>`, 1)}, `val of <strike> is "x"`},
		{"unknown tag among texts", parts{stringsPart: `<sst xmlns="` + mainSpace + `"><t>x</t></sst>`}, "<t> stands inside <sst>"},
		{"loose text among texts", parts{stringsPart: `<sst xmlns="` + mainSpace + `">x</sst>`}, "text stands loose inside <sst>"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, _, _, err := readAll(ordinary().with(tt.changes).zip(t))
			requireFault(t, err, tt.want)
		})
	}
}

func TestRowsOfNoSheet(t *testing.T) {
	data := ordinary().zip(t)
	b, err := sheets.Read(strings.NewReader(string(data)), int64(len(data)))
	require.NoError(t, err)
	for _, i := range []int{-1, 1} {
		assert.Panics(t, func() { b.Rows(i, func(*sheets.Row) error { return nil }) })
	}
}

// inUTF16 encodes text with a byte order mark.
func inUTF16(s string, order binary.AppendByteOrder) string {
	b := order.AppendUint16(nil, 0xfeff)
	for _, u := range utf16.Encode([]rune(s)) {
		b = order.AppendUint16(b, u)
	}
	return string(b)
}

func TestEncodings(t *testing.T) {
	body := sheetXML(`<row><c t="inlineStr"><is><t>Größe 😀</t></is></c></row>`)
	declared := func(encoding string) string { return `<?xml version="1.0" encoding="` + encoding + `"?>` + body }
	good := map[string]string{
		"plain":            body,
		"declared":         declared("UTF-8"),
		"mark":             "\xef\xbb\xbf" + declared("utf-8"),
		"little":           inUTF16(declared("UTF-16"), binary.LittleEndian),
		"big":              inUTF16(declared("utf-16"), binary.BigEndian),
		"wide, undeclared": inUTF16(body, binary.LittleEndian),
	}
	for name, sheet := range good {
		t.Run(name, func(t *testing.T) {
			cells, _ := ordinary().with(parts{sheetPart: sheet}).one(t)
			assert.Equal(t, sheetCells{at(t, "A1"): text("Größe 😀")}, cells)
		})
	}
	ascii := strings.ReplaceAll(declared("US-ASCII"), "Größe 😀", "Size")
	cells, _ := ordinary().with(parts{sheetPart: ascii}).one(t)
	assert.Equal(t, text("Size"), cells[at(t, "A1")])

	wide := inUTF16(body, binary.LittleEndian)
	bad := map[string][2]string{
		"Latin-1":            {strings.ReplaceAll(declared("ISO-8859-1"), "Größe 😀", "Gr\xf6\xdfe"), `encoding "ISO-8859-1"`},
		"windows-1252":       {declared("windows-1252"), `encoding "windows-1252"`},
		"UTF-16, not in it":  {declared("UTF-16"), `encoding "UTF-16"`},
		"UTF-16, said other": {inUTF16(declared("windows-1252"), binary.LittleEndian), `encoding "windows-1252"`},
		"not UTF-8":          {strings.ReplaceAll(body, "Größe", "Gr\xf6\xdfe"), "invalid UTF-8"},
		"half a unit":        {wide[:len(wide)-1], "half a character"},
		"half a pair":        {strings.Replace(wide, "\x3d\xd8", "", 1), "half a character"},
		"half a pair, ends":  {wide[:2] + "\x3d\xd8", "half a character"},
		"two first halves":   {strings.Replace(wide, "\x00\xde", "\x3d\xd8", 1), "half a character"},
		"wide, cut off":      {wide[:len(wide)-4], "not complete and correct XML"},
	}
	for name, tt := range bad {
		t.Run(name, func(t *testing.T) {
			_, _, _, err := readAll(ordinary().with(parts{sheetPart: tt[0]}).zip(t))
			f := requireFault(t, err, tt[1])
			assert.Equal(t, "Fitment", f.Sheet)
		})
	}
}

// XML that is incomplete, or that could do something to its reader.
func TestMarkupFaults(t *testing.T) {
	body := sheetXML(`<row><c t="str"><v>x</v></c></row>`)
	deep := func(n int) string {
		return sheetXML("", "<extLst>"+strings.Repeat("<e>", n)+strings.Repeat("</e>", n)+"</extLst>")
	}
	tests := []struct{ name, xml, want string }{
		{"empty", " ", "it is empty"},
		{"cut off", strings.TrimSuffix(body, "</worksheet>"), "unexpected EOF"},
		{"cells cut off", body[:strings.Index(body, "</sheetData>")], "unexpected EOF"},
		{"closed by another", strings.Replace(body, "</row>", "</c>", 1), "closed by"},
		{"two roots", body + body, "two roots"},
		{"text after the end", body + "x", "text stands outside"},
		{"text before", "x" + body, "text stands outside"},
		{"DOCTYPE", `<!DOCTYPE worksheet [<!ENTITY x "y">]>` + body, "DOCTYPE"},
		{"entity", strings.Replace(body, ">x<", ">&nbsp;<", 1), "invalid character entity &nbsp;"},
		{"entity of a character that is none", strings.Replace(body, ">x<", ">&#0;<", 1), "not complete and correct XML"},
		{"bare ampersand", strings.Replace(body, ">x<", "> & <", 1), "not complete and correct XML"},
		{"control character", strings.Replace(body, ">x<", ">\x01<", 1), "illegal character code"},
		{"attribute twice", strings.Replace(body, "<row>", `<row r="1" r="2">`, 1), "<row> has the attribute r twice"},
		{"attribute without quotes", strings.Replace(body, "<row>", `<row r=1>`, 1), "not complete and correct XML"},
		{"attributes", strings.Replace(body, "<row>", `<row`+manyAttrs(300)+`>`, 1), "more than 256 attributes"},
		{"nested", deep(99), "nested more than 100 deep"},
		{"long comment", strings.Replace(body, "<row>", "<!--"+strings.Repeat("x", 5<<20)+"--><row>", 1), "more than 1 MiB"},
		{"long text", strings.Replace(body, ">x<", ">"+strings.Repeat("x", 5<<20)+"<", 1), "more than 1 MiB"},
		{"long name", strings.Replace(body, "<row>", "<"+strings.Repeat("r", 5<<20)+">", 1), "more than 1 MiB"},
		{"version", `<?xml version="1.1"?>` + body, "version"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, _, _, err := readAll(ordinary().with(parts{sheetPart: tt.xml}).zip(t))
			f := requireFault(t, err, tt.want)
			assert.Equal(t, "Fitment", f.Sheet)
			assert.Equal(t, sheetPart, f.Part)
		})
	}
	_, _, _, err := readAll(ordinary().with(parts{sheetPart: deep(97)}).zip(t))
	require.NoError(t, err)
}

func manyAttrs(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(" a" + strings.Repeat("b", i) + `="1"`)
	}
	return b.String()
}
