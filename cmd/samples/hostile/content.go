package main

import (
	"fmt"
	"strings"
	"unicode/utf16"
)

// utf16Text is text in UTF-16 with its mark.
func utf16Text(text string, high bool) string {
	var b strings.Builder
	for _, u := range append([]uint16{0xfeff}, utf16.Encode([]rune(text))...) {
		two := [2]byte{byte(u), byte(u >> 8)}
		if high {
			two[0], two[1] = two[1], two[0]
		}
		b.Write(two[:])
	}
	return b.String()
}

// inline is a row with one inline text.
func inline(text string) string {
	return `<row r="1"><c r="A1" t="inlineStr"><is><t>` + text + `</t></is></c></row>`
}

// declared puts a DOCTYPE before a sheet.
func declared(doctype, rows string) book {
	return good().with(sheetPart, strings.Replace(sheet(rows), xmlHead, xmlHead+doctype, 1))
}

// texts are sheets whose XML is in other encodings, uses entities or never ends.
func texts() []sample {
	wide := strings.Replace(sheet(inline("Größe 😀")), "UTF-8", "UTF-16", 1)
	laughs := `<!DOCTYPE x [<!ENTITY a "ha">`
	for c := 'b'; c < 'k'; c++ {
		laughs += fmt.Sprintf(`<!ENTITY %c "%s">`, c, strings.Repeat(fmt.Sprintf("&%c;", c-1), 10))
	}
	return []sample{
		{"utf-16-low", good().with(sheetPart, utf16Text(wide, false)).zip()},
		{"utf-16-high", good().with(sheetPart, utf16Text(wide, true)).zip()},
		{"utf-16-half-character", good().with(sheetPart, utf16Text(wide, false)[:len(utf16Text(wide, false))-1]).zip()},
		{"latin-1-declared", good().with(sheetPart, strings.Replace(sheet(inline("Gr\xf6\xdfe")), "UTF-8", "ISO-8859-1", 1)).zip()},
		{"latin-1-undeclared", rows(inline("Gr\xf6\xdfe")).zip()},
		{"entities-of-entities", declared(laughs+`]>`, inline("&j;")).zip()},
		{"entity-outside", declared(`<!DOCTYPE x [<!ENTITY a SYSTEM "file:///etc/passwd">]>`, inline("&a;")).zip()},
		{"entity-unknown", rows(inline("&nbsp;")).zip()},
		{"entity-of-zero", rows(inline("&#0;")).zip()},
		{"entity-beyond", rows(inline("&#x110000;")).zip()},
		{"control-characters", rows(inline("a\x01b")).zip()},
		{"control-characters-escaped", rows(inline("a_x0001_b_x000D_c&#9;d")).zip()},
		{"nested-deep", rows(strings.Repeat("<row>", 100_000)).zip()},
		{"nested-deep-after", rows(goodRows, strings.Repeat("<extLst>", 100_000)).zip()},
		{"attributes-many", rows(`<row r="1" ` + manyAttributes(20_000) + `/>`).zip()},
		{"attribute-long", rows(`<row r="1" spans="` + strings.Repeat("1", 5<<20) + `"/>`).zip()},
		{"text-long", rows(inline(strings.Repeat("x", 5<<20))).zip()},
		{"comment-long", rows(goodRows + `<!--` + strings.Repeat(" ", 5<<20) + `-->`).zip()},
		{"xml-cut-off", good().with(sheetPart, strings.TrimSuffix(sheet(goodRows), "</sheetData></worksheet>")).zip()},
		{"xml-cut-off-in-a-row", good().with(sheetPart, sheet(goodRows)[:strings.Index(sheet(goodRows), `<c r="B3"`)]).zip()},
		{"xml-twice", good().with(sheetPart, sheet(goodRows)+sheet(goodRows)[len(xmlHead):]).zip()},
	}
}

func manyAttributes(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, `a%d="" `, i)
	}
	return b.String()
}

// cells are sheets whose rows and cells are odd or break the rules.
func cells() []sample {
	one := func(xml string) []byte { return rows(`<row r="1"><c r="A1"` + xml + `</c></row>`).zip() }
	return []sample{
		{"rows-out-of-order", rows(`<row r="2"><c r="A2"><v>2</v></c></row><row r="1"><c r="A1"><v>1</v></c></row>`).zip()},
		{"row-twice", rows(`<row r="2"><c r="A2"><v>2</v></c></row><row r="2"><c r="B2"><v>1</v></c></row>`).zip()},
		{"cells-out-of-order", rows(`<row r="2"><c r="B2"><v>2</v></c><c r="A2"><v>1</v></c></row>`).zip()},
		{"cell-twice", rows(`<row r="2"><c r="A2"><v>2</v></c><c r="A2"><v>1</v></c></row>`).zip()},
		{"cell-of-another-row", rows(`<row r="2"><c r="A3"><v>2</v></c></row>`).zip()},
		{"cell-beyond", rows(`<row r="2"><c r="XFE2"><v>2</v></c></row>`).zip()},
		{"row-beyond", rows(`<row r="1048577"><c><v>2</v></c></row>`).zip()},
		{"text-index-beyond", one(` t="s"><v>3</v>`)},
		{"text-index-negative", one(` t="s"><v>-1</v>`)},
		{"style-beyond", one(` s="2"><v>3</v>`)},
		{"number-not-one", one(`><v>1,5</v>`)},
		{"number-infinite", one(`><v>1e999</v>`)},
		{"number-hexadecimal", one(`><v>0x1p-2</v>`)},
		{"text-too-long", one(` t="str"><v>` + strings.Repeat("x", 32_768) + `</v>`)},
		{"error-cells", rows(`<row r="1"><c r="A1" t="e"><v>#N/A</v></c><c r="B1" t="e"><f>1/0</f><v>#DIV/0!</v></c></row>`).zip()},
		{"dimension-disagrees", good().with(sheetPart, strings.Replace(sheet(goodRows), "<sheetData>", `<dimension ref="A1:A1"/><sheetData>`, 1)).zip()},
		{"far-cells", rows(farCells(20_000)).zip()},
		{"merges-5000", rows(goodRows, `<mergeCells>`+merges(5_000)+`</mergeCells>`).zip()},
		{"merges-overlapping", rows(goodRows, `<mergeCells>`+merges(5_000)+`<mergeCell ref="B9990:C9999"/></mergeCells>`).zip()},
		{"no-cell-names", rows(strings.Repeat(`<row><c><v>1</v></c><c t="s"><v>2</v></c></row>`, 5_000)).zip()},
	}
}

// farCells are rows with one cell each, in the last column.
func farCells(n int) string {
	var b strings.Builder
	for i := 1; i <= n; i++ {
		fmt.Fprintf(&b, `<row r="%d"><c r="XFD%[1]d"><v>%[1]d</v></c></row>`, i)
	}
	return b.String()
}

// merges are ranges one below the other.
func merges(n int) string {
	var b strings.Builder
	for i := 1; i <= n; i++ {
		fmt.Fprintf(&b, `<mergeCell ref="A%d:C%d"/>`, 2*i, 2*i+1)
	}
	return b.String()
}
