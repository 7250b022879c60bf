package patch

import (
	"archive/zip"
	"bytes"
	"io"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/sheets"
	"ferrule/sheets/cell"
)

const (
	main14   = `http://schemas.openxmlformats.org/spreadsheetml/2006/main`
	docRel   = `http://schemas.openxmlformats.org/officeDocument/2006/relationships`
	typeBase = `application/vnd.openxmlformats-officedocument.spreadsheetml.`
)

// byHand is a workbook of one sheet, as its parts; those given take the place of the usual ones, and
// "" takes one away.
func byHand(t *testing.T, parts map[string]string) []byte {
	all := map[string]string{
		typesPart: `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/>` +
			`<Override PartName="/xl/workbook.xml" ContentType="` + typeBase + `sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="` + typeBase + `worksheet+xml"/></Types>`,
		"_rels/.rels":                `<Relationships xmlns="` + spacePackage + `"><Relationship Id="rId1" Type="` + docRel + `/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
		"xl/workbook.xml":            `<workbook xmlns="` + main14 + `" xmlns:r="` + docRel + `"><sheets><sheet name="One" sheetId="4" r:id="rId1"/></sheets></workbook>`,
		"xl/_rels/workbook.xml.rels": `<Relationships xmlns="` + spacePackage + `"><Relationship Id="rId1" Type="` + docRel + `/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="` + docRel + `/styles" Target="styles.xml"/></Relationships>`,
		"xl/styles.xml":              `<styleSheet xmlns="` + main14 + `"><fonts count="1"><font/></fonts><fills count="2"><fill><patternFill/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border/></borders><cellXfs count="1"><xf/></cellXfs></styleSheet>`,
		"xl/worksheets/sheet1.xml":   `<worksheet xmlns="` + main14 + `"><sheetData><row r="2" spans="1:2"><c r="B2"><v>7</v></c></row></sheetData></worksheet>`,
	}
	maps.Copy(all, parts)
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, name := range slices.Sorted(maps.Keys(all)) {
		if all[name] == "" {
			continue
		}
		f, err := w.Create(name)
		require.NoError(t, err)
		_, err = io.WriteString(f, all[name])
		require.NoError(t, err)
	}
	require.NoError(t, w.Close())
	return b.Bytes()
}

