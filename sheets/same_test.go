package sheets_test

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ferrule/sheets"
)

// told is everything that reading a sheet tells, in order.
type told struct {
	rows    []sheets.Row
	trailer *sheets.Trailer
	fault   sheets.Fault // without its cause
}

func tell(t require.TestingT, b *sheets.Book, p sheets.Pace) (all told, fast int) {
	trailer, fast, err := b.Paced(0, p, func(r *sheets.Row) error {
		all.rows = append(all.rows, sheets.Row{Number: r.Number, Hidden: r.Hidden, Cells: slices.Clone(r.Cells)})
		return nil
	})
	all.trailer = trailer
	if err != nil {
		var f *sheets.Fault
		require.True(t, errors.As(err, &f), "%v", err)
		all.fault = sheets.Fault{Sheet: f.Sheet, Pos: f.Pos, Part: f.Part, Why: f.Why}
	}
	return all, fast
}

// requireSame reads a workbook by the XML parser alone and by the fast scanner, in
// blocks of several sizes and by one and more goroutines, and wants the same rows, the
// same trailer and the same fault each time. It gives how many rows were taken fast.
func requireSame(t require.TestingT, data []byte, sizes ...int) (fast int) {
	slow, err := sheets.ReadSlow(data)
	quick, other := sheets.Read(bytes.NewReader(data), int64(len(data)))
	require.Equal(t, err, other)
	if err != nil || len(slow.Sheets()) == 0 {
		return 0
	}
	require.True(t, sheets.SameTexts(slow, quick))
	want, none := tell(t, slow, sheets.Pace{})
	require.Zero(t, none)
	for _, size := range sizes {
		for workers := 1; workers <= 3; workers++ {
			got, n := tell(t, quick, sheets.Pace{Block: size, Workers: workers})
			require.Equal(t, want, got, "blocks of %d bytes, %d goroutines", size, workers)
			fast = max(fast, n)
		}
	}
	return fast
}

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

// Both ways of reading give the same rows or the same fault for sheets of all kinds.
func TestSameRows(t *testing.T) {
	fast, faults, whole := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		rare := rapid.SampledFrom([]int{8, 50, 400}).Draw(t, "rare")
		data := drawn(t, rare).book().pack(discard{}, zip.Store)
		fast += requireSame(t, data, rapid.SampledFrom([]int{16, 60, 200, 700, 5000}).Draw(t, "block"))
		if _, _, _, err := readAll(data); err != nil {
			faults++
		} else {
			whole++
		}
	})
	assert.Positive(t, fast, "rows that were taken fast")
	assert.Positive(t, whole, "sheets that were read whole")
	assert.Positive(t, faults, "sheets that were refused")
}

// Each oddity alone, in sheets that are otherwise as programs write them.
func TestSameRowsOneOddity(t *testing.T) {
	cases := 0
	for seed := range uint64(2) {
		for place := 0; ; place++ {
			before := cases
			for way := 0; ; way++ {
				d, found := single(seed, place, way)
				data := d.book().pack(t, zip.Store)
				if !found() {
					break
				}
				requireSame(t, data, 16, 40+37*(cases%40))
				cases++
			}
			if cases == before {
				break
			}
		}
	}
	assert.Greater(t, cases, 1500)
}

