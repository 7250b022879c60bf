package sheets_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// Sheets that break a rule: each is a fault at its cell, never fewer rows.
func TestSheetFaults(t *testing.T) {
	tests := []struct {
		name, rows string
		at         string // "" for the sheet as a whole
		want       string
	}{
		{"row twice", `<row r="2"><c><v>1</v></c></row><row r="2"><c><v>2</v></c></row>`, "A2", "row 2 is stored after row 2"},
		{"row descends", `<row r="3"/><row r="2"/>`, "A2", "row 2 is stored after row 3"},
		{"row zero", `<row r="0"/>`, "", `row has the number "0"`},
		{"row beyond", `<row r="1048577"/>`, "", `row has the number "1048577"`},
		{"row not a number", `<row r="1e3"/>`, "", `row has the number "1e3"`},
		{"row signed", `<row r="+1"/>`, "", `row has the number`},
		{"row counts on beyond", `<row r="1048576"/><row/>`, "", "rows beyond the last one"},
		{"cell twice", `<row r="1"><c r="B1"><v>1</v></c><c r="B1"><v>2</v></c></row>`, "B1", "stored after cell B1"},
		{"cell descends", `<row r="1"><c r="C1"><v>1</v></c><c r="B1"><v>2</v></c></row>`, "B1", "stored after cell C1"},
		{"cell in another row", `<row r="1"><c r="A2"><v>1</v></c></row>`, "A2", "stored in row 1"},
		{"cell beyond", `<row r="1"><c r="XFE1"><v>1</v></c></row>`, "", `the name "XFE1"`},
		{"cell without letters", `<row r="1"><c r="1"><v>1</v></c></row>`, "", `the name "1"`},
		{"cell in lower case", `<row r="1"><c r="a1"><v>1</v></c></row>`, "", `the name "a1"`},
		{"cell counts on beyond", `<row r="1"><c r="XFD1"><v>1</v></c><c><v>1</v></c></row>`, "", "beyond the last column, XFD"},
		{"counted on, then twice", `<row r="1"><c/><c/><c r="B1"/></row>`, "B1", "stored after cell B1"},
		{"shared text missing", `<row r="1"><c r="C1" t="s"><v>2</v></c></row>`, "C1", `number "2" of the workbook's 2`},
		{"shared text negative", `<row r="1"><c r="C1" t="s"><v>-1</v></c></row>`, "C1", `number "-1"`},
		{"style missing", `<row r="1"><c r="C1" s="7"><v>1</v></c></row>`, "C1", `style is number "7" of 7`},
		{"style of an empty cell", `<row r="1"><c r="C1" s="x"/></row>`, "C1", `style is number "x"`},
		{"type unknown", `<row r="1"><c r="C1" t="q"><v>1</v></c></row>`, "C1", `type that is not known here, "q"`},
		{"type unknown, empty", `<row r="1"><c r="C1" t="q"/></row>`, "C1", `not known here, "q"`},
		{"number is text", `<row r="1"><c r="C1"><v>1,5</v></c></row>`, "C1", `should hold a number and holds "1,5"`},
		{"number is infinite", `<row r="1"><c r="C1"><v>INF</v></c></row>`, "C1", `holds "INF"`},
		{"number is NaN", `<row r="1"><c r="C1"><v>NaN</v></c></row>`, "C1", `holds "NaN"`},
		{"number is too large", `<row r="1"><c r="C1"><v>1e309</v></c></row>`, "C1", `holds "1e309"`},
		{"number in hexadecimal", `<row r="1"><c r="C1"><v>0x10</v></c></row>`, "C1", `holds "0x10"`},
		{"number with underscores", `<row r="1"><c r="C1"><v>1_000</v></c></row>`, "C1", `holds "1_000"`},
		{"number is very long text", `<row r="1"><c r="C1"><v>` + strings.Repeat("ä", 5000) + `</v></c></row>`, "C1", `holds "ä{40}…"`},
		{"value is cut off", `<row r="1"><c r="C1"><v>`, "", "not complete and correct XML"},
		{"number half", `<row r="1"><c r="C1"><v>1e</v></c></row>`, "C1", `holds "1e"`},
		{"truth", `<row r="1"><c r="C1" t="b"><v>2</v></c></row>`, "C1", `TRUE or FALSE and holds "2"`},
		{"truth empty", `<row r="1"><c r="C1" t="b"><v/></c></row>`, "C1", `TRUE or FALSE and holds ""`},
		{"error empty", `<row r="1"><c r="C1" t="e"><v/></c></row>`, "C1", "error that has no name"},
		{"date", `<row r="1"><c r="C1" t="d"><v>2024-02-30</v></c></row>`, "C1", `date and holds "2024-02-30"`},
		{"date is a number", `<row r="1"><c r="C1" t="d"><v>45292</v></c></row>`, "C1", `date and holds "45292"`},
		{"date with a zone", `<row r="1"><c r="C1" t="d"><v>2024-01-02T10:00:00+02:00</v></c></row>`, "C1", `date and holds`},
		{"two values", `<row r="1"><c r="C1"><v>1</v><v>2</v></c></row>`, "C1", "two of <v>"},
		{"two formulas", `<row r="1"><c r="C1"><f>A1</f><f>A2</f></c></row>`, "C1", "two of <f>"},
		{"two texts", `<row r="1"><c r="C1" t="inlineStr"><is/><is/></c></row>`, "C1", "two of <is>"},
		{"inline in a number", `<row r="1"><c r="C1"><is><t>x</t></is></c></row>`, "C1", `not stored in the way`},
		{"value in an inline text", `<row r="1"><c r="C1" t="inlineStr"><v>x</v></c></row>`, "C1", `not stored in the way`},
		{"text too long", `<row r="1"><c r="C1" t="str"><v>` + strings.Repeat("x", 32_768) + `</v></c></row>`, "C1", "more than the 32767 characters"},
		{"text much too long", `<row r="1"><c r="C1" t="inlineStr"><is><t>` + strings.Repeat("x", 1<<19) + `</t></is></c></row>`, "C1", "more than the 32767 characters"},
		{"long in UTF-16", `<row r="1"><c r="C1" t="str"><v>` + strings.Repeat("😀", 16_384) + `</v></c></row>`, "C1", "more than the 32767 characters"},
		{"tag inside a value", `<row r="1"><c r="C1"><v>1<b/></v></c></row>`, "", "<b> stands inside <v>"},
		{"tag inside a text", `<row r="1"><c t="inlineStr"><is><t>1<b/></t></is></c></row>`, "", "<b> stands inside <t>"},
		{"unknown tag in a cell", `<row r="1"><c><w>1</w></c></row>`, "", "<w> stands inside <c>"},
		{"unknown tag in a row", `<row r="1"><d/></row>`, "", "<d> stands inside <row>"},
		{"unknown tag among rows", `<rows/>`, "", "<rows> stands inside <sheetData>"},
		{"unknown tag in a text", `<row><c t="inlineStr"><is><b/></is></c></row>`, "", "<b> stands inside <is>"},
		{"unknown tag in a run", `<row><c t="inlineStr"><is><r><b/></r></is></c></row>`, "", "<b> stands inside <r>"},
		{"cells of another namespace", `<row r="1"><c xmlns="urn:x"><v>1</v></c></row>`, "", "<c> stands inside <row>"},
		{"alternatives among rows", `<AlternateContent xmlns="urn:mc"><Choice/></AlternateContent>`, "", "<AlternateContent> stands inside"},
		{"loose text in a cell", `<row r="1"><c r="A1">5</c></row>`, "", "text stands loose inside <c>"},
		{"loose text among rows", `<row r="1"/>5`, "", "text stands loose inside <sheetData>"},
		{"hidden is neither", `<row hidden="maybe"/>`, "", `hidden of <row> is "maybe"`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, _, _, err := readAll(rows(tt.rows).zip(t))
			f := requireFault(t, err, tt.want)
			assert.Equal(t, "Fitment", f.Sheet)
			assert.Equal(t, sheetPart, f.Part)
			assert.Equal(t, tt.at, f.Pos.String())
			if tt.at != "" {
				assert.Contains(t, f.Why, `sheet "Fitment", cell `+tt.at+": ")
			}
		})
	}
}

