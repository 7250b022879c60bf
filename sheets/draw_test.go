package sheets_test

import (
	"encoding/binary"
	"math/rand/v2"
	"strconv"
	"strings"

	"pgregory.net/rapid"
)

// drawer draws sheets.
type drawer struct {
	pick func(n int) int                      // one of n
	odd  func(others []string) (string, bool) // whether a place is odd, and how
}

// oddity draws a text that is as usual or one of the others.
func (d drawer) oddity(usual string, others ...string) string {
	if other, is := d.odd(others); is {
		return other
	}
	return usual
}

func (d drawer) one(of ...string) string { return of[d.pick(len(of))] }

// drawn draws from rapid; one place in so many is odd.
func drawn(t *rapid.T, rare int) drawer {
	return drawer{
		pick: func(n int) int { return rapid.IntRange(0, n-1).Draw(t, "pick") },
		odd: func(others []string) (string, bool) {
			if rapid.IntRange(1, rare).Draw(t, "odd") < rare {
				return "", false
			}
			return rapid.SampledFrom(others).Draw(t, "as"), true
		},
	}
}

// single draws sheets with a single odd place, the one of that number, in the way of
// that number. found tells whether there was such a place with such a way.
func single(seed uint64, place, way int) (d drawer, found func() bool) {
	random := rand.New(rand.NewPCG(seed, 1))
	seen, is := 0, false
	d.pick = random.IntN
	d.odd = func(others []string) (string, bool) {
		seen++
		if seen != place+1 || way >= len(others) {
			return "", false
		}
		is = true
		return others[way], true
	}
	return d, func() bool { return is }
}

// cell draws a cell for a column of a row, most of the ordinary form.
func (d drawer) cell(row, col int) string {
	name := string(rune('A'+col)) + strconv.Itoa(row)
	head := d.oddity(` r="`+name+`"`, ``, ` r='`+name+`'`, ` r="A1"`, ` r="`+strings.ToLower(name)+`"`, `  r="`+name+`"`, "\n"+` r="`+name+`"`,
		` r="`+name+`" cm="1"`, ` ph="1" vm="2" r="`+name+`"`, ` r="`+name+`" x="y"`, ` xmlns:q="urn:q" r="`+name+`" q:r="Z9"`, ` r="`+name+`" r="`+name+`"`,
		` r="XFD`+strconv.Itoa(row)+`"`, ` r="XFE`+strconv.Itoa(row)+`"`, ` r="`+string(rune('A'+col))+`0`+strconv.Itoa(row)+`"`)
	head += d.oddity(d.one(``, ` s="0"`, ` s="1"`, ` s="3"`, ` s="6"`), ` s="7"`, ` s="x"`, ` s=""`, ` s="-1"`, ` s="02"`, ` s="4" s="4"`)
	kind := d.one("", "", "n", "s", "s", "s", "str", "inlineStr", "b", "e", "d")
	if kind != "" {
		head += d.oddity(` t="`+kind+`"`, ` t="q"`, ` t=""`, ` t = "`+kind+`"`)
	}
	return "<c" + head + d.inside(kind)
}

func (d drawer) inside(kind string) string {
	if d.pick(10) == 0 {
		return d.oddity(`/>`, ` />`, `></c>`, `> </c>`, `>x</c>`, `><extLst/></c>`)
	}
	value := d.value(kind)
	if kind == "inlineStr" {
		value = d.oddity(`<is><t>`+value+`</t></is>`, `<is><t xml:space="preserve">`+value+`</t></is>`, `<is><r><rPr><strike/></rPr><t>`+value+`</t></r></is>`,
			`<is/>`, `<is><t/></is>`, `<is> <t>`+value+`</t></is>`, `<v>1</v>`, `<is><t>a</t><t>b</t></is>`)
	} else {
		value = d.oddity(`<v>`+value+`</v>`, `<v/>`, `<v />`, `<v></v>`, `<v xml:space="preserve">`+value+`</v>`, `<v><!-- 1 -->`+value+`</v>`,
			`<v><![CDATA[`+value+`]]></v>`, `<v>`+value+`<?pi?></v>`, `<v>1</v><v>2</v>`, `<v>`+value+`</v ></v>`, `<v>`+value, `<is><t>x</t></is>`, `<v> `+value+` </v>`)
	}
	formula := d.oddity(``, `<f>SUM(A1:B2)&gt;"ä"</f>`, `<f t="shared" ref="A1:B2" si="0">A1</f>`, `<f t="shared" si="0"/>`, `<f ca="1" t="array"/>`, `<f x="1">A1</f>`, `<f>=A1</f>`, `<f/>`,
		`<f aca="false">`+"A1\r\n</f>")
	end := d.oddity(`</c>`, ` </c>`, `</c >`, `</d>`, ``)
	return ">" + formula + value + end
}