// Sheets in which names do not mean what they say at first sight, and others that a
// scanner of bytes could get wrong.
func TestSameRowsDeclared(t *testing.T) {
	row := func(n int) string { return fmt.Sprintf(`<row r="%d"><c r="A%[1]d"><v>%[1]d</v></c></row>`, n) }
	x := `xmlns:x="` + mainSpace + `"`
	tests := []struct {
		name, sheet, want string // "" where it is good
		fast              int
	}{
		{"plain", sheetXML(row(1) + row(2)), "", 2},
		{"rows of no namespace", `<x:worksheet ` + x + `><x:sheetData>` + row(1) + `</x:sheetData></x:worksheet>`, "<row> stands inside <sheetData>", 0},
		{"rows of another namespace", `<worksheet xmlns="` + mainSpace + `" ` + x + `><x:sheetData xmlns="urn:y">` + row(1) + `</x:sheetData></worksheet>`, "<row> stands inside <sheetData>", 0},
		{"no end of its own", `<worksheet xmlns="` + mainSpace + `"><sheetData/>` + row(1) + `</worksheet>`, "", 0},
		{"other prefixes above", `<x:worksheet ` + x + ` xmlns="` + mainSpace + `"><x:sheetData>` + row(1) + `</x:sheetData></x:worksheet>`, "", 1},
		{"ends in a comment", sheetXML(row(1) + `<!-- ` + row(2) + ` -->` + row(3)), "", 1},
		{"ends in CDATA", sheetXML(row(1) + `<![CDATA[` + row(2) + `]]>` + row(3)), "text stands loose", 1},
		{"line of an error", sheetXML(row(1) + "\n\n" + row(2) + "\n" + `<row r="3"><c></row>`), "line 4", 2},
		{"one odd row among others", sheetXML(row(1) + `<row r='2'><c><v>1</v></c></row>` + row(3)), "", 2},
		{"very much space", sheetXML(row(1) + strings.Repeat(" ", 10_000) + row(2)), "", 1},
		{"too much space", sheetXML(row(1) + strings.Repeat("\n", 5<<20) + row(2)), "more than 4 MiB", 1},
		{"a row without an end", sheetXML(row(1) + `<row r="2">` + strings.Repeat(`<c><v>1</v></c>`, 150_000)), "beyond the last column", 1},
		{"a long row", sheetXML(row(1) + `<row r="2">` + strings.Repeat(`<c t="str"><v>`+strings.Repeat("x", 30_000)+`</v></c>`, 200) + `</row>` + row(3)), "", 2},
		{"a row twice", sheetXML(row(1) + `<row r="1"><c><v>1</v></c></row>`), "row 1 is stored after row 1", 1},
		{"cut off between rows", strings.TrimSuffix(sheetXML(row(1)+row(2)), `</sheetData></worksheet>`), "not complete", 2},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			data := ordinary().with(parts{sheetPart: tt.sheet}).pack(t, zip.Store)
			assert.Equal(t, tt.fast, requireSame(t, data, 16, 4096))
			if _, _, _, err := readAll(data); tt.want == "" {
				assert.NoError(t, err)
			} else {
				requireFault(t, err, tt.want)
			}
		})
	}
}

// Sheets as several programs write them need the XML parser for no row.
func TestFastForAllRows(t *testing.T) {
	tests := []struct{ name, row string }{
		{"spreadsheet programs", `<row r="%d" spans="1:4" ht="15.75" customHeight="1" x14ac:dyDescent="0.25"><c r="A%[1]d" s="1" t="s"><v>1</v></c><c r="B%[1]d"><f>A1&amp;"x"</f><v>0.30000000000000004</v></c><c r="C%[1]d" s="4"/><c r="D%[1]d" t="b"><v>1</v></c></row>`},
		{"office suites", `<row r="%d" customFormat="false" ht="12.8" hidden="false" customHeight="false" outlineLevel="0" collapsed="false"><c r="A%[1]d" s="0" t="n"><v>7</v></c><c r="B%[1]d" s="0" t="e"><f aca="false">1/0</f><v>#DIV/0!</v></c><c r="C%[1]d" s="1" t="str"><f aca="false">"ä"</f><v>ä</v></c></row>`},
		{"libraries", `<row r="%d"><c r="A%[1]d" t="inlineStr"><is><t xml:space="preserve"> &#34;Größe&#34; &#xA;</t></is></c><c r="B%[1]d" t="str"><v>a&lt;b</v></c><c r="C%[1]d" t="d"><v>2024-01-02</v></c></row>` + "\n"},
		{"other libraries", "\n  " + `<row r="%d">` + "\n   " + `<c r="A%[1]d" s="1" /><c r="B%[1]d" t="n">` + "\n  " + `<v>5</v>` + "\r\n  " + `</c><c r="C%[1]d"><f>A1</f><v /></c><c r="D%[1]d"><v>1.5e-3</v></c></row>`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var b strings.Builder
			for i := 1; i <= 50; i++ {
				fmt.Fprintf(&b, tt.row, i)
			}
			assert.Equal(t, 50, requireSame(t, rows(b.String()).pack(t, zip.Store), 16, 300, 4096))
		})
	}
}