// Rows and cells without a name count on from the last ones; empty ones are not given out.
func TestCountingOn(t *testing.T) {
	cells, _ := rows(`<row><c><v>1</v></c><c/><c><v>2</v></c><c r="F1"><v>3</v></c><c><v>4</v></c></row>` +
		`<row/><row r="7" spans="1:3"><c r="B7" s="1"/></row><row><c r="C8"><v>5</v></c><extLst><x/></extLst></row>` +
		`<row r="1048576"><c r="XFD1048576"><v>6</v></c></row>`).one(t)
	got := map[string]string{}
	for pos, v := range cells {
		got[pos.String()] = v.Text
	}
	assert.Equal(t, map[string]string{"A1": "1", "C1": "2", "F1": "3", "G1": "4", "C8": "5", "XFD1048576": "6"}, got)
}

func TestTrailer(t *testing.T) {
	hiddenCols := `<cols><col min="2" max="4" hidden="1"/><col min="5" max="9" hidden="0"/><col min="16384" max="16384" hidden="true"/></cols>`
	hiddenCols = strings.Replace(hiddenCols, `<col min="16384"`, `<col min="10" max="12" width="9"/><col min="16384"`, 1)
	sheet := sheetXML(`<row r="1" hidden="1"><c><v>1</v></c></row><row r="2" hidden="true"/><row r="3" hidden="0"><c><v>1</v></c></row>`,
		`<autoFilter ref="A1:C9"><filterColumn colId="0"><filters><filter val="x"/></filters></filterColumn></autoFilter>`,
		`<mergeCells count="9"><mergeCell ref="A1:B2"/><mergeCell ref="C1:C5"/><mergeCell ref="D4:D4"/><mergeCell ref="A3"/></mergeCells>`,
		`<hyperlinks><hyperlink ref="A1"/><hyperlink ref="B7"/></hyperlinks>`)
	sheet = strings.Replace(sheet, "<sheetData>", hiddenCols+"<sheetData>", 1)
	_, got := ordinary().with(parts{sheetPart: sheet}).one(t)
	span := func(s string) cell.Range {
		r, ok := cell.ParseRange(s)
		assert.True(t, ok)
		return r
	}
	assert.Equal(t, &sheets.Trailer{
		Merges:      []cell.Range{span("A1:B2"), span("C1:C5")},
		HiddenCols:  []cell.Range{span("B1:D1048576"), span("XFD1:XFD1048576")},
		HiddenRows:  1,
		Filtered:    true,
		LinkedCells: 2,
	}, got)
}