// drawable gives values for each type of cell: such as programs write, and others.
func drawable(kind string) (usual, others []string) {
	switch kind {
	case "", "n":
		return []string{"12", "0", "2009", "0.5", "-3", "123456789012345", "0.30000000000000004", "45293.5", "7.25", "-0.125"},
			[]string{"12.50", "-0", "007", "1e3", "1.5E-7", "1234567890123456", "0.1234567890123", "+5", ".5", "5.", "0.0000001", "0.00000001",
				"99999999999999999999", "60", "1,5", "NaN", "0x10", "1_0", " 7", "1e999", "&#49;", "1234567", "12345678"}
	case "s":
		return []string{"0", "1", "2"}, []string{"3", "4", "5", "6", "-1", "x", "01", " 1", "1 ", "&#49;", "1234567890", "0000001", "00000001"}
	case "b":
		return []string{"1", "0"}, []string{"true", " 1", "2", ""}
	case "e":
		return []string{"#N/A", "#REF!"}, []string{""}
	case "d":
		return []string{"2024-01-02"}, []string{"2024-01-02T10:00:00", "x", "1900-02-29"}
	}
	return []string{"Front", "Größe", "a &amp; b", "&#228;&#x41;", "_x0041_", "tab\t.", "😀", "a>b", "]]&gt;", "&lt;&quot;&apos;"},
		[]string{"&bad;", "&#0;", "&#xD800;", "&#13;", "a]]>b", "&amp;]]>", "x\r\ny", "\x01", "\xff", "\xef\xbf\xbe", "&amp", "&#1234567890;", "&#X41;", strings.Repeat("long ", 300), strings.Repeat("x", 32_768)}
}

// value draws a value for a type of cell.
func (d drawer) value(kind string) string {
	usual, others := drawable(kind)
	return d.oddity(d.one(usual...), others...)
}

func (d drawer) sheet() string {
	var b strings.Builder
	n := 0
	for range d.pick(13) {
		n += []int{1, 1, 1, 1, 2, 90_000}[d.pick(6)]
		r, last := strconv.Itoa(n), strconv.Itoa(n-1)
		head := d.oddity(` r="`+r+`"`, ``, ` r='`+r+`'`, ` r="1"`, ` r="`+last+`"`, ` r="0`+r+`"`, ` r="`+r+`" hidden="1"`, ` r="`+r+`" hidden="0"`, ` r="`+r+`" hidden="maybe"`, ` r="`+r+`" spans="1:3" ht="15.75" customHeight="1"`,
			` r="`+r+`" x14ac:dyDescent="0.25"`, ` r="`+r+`" s="99" collapsed="1"`, ` r="`+r+`" zz="1"`, ` r="`+r+`" xmlns="urn:other"`, ` r="`+r+`" spans="a&amp;b"`, ` r="`+r+`" ht="1" ht="2"`)
		if d.oddity("full", "empty") == "empty" {
			b.WriteString(`<row` + head + d.oddity(`/>`, ` />`, `></row>`, "/ >"))
			continue
		}
		b.WriteString(`<row` + head + `>`)
		for col := range d.pick(6) {
			b.WriteString(d.cell(n, col))
			b.WriteString(d.oddity("", " ", "\n\t", "x", "<!-- c -->", "<?pi?>", "<extLst/>", "<d/>"))
		}
		b.WriteString(d.oddity(`</row>`, "</row>\r\n", "<extLst><x/></extLst></row>", "</row><!-- <row r=\"1\"/> -->", "</row><?pi <row?>", "</row> x", "</row >", `</row><row2/>`, ""))
	}
	return b.String()
}

func (d drawer) texts() string {
	var b strings.Builder
	for range 5 {
		text := d.value("str")
		b.WriteString(d.oddity(`<si><t>`+text+`</t></si>`, `<si><t xml:space="preserve"> `+text+`</t></si>`, `<si/>`, `<si><t/></si>`, "\n<si>\n<t>a</t>\n</si>", `<si><r><t>`+text+`</t></r></si>`,
			`<si><t>課</t><rPh sb="0" eb="1"><t>カ</t></rPh></si>`, `<!-- --><si><t>x</t></si>`, `<si><t><![CDATA[x]]></t></si>`, `<si><t>]]></t></si>`, `<si id="1"><t>y</t></si>`, `<si><t>x</t>z</si>`, `<x/>`))
	}
	return b.String()
}

// book draws the parts of a workbook with a sheet of all kinds of oddities.
func (d drawer) book() parts {
	head := d.oddity(`<worksheet xmlns="`+mainSpace+`">`, `<?xml version="1.0" encoding="UTF-8"?>`+"\n"+`<worksheet xmlns="`+strictSpace+`">`, "\xef\xbb\xbf"+`<worksheet xmlns="`+mainSpace+`"><cols><col min="1" max="2" hidden="1"/></cols>`,
		`<x:worksheet xmlns:x="`+mainSpace+`" xmlns="`+mainSpace+`">`, `<worksheet xmlns="urn:x">`, `<!-- <sheetData> --><worksheet xmlns="`+mainSpace+`">`)
	data := d.oddity(`<sheetData>`, `<sheetData >`, `<sheetData xmlns="urn:x">`, `<sheetData xmlns="`+strictSpace+`">`, "<sheetData/>", "<sheetData>\n\n", "<sheetData></sheetData>")
	tail := d.oddity(`</sheetData></worksheet>`, `</sheetData><mergeCells><mergeCell ref="A1:B2"/></mergeCells></worksheet>`, `</sheetData>`, `</sheetData ></worksheet>`, ``,
		`</sheetData><rowBreaks><brk/></rowBreaks><hyperlinks><hyperlink ref="A1"/></hyperlinks></worksheet>`, `</sheetData></worksheet><x/>`, `</sheetData2>`, `</sheetData></worksheet>`+"\n\n<")
	if strings.HasPrefix(head, "<x:") {
		tail = strings.Replace(tail, "</worksheet>", "</x:worksheet>", 1)
	}
	sheet := head + data + d.sheet() + tail
	if d.pick(31) == 0 {
		sheet = inUTF16(strings.ToValidUTF8(sheet, "?"), binary.LittleEndian)
	}
	book := ordinary()
	book[sheetPart] = sheet
	book[stringsPart] = `<sst xmlns="` + mainSpace + `">` + d.texts() + `</sst>`
	return book
}