// discard lets pack be used where its errors cannot happen.
type discard struct{ testing.TB }

func (discard) Helper() {}

// The same holds for sheets that were damaged before they were packed.
func TestSameRowsDamaged(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 14))
	good := oneOfEach()
	for range 3000 {
		book := ordinary()
		book[sheetPart] = damage(random, good)
		if random.IntN(4) == 0 {
			book[stringsPart] = damage(random, book[stringsPart])
		}
		requireSame(t, book.pack(t, zip.Store), 16+random.IntN(500))
	}
}

// oneOfEach is a sheet with cells of every type.
func oneOfEach() string {
	var b strings.Builder
	for i := 1; i <= 12; i++ {
		fmt.Fprintf(&b, `<row r="%d" spans="1:9" hidden="%d"><c r="A%[1]d" s="3" t="s"><v>%[2]d</v></c><c r="B%[1]d"><v>%d</v></c>`+
			`<c r="C%[1]d" s="1"><v>45293</v></c><c r="D%[1]d" t="str"><f>A&amp;B</f><v>ä</v></c><c r="E%[1]d" t="inlineStr"><is><t>x &#65;</t></is></c>`+
			`<c r="F%[1]d" s="4"/><c r="G%[1]d" t="b"><v>1</v></c><c r="H%[1]d" t="e"><v>#N/A</v></c><c r="I%[1]d"><f t="shared" si="0"/><v>0.125</v></c></row>`, i, i%2, 1990*i)
		if i%4 == 0 {
			b.WriteString("\n")
		}
	}
	return sheetXML(b.String(), `<mergeCells><mergeCell ref="A1:B2"/></mergeCells>`)
}

// damage changes, takes out, puts in or cuts off a few bytes.
func damage(random *rand.Rand, text string) string {
	b := []byte(text)
	for range 1 + random.IntN(3) {
		i := random.IntN(len(b))
		switch random.IntN(6) {
		case 0:
			b[i] ^= 1 << random.IntN(8)
		case 1:
			b[i] = byte(random.IntN(256))
		case 2:
			b = slices.Delete(b, i, min(i+1+random.IntN(5), len(b)))
		case 3:
			b = slices.Insert(b, i, `<>"&' /=!0r]`[random.IntN(12)])
		case 4:
			j := random.IntN(len(b))
			b = slices.Insert(b, i, slices.Clone(b[j:min(j+1+random.IntN(40), len(b))])...)
		default:
			if random.IntN(4) == 0 {
				b = b[:max(1, i)]
			}
		}
		if len(b) == 0 {
			return " "
		}
	}
	return string(b)
}

// FuzzSame holds both ways of reading to the same on any bytes.
func FuzzSame(f *testing.F) {
	book := ordinary()
	f.Add(oneOfEach(), book[stringsPart], uint16(100))
	f.Add(book[sheetPart], book[stringsPart], uint16(0))
	f.Add(sheetXML(`<row r="3"><c r="C3" t="inlineStr"><is><r><rPr><strike/></rPr><t>a</t></r><rPh/></is></c></row><row r="5"><c r="A5"><v>1</v></c></row>`), book[stringsPart], uint16(1))
	f.Fuzz(func(t *testing.T, sheet, texts string, size uint16) {
		changed := ordinary()
		changed[sheetPart], changed[stringsPart] = sheet, texts
		requireSame(t, changed.pack(t, zip.Store), 16+int(size))
	})
}