// piece gives a part of a package.
func piece(t *testing.T, data []byte, name string) string {
	book, err := sheets.Read(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	out, err := book.Content(name, maxPart)
	require.NoError(t, err, name)
	return string(out)
}

func pos(name string) cell.Pos { p, _ := cell.Parse(name); return p }

// noted marks cells of the first sheet.
func noted(cells ...string) Change {
	c := Change{Sheet: &Sheet{Name: "Findings", Widths: []float64{9}, Colour: "AA3322", Rows: [][]Text{{{Text: "said"}}}}}
	for _, at := range cells {
		c.Cells = append(c.Cells, Cell{At: pos(at), Fill: "F4A6A0", Note: func(string) string { return "OURS" }})
	}
	return c
}

const (
	cellsB2 = `<row r="2" spans="1:2"><c r="B2"><v>7</v></c></row>`
	typed   = `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="a/b"/><Default Extension="xml" ContentType="application/xml"/><Default Extension="vml" ContentType="a/b"/></Types>`
)

func sheetWith(before, after string) string {
	return `<worksheet xmlns="` + main14 + `" xmlns:r="` + docRel + `">` + before + `<sheetData>` + cellsB2 + `</sheetData>` + after + `</worksheet>`
}

// TestByHand marks B2 and C9 in workbooks that are written otherwise than usual, and looks for what must be
// in a part of the copy.
func TestByHand(t *testing.T) {
	withNotes := map[string]string{
		typesPart:                             typed,
		"xl/worksheets/_rels/sheet1.xml.rels": `<Relationships xmlns="` + spacePackage + `"><Relationship Id="rId7" Type="` + docRel + `/vmlDrawing" Target="../drawings/v.vml"/><Relationship Id="rId3" Type="` + docRel + `/comments" Target="../c.xml"/></Relationships>`,
		"xl/worksheets/sheet1.xml":            sheetWith("", `<legacyDrawing r:id="rId7"/><extLst><ext uri="{a}"/></extLst>`),
		"xl/c.xml":                            `<comments xmlns="` + main14 + `"><authors><author>tc={1}</author></authors><commentList><comment ref="B2" authorId="0"><text><t>[Threaded comment] theirs</t><phoneticPr fontId="0"/></text></comment></commentList></comments>`,
		"xl/drawings/v.vml":                   `<xml xmlns:v="` + spaceV + `" xmlns:o="` + spaceO + `" xmlns:x="` + spaceX + `"><v:shape id="_x0000_s1500"><v:textbox><div>a<br>b</div></v:textbox></v:shape></xml>` + "\n",
	}
	notesWith := func(name, text string) map[string]string {
		out := maps.Clone(withNotes)
		out[name] = text
		return out
	}
	for name, c := range map[string]struct {
		parts    map[string]string
		in, want string
	}{
		"blank rows and cells are made":       {nil, "xl/worksheets/sheet1.xml", `<row r="9"><c r="C9" s="1"/></row></sheetData><legacyDrawing`},
		"the view is made":                    {nil, "xl/workbook.xml", `<bookViews><workbookView activeTab="1"/></bookViews><sheets><sheet name="One" sheetId="4" r:id="rId1"/><sheet xmlns:r="` + docRel + `" name="Findings" sheetId="5"`},
		"a name that is taken":                {map[string]string{"xl/workbook.xml": `<workbook xmlns="` + main14 + `" xmlns:r="` + docRel + `"><sheets><sheet name="FINDINGS" sheetId="4" r:id="rId1"/></sheets></workbook>`}, "xl/workbook.xml", `name="Findings 2"`},
		"only one sheet is selected":          {map[string]string{"xl/worksheets/sheet1.xml": sheetWith(`<sheetViews><sheetView tabSelected="true" workbookViewId="0"/></sheetViews>`, "")}, "xl/worksheets/sheet1.xml", `tabSelected="0"`},
		"the drawing stands where it must":    {map[string]string{"xl/worksheets/sheet1.xml": sheetWith("", `<pageMargins left="1" right="1" top="1" bottom="1" header="1" footer="1"/><tableParts count="0"/>`)}, "xl/worksheets/sheet1.xml", `footer="1"/><legacyDrawing xmlns:r="` + docRel + `" r:id="rId2"/><tableParts`},
		"a column's format":                   {map[string]string{"xl/styles.xml": `<styleSheet xmlns="` + main14 + `"><cellXfs count="2"><xf/><xf numFmtId="14" applyNumberFormat="1"><protection locked="0"/></xf></cellXfs></styleSheet>`, "xl/worksheets/sheet1.xml": sheetWith(`<cols><col min="3" max="5" style="1"/></cols>`, "")}, "xl/styles.xml", `<xf numFmtId="14" applyNumberFormat="1" fillId="2" applyFill="1"><protection locked="0"/></xf>`},
		"a style part with nothing in it":     {map[string]string{"xl/styles.xml": `<styleSheet xmlns="` + main14 + `"/>`}, "xl/styles.xml", `"><fonts count="1"><font>`},
		"no style part":                       {map[string]string{"xl/styles.xml": "", "xl/_rels/workbook.xml.rels": `<Relationships xmlns="` + spacePackage + `"><Relationship Id="rId1" Type="` + docRel + `/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`}, "xl/styles1.xml", `<cellXfs count="3"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/><xf numFmtId="0" fontId="0" fillId="2" borderId="0" applyFill="1"/>`},
		"extents are widened":                 {map[string]string{"xl/worksheets/sheet1.xml": sheetWith(`<dimension ref="B2"/>`, "")}, "xl/worksheets/sheet1.xml", `<dimension ref="B2:C9"/>`},
		"prefixed names":                      {map[string]string{"xl/worksheets/sheet1.xml": `<x:worksheet xmlns:x="` + main14 + `"><x:sheetData><x:row r='2'><x:c r='B2' s='0'><x:v>7</x:v></x:c></x:row></x:sheetData></x:worksheet>`}, "xl/worksheets/sheet1.xml", `<x:c r='B2' s='1'><x:v>7</x:v></x:c></x:row><x:row r="9"><x:c r="C9" s="1"/></x:row></x:sheetData><x:legacyDrawing`},
		"no numbers of rows and cells":        {map[string]string{"xl/worksheets/sheet1.xml": `<worksheet xmlns="` + main14 + `"><sheetData><row/><row><c/><c><v>7</v></c></row></sheetData></worksheet>`}, "xl/worksheets/sheet1.xml", `<row><c/><c s="1"><v>7</v></c></row><row r="9">`},
		"an empty sheet":                      {map[string]string{"xl/worksheets/sheet1.xml": `<worksheet xmlns="` + main14 + `"><sheetData/></worksheet>`}, "xl/worksheets/sheet1.xml", `<sheetData><row r="2"><c r="B2" s="1"/></row><row r="9"><c r="C9" s="1"/></row></sheetData>`},
		"comments, and brackets in values":    {map[string]string{"xl/worksheets/sheet1.xml": `<worksheet xmlns="` + main14 + `"><!-- <row r="2"> --><sheetData><row r="2" x14ac:dyDescent="0.2" xmlns:x14ac="http://schemas.microsoft.com/office/spreadsheetml/2009/9/ac"><c r="B2"><f>A1&gt;"&lt;/c>"</f><v>7</v></c></row></sheetData></worksheet>`}, "xl/worksheets/sheet1.xml", `<c r="B2" s="1"><f>A1&gt;"&lt;/c>"</f>`},
		"a note that is there stays":          {withNotes, "xl/c.xml", `<comment ref="B2" authorId="0"><text><r><t>[Threaded comment] theirs</t></r><r><t xml:space="preserve">&#10;OURS</t></r><phoneticPr fontId="0"/></text></comment><comment ref="C9" authorId="1">`},
		"its drawing need not be well-formed": {withNotes, "xl/drawings/v.vml", `b</div></v:textbox></v:shape><v:shapetype id="_x0000_t202"`},
		"shapes get new numbers":              {withNotes, "xl/drawings/v.vml", `id="_x0000_s1501"`},
		"runs of a note":                      {notesWith("xl/c.xml", `<comments xmlns="`+main14+`"><authors/><commentList><comment ref="B2" authorId="0"><text><r><rPr><b/></rPr><t>a</t></r><r><t>b</t></r></text></comment></commentList></comments>`), "xl/c.xml", `<t>b</t></r><r><t xml:space="preserve">&#10;OURS</t></r></text></comment><comment ref="C9" authorId="0">`},
		"an empty note":                       {notesWith("xl/c.xml", `<comments xmlns="`+main14+`"><authors/><commentList><comment ref="B2" authorId="0"><text/></comment></commentList></comments>`), "xl/c.xml", `<text><r><t xml:space="preserve">OURS</t></r></text></comment>`},
		"a drawing of another kind":           {notesWith("xl/drawings/v.vml", `<drawing/>`), "", "draws notes in a way that is not known here"},
		"a drawing that is missing":           {notesWith("xl/drawings/v.vml", ""), "", "is missing"},
		"controls behind alternatives":        {map[string]string{"xl/worksheets/sheet1.xml": sheetWith("", `<drawing r:id="rId9"/><mc:AlternateContent xmlns:mc="http://schemas.openxmlformats.org/markup-compatibility/2006"><mc:Choice xmlns:x14="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main" Requires="x14"><controls/></mc:Choice></mc:AlternateContent>`)}, "xl/worksheets/sheet1.xml", `<legacyDrawing xmlns:r="` + docRel + `" r:id="rId2"/><mc:AlternateContent`},
		"a log of changes":                    {map[string]string{"xl/_rels/workbook.xml.rels": `<Relationships xmlns="` + spacePackage + `"><Relationship Id="rId1" Type="` + docRel + `/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="` + docRel + `/styles" Target="styles.xml"/><Relationship Id="rId3" Type="` + docRel + `/revisionHeaders" Target="styles.xml"/></Relationships>`}, "", "log of who changed what"},
	} {
		t.Run(name, func(t *testing.T) {
			data := byHand(t, c.parts)
			out, err := Apply(data, noted("B2", "C9"))
			if c.in == "" {
				require.ErrorContains(t, err, c.want)
				return
			}
			require.NoError(t, err)
			assert.Contains(t, piece(t, out.Bytes, c.in), c.want)
		})
	}
}

func TestStrict(t *testing.T) {
	data := byHand(t, nil)
	strict := map[string]string{}
	for _, f := range unpacked(t, data) {
		strict[f.Name] = strings.ReplaceAll(strings.ReplaceAll(piece(t, data, f.Name), main14, spaceStrict), docRel, relStrict)
	}
	out, err := Apply(byHand(t, strict), noted("B2"))
	require.NoError(t, err)
	assert.Contains(t, piece(t, out.Bytes, "xl/_rels/workbook.xml.rels"), `Type="`+relStrict+`/worksheet" Target="worksheets/sheet2.xml"`)
	assert.Contains(t, piece(t, out.Bytes, "xl/worksheets/sheet2.xml"), `xmlns="`+spaceStrict+`"`)
}

// TestWritten writes texts in place of values, exactly, and has formulas worked out anew.
func TestWritten(t *testing.T) {
	text := " =1+1 _x0041_ <&>\n\tü "
	parts := map[string]string{"xl/worksheets/sheet1.xml": sheetWith("", "")[:len(sheetWith("", ""))-len("</sheetData></worksheet>")] +
		`<row r="3"><c r="A3"><f>B2</f><v>7</v></c><c r="B3" t="str" vm="1"><v>x</v></c></row></sheetData></worksheet>`}
	write := func(at string) (*Copy, error) {
		return Apply(byHand(t, parts), Change{Cells: []Cell{{At: pos(at), Write: &text}}})
	}
	out, err := write("B2")
	require.NoError(t, err)
	assert.Contains(t, piece(t, out.Bytes, "xl/workbook.xml"), `<calcPr fullCalcOnLoad="1"/>`)
	assert.Contains(t, piece(t, out.Bytes, "xl/styles.xml"), `<xf numFmtId="49" applyNumberFormat="1"/>`)
	assert.Contains(t, piece(t, out.Bytes, "xl/worksheets/sheet1.xml"), `<c r="B2" s="1" t="inlineStr"><is><t xml:space="preserve">`)
	_, err = write("A3")
	require.ErrorContains(t, err, "formula")
	_, err = write("B3")
	require.ErrorContains(t, err, "more than a text")
	text = "\x01"
	_, err = write("B2")
	require.Error(t, err, "what XML cannot hold is not written otherwise")
}

// TestUnfaithful spoils a copy in one thing after another: none of them is given out.
func TestUnfaithful(t *testing.T) {
	data := byHand(t, nil)
	replace := func(name, old, with string) func(map[string]string) {
		return func(parts map[string]string) {
			require.Contains(t, parts[name], old)
			parts[name] = strings.Replace(parts[name], old, with, 1)
		}
	}
	for name, spoil := range map[string]func(map[string]string){
		"not has no type":            replace(typesPart, `<Override PartName="/xl/comments1.xml"`, `<Override PartName="/xl/other.xml"`),
		"cells of":                   replace("xl/worksheets/sheet1.xml", "<v>7</v>", "<v>8</v>"),
		"lists other sheets":         replace("xl/workbook.xml", `name="Findings"`, `name="Fandings"`),
		"says something else":        replace("xl/worksheets/sheet2.xml", `said`, `sad`),
		"not leads to":               func(parts map[string]string) { delete(parts, "xl/drawings/vmlDrawing1.vml") },
		"elements":                   replace("xl/styles.xml", `<border/>`, ``),
		"elements ":                  replace("xl/styles.xml", `<border/>`, `<border outline="1"/>`),
		"stand in another order":     replace("xl/styles.xml", `<borders count="1"><border/></borders>`, ``),
		"something else than texts":  replace("xl/worksheets/sheet2.xml", `t="inlineStr"><is><t xml:space="preserve">said</t></is>`, `><v>1</v>`),
		"elements the text  less":    replace("xl/comments1.xml", `OURS`, `THEIRS`),
		"would be no XML or damaged": replace("xl/comments1.xml", `</comments>`, ``),
	} {
		t.Run(name, func(t *testing.T) {
			book, err := sheets.Read(bytes.NewReader(data), int64(len(data)))
			require.NoError(t, err)
			p := newPatching(book, noted("B2"))
			require.NoError(t, p.run())
			out, err := p.write(data)
			require.NoError(t, err)
			require.NoError(t, p.verify(out.Bytes))
			parts := map[string]string{}
			for _, f := range unpacked(t, out.Bytes) {
				parts[f.Name] = piece(t, out.Bytes, f.Name)
			}
			spoil(parts)
			if name == "stand in another order" {
				parts["xl/styles.xml"] = strings.Replace(parts["xl/styles.xml"], `<fonts`, `<borders count="1"><border/></borders><fonts`, 1)
			}
			err = p.verify(zipped(t, parts))
			require.ErrorContains(t, err, "would not have been faithful")
			if plain := strings.TrimSpace(name); len(strings.Fields(plain)) < 4 && !strings.HasPrefix(plain, "not ") {
				require.ErrorContains(t, err, plain)
			}
		})
	}
}

func zipped(t *testing.T, parts map[string]string) []byte {
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, name := range slices.Sorted(maps.Keys(parts)) {
		f, err := w.Create(name)
		require.NoError(t, err)
		_, err = io.WriteString(f, parts[name])
		require.NoError(t, err)
	}
	require.NoError(t, w.Close())
	return b.Bytes()
}

func TestInOrder(t *testing.T) {
	for text, want := range map[string]bool{
		`<worksheet><cols/><sheetData/><extLst/></worksheet>`:                                                              true,
		`<worksheet><sheetData/><cols/></worksheet>`:                                                                       false,
		`<worksheet><sheetData/><other/><mergeCells/></worksheet>`:                                                         true,
		`<worksheet><m:AlternateContent><m:Choice><controls/></m:Choice></m:AlternateContent><legacyDrawing/></worksheet>`: false,
		`<worksheet><legacyDrawing/><m:AlternateContent><m:Choice><controls/></m:Choice></m:AlternateContent></worksheet>`: true,
		`<styleSheet><fills/><fonts/></styleSheet>`:                                                                        false,
		`<workbook><sheets/><bookViews/></workbook>`:                                                                       false,
		`<Relationships><Relationship/></Relationships>`:                                                                   true,
	} {
		x := &part{name: "x", old: []byte(text)}
		require.NoError(t, x.root())
		assert.Equal(t, want, inOrder(x, x.old), text)
	}
}
