package sheets_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/sheets/cell"
)

const (
	compatSpace = "http://schemas.openxmlformats.org/markup-compatibility/2006"
	choiceOf    = `<mc:AlternateContent xmlns:mc="` + compatSpace + `">`
)

// either wraps markup as writers do that offer a newer form beside the one for everybody
// (ECMA-376 Part 3, AlternateContent).
func either(newer, all string) string {
	return choiceOf + `<mc:Choice xmlns:n="urn:newer" Requires="n">` + newer + `</mc:Choice><mc:Fallback>` + all + `</mc:Fallback></mc:AlternateContent>`
}

// Alternatives may stand wherever elements may. In each place a workbook is written once plainly
// and once with what is at stake inside the Fallback, beside a Choice that says otherwise.
func TestAlternatives(t *testing.T) {
	style := func(inside string) parts {
		return parts{stylesPart: `<styleSheet xmlns="` + mainSpace + `">` + inside + `</styleSheet>`}
	}
	const fonts = `<fonts><font/><font><strike/></font></fonts>`
	book := func(properties, list string) parts {
		return parts{workbookPart: workbookXML(properties + `<sheets>` + list + `</sheets>`)}
	}
	const one = `<sheet name="Fitment" sheetId="1" r:id="rId1"/>`
	texts := func(inside string) parts {
		return parts{stringsPart: `<sst xmlns="` + mainSpace + `">` + inside + `</sst>`}
	}
	sheet := func(inside string) parts {
		return parts{sheetPart: `<worksheet xmlns="` + mainSpace + `">` + inside + `</worksheet>`}
	}
	const row = `<row r="1"><c r="A1" s="1"><v>45293</v></c><c r="B1" s="2"><v>1</v></c><c r="C1" t="s"><v>1</v></c></row>`
	const xfs = `<xf/><xf numFmtId="164"/><xf fontId="1"/>`
	tests := []struct {
		name         string
		make         func(string) parts
		newer, plain string
	}{
		{"cell formats", func(x string) parts { return style(fonts + `<cellXfs><xf/>` + x + `<xf fontId="1"/></cellXfs>`) }, `<xf/><xf/>`, `<xf numFmtId="14"/>`},
		{"all cell formats", func(x string) parts { return style(fonts + x) }, `<cellXfs><xf/><xf/><xf/></cellXfs>`, `<cellXfs>` + strings.Replace(xfs, "164", "14", 1) + `</cellXfs>`},
		{"a number format", func(x string) parts {
			return style(`<numFmts>` + x + `</numFmts>` + fonts + `<cellXfs>` + xfs + `</cellXfs>`)
		},
			`<numFmt numFmtId="164" formatCode="0.00"/>`, `<numFmt numFmtId="164" formatCode="yyyy"/>`},
		{"a font", func(x string) parts {
			return style(`<fonts><font/>` + x + `</fonts><cellXfs>` + strings.Replace(xfs, "164", "14", 1) + `</cellXfs>`)
		},
			`<font/>`, `<font><strike/></font>`},
		{"what a font holds", func(x string) parts {
			return style(`<fonts><font/><font>` + x + `</font></fonts><cellXfs>` + strings.Replace(xfs, "164", "14", 1) + `</cellXfs>`)
		},
			`<b/>`, `<strike/>`},
		{"the date system", func(x string) parts { return book(x, one) }, `<workbookPr/>`, `<workbookPr date1904="1"/>`},
		{"a sheet", func(x string) parts { return book("", x) }, `<sheet name="Other" sheetId="1" r:id="rId1"/>`, one},
		{"the list of sheets", func(x string) parts { return parts{workbookPart: workbookXML(x)} }, `<sheets/>`, `<sheets>` + one + `</sheets>`},
		{"a shared text", func(x string) parts { return texts(`<si><t>a</t></si>` + x + `<si><t>c</t></si>`) }, `<si><t>x</t></si><si><t>y</t></si>`, `<si><t>b</t></si>`},
		{"the words of a shared text", func(x string) parts { return texts(`<si/><si>` + x + `</si>`) }, `<t>x</t>`, `<t>b</t>`},
		{"a run", func(x string) parts { return texts(`<si/><si><r><t>a</t></r>` + x + `</si>`) }, `<r><t>x</t></r>`, `<r><rPr><b/></rPr><t>b</t></r>`},
		{"the look of a run", func(x string) parts { return texts(`<si/><si><r><rPr>` + x + `</rPr><t>a</t></r></si>`) }, `<b/>`, `<strike/>`},
		{"a row", func(x string) parts { return sheet(`<sheetData>` + x + `<row r="3"><c><v>3</v></c></row></sheetData>`) }, `<row r="2"><c r="A2"><v>9</v></c></row>`, row},
		{"all rows", func(x string) parts { return sheet(x) }, `<sheetData/>`, `<sheetData>` + row + `</sheetData>`},
		{"a cell", func(x string) parts {
			return sheet(`<sheetData><row r="1">` + x + `<c r="D1"><v>3</v></c></row></sheetData>`)
		}, `<c r="A1"><v>9</v></c>`, `<c r="B1"><v>5</v></c>`},
		{"a value", func(x string) parts { return sheet(`<sheetData><row r="1"><c r="A1">` + x + `</c></row></sheetData>`) }, `<v>9</v>`, `<v>5</v>`},
		{"merged cells", func(x string) parts { return sheet(`<sheetData>` + row + `</sheetData>` + x) }, `<mergeCells/>`, `<mergeCells><mergeCell ref="A1:B2"/></mergeCells>`},
		{"a merged range", func(x string) parts {
			return sheet(`<sheetData>` + row + `</sheetData><mergeCells>` + x + `</mergeCells>`)
		}, ``, `<mergeCell ref="A1:B2"/>`},
		{"hidden columns", func(x string) parts { return sheet(x + `<sheetData>` + row + `</sheetData>`) }, ``, `<cols><col min="1" max="2" hidden="1"/></cols>`},
		{"a hidden column", func(x string) parts { return sheet(`<cols>` + x + `</cols><sheetData>` + row + `</sheetData>`) }, ``, `<col min="1" max="2" hidden="1"/>`},
		{"a filter", func(x string) parts { return sheet(`<sheetData>` + row + `</sheetData>` + x) }, `<autoFilter ref="A1:A2"/>`,
			`<autoFilter ref="A1:A2"><filterColumn colId="0"><top10 val="3"/></filterColumn></autoFilter>`},
		{"the filter of a column", func(x string) parts {
			return sheet(`<sheetData>` + row + `</sheetData><autoFilter ref="A1:A2">` + x + `</autoFilter>`)
		}, ``,
			`<filterColumn colId="0"><top10 val="3"/></filterColumn>`},
		{"links", func(x string) parts {
			return sheet(`<sheetData>` + row + `</sheetData><hyperlinks>` + x + `</hyperlinks>`)
		}, ``, `<hyperlink ref="A1"/>`},
		{"the sheet's properties", func(x string) parts { return sheet(x + `<sheetData>` + row + `</sheetData>`) }, `<sheetPr/>`, `<sheetPr filterMode="1"/>`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			base := ordinary().with(parts{sheetPart: sheetXML(row)})
			read := func(inside string) any {
				book := base.with(tt.make(inside))
				requireSame(t, book.zip(t), 20, 1<<10)
				infos, cells, trailers, err := readAll(book.zip(t))
				require.NoError(t, err)
				return []any{infos, cells, trailers}
			}
			want := read(tt.plain)
			assert.Equal(t, want, read(either(tt.newer, tt.plain)))
			assert.Equal(t, want, read(either(tt.newer, either(tt.newer, tt.plain))), "one inside another")
			assert.Equal(t, want, read(choiceOf+`<mc:Choice Requires="mc">`+tt.plain+`</mc:Choice><mc:Fallback>`+tt.newer+`</mc:Fallback></mc:AlternateContent>`),
				"a choice whose needs are understood")
			assert.NotEqual(t, want, read(tt.newer), "the alternative makes a difference")
		})
	}
}

