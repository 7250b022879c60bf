package sheets_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/sheets"
	"ferrule/sheets/cell"
)

func text(s string) sheets.Value { return sheets.Value{Kind: sheets.Text, Text: s} }

func number(f float64, s string) sheets.Value {
	return sheets.Value{Kind: sheets.Number, Number: f, Text: s}
}

// Each case is the inside of a cell B2, attributes first, and what it is read as; a
// nil means that it is not given out.
func TestValues(t *testing.T) {
	long := strings.Repeat("ä", 32_767)
	tests := []struct {
		name, xml string
		want      *sheets.Value
	}{
		{"number", `><v>12.50</v>`, p(number(12.5, "12.5"))},
		{"number said to be one", ` t="n"><v> 7 </v>`, p(number(7, "7"))},
		{"number with exponent", `><v>1.5E-3</v>`, p(number(0.0015, "0.0015"))},
		{"tiny", `><v>1e-7</v>`, p(number(1e-7, "0.0000001"))},
		{"tinier", `><v>9.5e-8</v>`, p(number(9.5e-8, "9.5e-08"))},
		{"large", `><v>123456789012345680000</v>`, p(number(123456789012345680000, "123456789012345680000"))},
		{"larger", `><v>1e21</v>`, p(number(1e21, "1e+21"))},
		{"shortest", `><v>0.30000000000000004</v>`, p(number(0.30000000000000004, "0.30000000000000004"))},
		{"shortest of a long one", `><v>0.1000000000000000055511</v>`, p(number(0.1, "0.1"))},
		{"zero has no sign", `><v>-0</v>`, p(number(0, "0"))},
		{"sign and point", `><v>+.5</v>`, p(number(.5, "0.5"))},
		{"blank number", `><v></v>`, nil},
		{"no value", ` s="1">`, nil},
		{"shared", ` t="s"><v>1</v>`, p(text("Front damper"))},
		{"shared without index", ` t="s">`, nil},
		{"shared with an empty index", ` t="s"><v/>`, nil},
		{"shared with a blank index", ` t="s"><v> </v>`, nil},
		{"formula's text", ` t="str"><f>A1&amp;"x"</f><v> x </v>`, &sheets.Value{Kind: sheets.Text, Text: " x ", Formula: `A1&"x"`}},
		{"formula's empty text", ` t="str"><f>A1</f><v></v>`, &sheets.Value{Kind: sheets.Text, Formula: "A1"}},
		{"empty text", ` t="str"><v></v>`, nil},
		{"empty inline text", ` t="inlineStr"><is><t/></is>`, nil},
		{"formula", `><f>SUM(A1:A2)</f><v>3</v>`, &sheets.Value{Kind: sheets.Number, Number: 3, Text: "3", Formula: "SUM(A1:A2)"}},
		{"formula after its value", `><v>3</v><f>A1</f>`, &sheets.Value{Kind: sheets.Number, Number: 3, Text: "3", Formula: "A1"}},
		{"formula with equals sign", `><f>=A1</f><v>3</v>`, &sheets.Value{Kind: sheets.Number, Number: 3, Text: "3", Formula: "A1"}},
		{"formula without value", `><f>A1</f>`, &sheets.Value{Formula: "A1"}},
		{"formula with blank value", `><f>A1</f><v/>`, &sheets.Value{Formula: "A1"}},
		{"text formula without value", ` t="str"><f>A1</f>`, &sheets.Value{Formula: "A1"}},
		{"shared formula", `><f t="shared" si="0"/><v>3</v>`, &sheets.Value{Kind: sheets.Number, Number: 3, Text: "3", Formula: "(shared)"}},
		{"data table", `><f t="dataTable" ref="B2:B3"/>`, &sheets.Value{Formula: "(data table)"}},
		{"no formula in fact", `><f/><v>3</v>`, p(number(3, "3"))},
		{"true", ` t="b"><v>1</v>`, &sheets.Value{Kind: sheets.Bool, Number: 1, Text: "TRUE"}},
		{"false", ` t="b"><v>false</v>`, &sheets.Value{Kind: sheets.Bool, Text: "FALSE"}},
		{"error", ` t="e"><f>VLOOKUP(1,A1:A2,1)</f><v>#N/A</v>`, &sheets.Value{Kind: sheets.Error, Text: "#N/A", Formula: "VLOOKUP(1,A1:A2,1)"}},
		{"inline", ` t="inlineStr"><is><t xml:space="preserve"> 1/2 in </t></is>`, p(text(" 1/2 in "))},
		{"never trimmed", ` t="inlineStr"><is><t> x </t></is>`, p(text(" x "))},
		{"rich", ` t="inlineStr"><is><r><t>Air </t></r><r><rPr><b/></rPr><t>beam</t></r></is>`, p(text("Air beam"))},
		{"phonetics", ` t="inlineStr"><is><t>課</t><rPh sb="0" eb="1"><t>カ</t></rPh><phoneticPr fontId="1"/></is>`, p(text("課"))},
		{"lines", ` t="inlineStr"><is><t>a&#10;b` + "\r\nc</t></is>", p(text("a\nb\nc"))},
		{"escaped", ` t="inlineStr"><is><t>a_x000D_b_x0009_c</t></is>`, p(text("a\rb\tc"))},
		{"escaped underscore", ` t="inlineStr"><is><t>a_x005F_x000D_b</t></is>`, p(text("a_x000D_b"))},
		{"escaped pair", ` t="str"><v>_xD83D__xDE00_</v>`, p(text("😀"))},
		{"escaped half", ` t="str"><v>_xD83D_!</v>`, p(text("_xD83D_!"))},
		{"no escape", ` t="str"><v>_x00G0_ _x12_ AB_x1 _x</v>`, p(text("_x00G0_ _x12_ AB_x1 _x"))},
		{"escape across runs", ` t="inlineStr"><is><r><t>_x00</t></r><r><t>41_</t></r></is>`, p(text("A"))},
		{"CDATA", ` t="inlineStr"><is><t><![CDATA[a<b]]>&amp;c</t></is>`, p(text("a<b&c"))},
		{"comments", `><!-- x --><v>1<!-- 0 -->2</v>`, p(number(12, "12"))},
		{"numeric entities", ` t="str"><v>&#x41;&#66;&lt;&apos;</v>`, p(text("AB<'"))},
		{"longest", ` t="str"><v>` + long + `</v>`, p(text(long))},
		{"longest escaped", ` t="str"><v>` + strings.Repeat("_x0041_", 32_767) + `</v>`, p(text(strings.Repeat("A", 32_767)))},
		{"date", ` s="1"><v>45293</v>`, &sheets.Value{Kind: sheets.Date, Number: 45293, Text: "2024-01-02", Format: "mm-dd-yy"}},
		{"date and time", ` s="2"><v>45293.541666666664</v>`, &sheets.Value{Kind: sheets.Date, Number: 45293.541666666664, Text: "2024-01-02T13:00:00", Format: `yyyy\-mm\-dd hh:mm`}},
		{"time", ` s="5"><v>0.5</v>`, &sheets.Value{Kind: sheets.Date, Number: 0.5, Text: "12:00:00", Format: "[h]:mm:ss"}},
		{"elapsed time", ` s="5"><v>1.5</v>`, &sheets.Value{Kind: sheets.Date, Number: 1.5, Text: "36:00:00", Format: "[h]:mm:ss"}},
		{"elapsed time that rounds up", ` s="5"><v>0.9999999999</v>`, &sheets.Value{Kind: sheets.Date, Number: 0.9999999999, Text: "24:00:00", Format: "[h]:mm:ss"}},
		{"no elapsed time", ` s="5"><v>-0.5</v>`, &sheets.Value{Kind: sheets.Number, Number: -0.5, Text: "-0.5", Format: "[h]:mm:ss"}},
		{"unreal day", ` s="1"><v>60</v>`, &sheets.Value{Kind: sheets.Date, Number: 60, Text: "1900-02-29", Format: "mm-dd-yy"}},
		{"negative date", ` s="1"><v>-1</v>`, &sheets.Value{Kind: sheets.Number, Number: -1, Text: "-1", Format: "mm-dd-yy"}},
		{"date beyond", ` s="1"><v>2958466</v>`, &sheets.Value{Kind: sheets.Number, Number: 2958466, Text: "2958466", Format: "mm-dd-yy"}},
		{"stored date", ` s="1" t="d"><v>2024-01-02T00:00:00</v>`, &sheets.Value{Kind: sheets.Date, Number: 45293, Text: "2024-01-02", Format: "mm-dd-yy"}},
		{"text has no format", ` s="1" t="str"><v>x</v>`, p(text("x"))},
		{"fraction", ` s="4"><v>0.3125</v>`, &sheets.Value{Kind: sheets.Number, Number: 0.3125, Text: "0.3125", Format: "# ?/?"}},
		{"struck", ` s="3" t="s"><v>0</v>`, &sheets.Value{Kind: sheets.Text, Text: "Platform", Struck: true}},
		{"struck number", ` s="6"><v>1</v>`, &sheets.Value{Kind: sheets.Number, Number: 1, Text: "1", Format: "0.00", Struck: true}},
		{"struck runs", ` t="inlineStr"><is><r><rPr><strike/></rPr><t>a</t></r><r><rPr><strike val="1"/></rPr><t>b</t></r><r><t></t></r></is>`,
			&sheets.Value{Kind: sheets.Text, Text: "ab", Struck: true}},
		{"one run struck", ` t="inlineStr"><is><r><rPr><strike/></rPr><t>a</t></r><r><t>b</t></r></is>`,
			&sheets.Value{Kind: sheets.Text, Text: "ab", Partly: true}},
		{"a run not struck in a struck cell", ` s="3" t="inlineStr"><is><r><t>a</t></r><r><rPr><strike val="0"/></rPr><t>b</t></r></is>`,
			&sheets.Value{Kind: sheets.Text, Text: "ab", Partly: true}},
		{"a run like its struck cell", ` s="3" t="inlineStr"><is><r><t>a</t></r><r><rPr><strike/></rPr><t>b</t></r></is>`,
			&sheets.Value{Kind: sheets.Text, Text: "ab", Struck: true}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			cells, _ := rows(`<row r="2"><c r="B2"` + tt.xml + `</c></row>`).one(t)
			want := sheetCells{}
			if tt.want != nil {
				want[cell.Pos{Row: 2, Col: 2}] = *tt.want
			}
			assert.Equal(t, want, cells)
		})
	}
}

func p(v sheets.Value) *sheets.Value { return &v }

// The workbook's date system decides what a serial means (ECMA-376 Part 1, 18.17.4.1).
func TestDateSystems(t *testing.T) {
	tests := []struct{ properties, want string }{
		{``, "2024-01-02"},
		{`<workbookPr date1904="0"/>`, "2024-01-02"},
		{`<workbookPr date1904="1"/>`, "2028-01-03"},
		{`<workbookPr date1904="true"/>`, "2028-01-03"},
		{`<workbookPr dateCompatibility="0"/>`, "2024-01-02"},
	}
	for _, tt := range tests {
		book := rows(`<row r="1"><c r="A1" s="1"><v>45293</v></c></row>`)
		book[workbookPart] = workbookXML(tt.properties + `<sheets><sheet name="Fitment" sheetId="1" r:id="rId1"/></sheets>`)
		cells, _ := book.one(t)
		assert.Equal(t, tt.want, cells[at(t, "A1")].Text, tt.properties)
	}
	bad := ordinary().with(parts{workbookPart: workbookXML(`<workbookPr date1904="on"/><sheets/>`)})
	_, _, _, err := readAll(bad.zip(t))
	requireFault(t, err, `date1904 of <workbookPr> is "on"`)
}
