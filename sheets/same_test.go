package sheets_test

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ferrule/compiler/tidy/share"
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
	cases, step := 0, share.Step(t)
	for seed := range uint64(2) {
		for place := 0; ; place++ {
			before := cases
			for way := 0; ; way++ {
				d, found := single(seed, place, way)
				data := d.book().pack(t, zip.Store)
				if !found() {
					break
				}
				if cases%step == 0 {
					requireSame(t, data, 16, 40+37*(cases%40))
				}
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
		{"too much space", sheetXML(row(1) + strings.Repeat("\n", 5<<20) + row(2)), "more than 1 MiB", 1},
		{"a row without an end", sheetXML(row(1) + `<row r="2">` + strings.Repeat(`<c><v>1</v></c>`, 150_000)), "beyond the last column", 1},
		{"a long row", sheetXML(row(1) + `<row r="2">` + strings.Repeat(`<c t="str"><v>`+strings.Repeat("x", 30_000)+`</v></c>`, 200) + `</row>` + row(3)), "", 2},
		{"a sign behind Z in a name", sheetXML(row(1) + `<row r="2"><c r="[2"><v>1</v></c></row>`), `has the name "\[2"`, 1},
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

// Sheets as several programs write them do not need the XML parser, but for the first row where rows have no
// numbers.
func TestFastForAllRows(t *testing.T) {
	tests := []struct {
		name, row string
		slow      int
	}{
		{"spreadsheet programs", `<row r="%d" spans="1:4" ht="15.75" customHeight="1" x14ac:dyDescent="0.25"><c r="A%[1]d" s="1" t="s"><v>1</v></c><c r="B%[1]d"><f>A1&amp;"x"</f><v>0.30000000000000004</v></c><c r="C%[1]d" s="4"/><c r="D%[1]d" t="b"><v>1</v></c></row>`, 0},
		{"office suites", `<row r="%d" customFormat="false" ht="12.8" hidden="false" customHeight="false" outlineLevel="0" collapsed="false"><c r="A%[1]d" s="0" t="n"><v>7</v></c><c r="B%[1]d" s="0" t="e"><f aca="false">1/0</f><v>#DIV/0!</v></c><c r="C%[1]d" s="1" t="str"><f aca="false">"ä"</f><v>ä</v></c></row>`, 0},
		{"libraries", `<row r="%d"><c r="A%[1]d" t="inlineStr"><is><t xml:space="preserve"> &#34;Größe&#34; &#xA;</t></is></c><c r="B%[1]d" t="str"><v>a&lt;b</v></c><c r="C%[1]d" t="d"><v>2024-01-02</v></c></row>` + "\n", 0},
		{"other libraries", "\n  " + `<row r="%d">` + "\n   " + `<c r="A%[1]d" s="1" /><c r="B%[1]d" t="n">` + "\n  " + `<v>5</v>` + "\r\n  " + `</c><c r="C%[1]d"><f>A1</f><v /></c><c r="D%[1]d"><v>1.5e-3</v></c></row>`, 0},
		{"libraries that count on", `<row><c><v>%d</v></c><c t="s"><v>1</v></c></row>`, 1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var b strings.Builder
			for i := 1; i <= 50; i++ {
				fmt.Fprintf(&b, tt.row, i)
			}
			assert.Equal(t, 50-tt.slow, requireSame(t, rows(b.String()).pack(t, zip.Store), 16, 300, 4096))
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
	for range share.Of(t, 3000) {
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