// What may be ignored is left out, with what it holds or without.
func TestIgnorable(t *testing.T) {
	sheet := func(attributes, inside string) parts {
		return ordinary().with(parts{sheetPart: `<worksheet xmlns="` + mainSpace + `" xmlns:mc="` + compatSpace + `" xmlns:n="urn:newer" ` + attributes + `><sheetData><row r="1">` +
			inside + `<c r="D1"><v>4</v></c></row></sheetData></worksheet>`})
	}
	const second = `<c r="B1"><v>2</v></c>`
	tests := []struct {
		name, attributes, inside, want string
	}{
		{"ignored whole", `mc:Ignorable="n"`, `<n:more>` + second + `</n:more>`, "4"},
		{"its content counts", `mc:Ignorable="n" mc:ProcessContent="n:more"`, `<n:more>` + second + `</n:more><n:less>` + second + `</n:less>`, "2 4"},
		{"all of its content counts", `mc:Ignorable="n" mc:ProcessContent="n:*"`, `<n:more>` + second + `</n:more>`, "2 4"},
		{"between alternatives", `mc:Ignorable="n"`, `<mc:AlternateContent><mc:Choice Requires="n"/><n:more/><mc:Fallback>` + second + `</mc:Fallback></mc:AlternateContent>`, "2 4"},
		{"no alternative is meant", ``, `<mc:AlternateContent><mc:Choice Requires="n">` + second + `</mc:Choice></mc:AlternateContent>`, "4"},
		{"the first of several", ``, `<mc:AlternateContent><mc:Choice Requires="n"/><mc:Choice Requires="mc">` + second + `</mc:Choice><mc:Choice Requires="mc"/><mc:Fallback/></mc:AlternateContent>`, "2 4"},
		{"a prefix that nothing declares", ``, `<mc:AlternateContent><mc:Choice Requires="z"/><mc:Fallback>` + second + `</mc:Fallback></mc:AlternateContent>`, "2 4"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			cells, _ := sheet(tt.attributes, tt.inside).one(t)
			var got []string
			for _, pos := range slices.SortedFunc(maps.Keys(cells), cell.ComparePos) {
				got = append(got, cells[pos].Text)
			}
			assert.Equal(t, tt.want, strings.Join(got, " "))
		})
	}
	faults := []struct{ name, attributes, inside, want string }{
		{"not to be ignored", ``, `<n:more/>`, "<more> stands inside <row>"},
		{"must be understood", `mc:MustUnderstand="n"`, ``, `only a program that knows "urn:newer"`},
		{"no choice", ``, `<mc:AlternateContent/>`, "names none"},
		{"for nobody", ``, `<mc:AlternateContent><mc:Choice/></mc:AlternateContent>`, "does not say whom"},
		{"the other way round", ``, `<mc:AlternateContent><mc:Fallback/><mc:Choice Requires="n"/></mc:AlternateContent>`, "<Fallback> stands inside"},
		{"two for everybody", ``, `<mc:AlternateContent><mc:Choice Requires="n"/><mc:Fallback/><mc:Fallback/></mc:AlternateContent>`, "<Fallback> stands inside"},
		{"a cell between them", ``, `<mc:AlternateContent><mc:Choice Requires="n"/>` + second + `</mc:AlternateContent>`, "<c> stands inside"},
		{"text between them", ``, `<mc:AlternateContent>x<mc:Choice Requires="n"/></mc:AlternateContent>`, "text stands loose between alternatives"},
		{"a wrong cell in the one that is meant", ``, either("", `<c r="B1"><v>x</v></c>`), `cell B1: .*holds "x"`},
	}
	for _, tt := range faults {
		t.Run(tt.name, func(t *testing.T) {
			_, _, _, err := readAll(sheet(tt.attributes, tt.inside).zip(t))
			requireFault(t, err, tt.want)
		})
	}
}