func TestFiltered(t *testing.T) {
	tests := []struct {
		after string
		want  bool
	}{
		{``, false},
		{`<autoFilter ref="A1:C9"/>`, false},
		{`<autoFilter ref="A1:C9"><filterColumn colId="0" hiddenButton="1"/></autoFilter>`, false},
		{`<autoFilter ref="A1:C9"><sortState ref="A1:C9"><sortCondition ref="A1"/></sortState></autoFilter>`, false},
		{`<autoFilter ref="A1:C9"><filterColumn colId="0"><top10 val="3"/></filterColumn></autoFilter>`, true},
		{`<sheetPr filterMode="1"/>`, true},
		{`<sheetPr filterMode="0"/>`, false},
	}
	for _, tt := range tests {
		_, got := rows("", tt.after).one(t)
		assert.Equal(t, tt.want, got.Filtered, tt.after)
	}
}

// Folders among the parts, extensions and other elements are left out.
func TestLeftOut(t *testing.T) {
	book := rows(`<row><c t="s"><v>2</v><extLst><ext/></extLst></c></row>`, `<pageMargins left="1"/><x xmlns="urn:x"><sheetData/></x>`)
	book["book/"] = ""
	book[stringsPart] = strings.Replace(book[stringsPart], "</sst>", `<si><t>Rear</t><extLst/></si><extLst><ext><si/></ext></extLst></sst>`, 1)
	cells, trailer := book.one(t)
	assert.Equal(t, sheetCells{at(t, "A1"): text("Rear")}, cells)
	assert.Equal(t, &sheets.Trailer{}, trailer)
}

func TestTrailerFaults(t *testing.T) {
	tests := []struct{ after, at, want string }{
		{`<mergeCells><mergeCell ref="A1:B2"/><mergeCell ref="B2:C3"/></mergeCells>`, "B2", "merged ranges A1:B2 and B2:C3 lie over each other"},
		{`<mergeCells><mergeCell ref="A5:Z5"/><mergeCell ref="C1:C9"/></mergeCells>`, "A5", "C1:C9 and A5:Z5"},
		{`<mergeCells><mergeCell ref="A1:B2"/><mergeCell ref="A1:B2"/></mergeCells>`, "A1", "lie over each other"},
		{`<mergeCells><mergeCell ref="A:B"/></mergeCells>`, "", `merged range "A:B"`},
		{`<mergeCells><mergeCell ref="A1:XFE2"/></mergeCells>`, "", `merged range "A1:XFE2"`},
		{`<mergeCells><mergeCell/></mergeCells>`, "", `merged range ""`},
		{`<mergeCells><merged ref="A1:B2"/></mergeCells>`, "", `<merged> stands inside <mergeCells>`},
		{`<cols><col min="0" max="3"/></cols>`, "", `columns "0" to "3" do not exist`},
		{`<cols><col min="4" max="3"/></cols>`, "", `columns "4" to "3" do not exist`},
		{`<cols><col min="4" max="16385"/></cols>`, "", `columns "4" to "16385"`},
		{`<cols><col min="4" max="5" hidden="2"/></cols>`, "", `hidden of <col>`},
		{`<sheetData/>`, "", "stored in two pieces"},
	}
	for _, tt := range tests {
		_, _, _, err := readAll(rows("", tt.after).zip(t))
		f := requireFault(t, err, tt.want)
		assert.Equal(t, tt.at, f.Pos.String())
		assert.Equal(t, "Fitment", f.Sheet)
	}
}

// A text left under a merged range is given out like any other: what covers it is said
// in the trailer.
func TestTextUnderMerge(t *testing.T) {
	cells, trailer := rows(`<row><c><v>1</v></c><c t="str"><v>left</v></c></row>`, `<mergeCells><mergeCell ref="A1:B1"/></mergeCells>`).one(t)
	assert.Equal(t, sheetCells{at(t, "A1"): number(1, "1"), at(t, "B1"): text("left")}, cells)
	assert.True(t, trailer.Merges[0].Contains(at(t, "B1")))
}
