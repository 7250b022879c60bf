package sheets_test

import (
	"archive/zip"
	"bytes"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/tidy/share"
	"ferrule/sheets"
)

// richTexts are shared texts as spreadsheet programs write them, and one that they do not.
const richTexts = `<si><r><t>Air </t></r><r><rPr><b/><sz val="11"/><color theme="1"/><rFont val="Calibri"/><family val="2"/><scheme val="minor"/></rPr><t xml:space="preserve">beam </t></r></si>` +
	`<si><r><rPr><strike/><sz val="11"/></rPr><t>HPR-1101</t></r><r><rPr><strike val="0"/></rPr><t> HPR-1102</t></r></si>` +
	`<si><r><rPr/><t>a</t></r><r><rPr><rFont val="ＭＳ Ｐゴシック"/></rPr><t/></r></si>` +
	"<si>\n <t>課</t>\n <rPh sb=\"0\" eb=\"1\"><t>カ</t></rPh><phoneticPr fontId=\"1\" type=\"noConversion\"/></si>" +
	`<si><r><t>_x00</t></r><r><t>41_&amp;</t></r><phoneticPr fontId="1"/></si><si /><si><t>last</t></si>`

func richBook(texts string) parts {
	cells := `<row r="1">` + strings.Repeat(`<c t="s"><v>0</v></c><c s="3" t="s"><v>1</v></c><c t="s"><v>2</v></c>`, 2) + `</row>`
	return rows(cells).with(parts{stringsPart: `<sst xmlns="` + mainSpace + `">` + texts + `</sst>`})
}

func TestRichTexts(t *testing.T) {
	data := richBook(strings.Replace(richTexts, "<si />", "", 1)).zip(t)
	requireSame(t, data, 100)
	b, err := sheets.Read(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	assert.Equal(t, 6, b.SharedTexts())
	assert.Equal(t, 5, sheets.FastTexts(richTexts), "how many are not left to the parser, up to the odd one")
	cells, _ := richBook(richTexts).one(t)
	for pos, v := range cells {
		switch pos.String() {
		case "A1":
			assert.Equal(t, text("Air beam "), v)
		case "B1":
			assert.Equal(t, sheets.Value{Kind: sheets.Text, Text: "HPR-1101 HPR-1102", Partly: true}, v)
		case "C1":
			assert.Equal(t, text("a"), v)
		}
	}
}

// Rich texts with any few bytes changed are read by both ways alike, or refused alike.
func TestRichTextsDamaged(t *testing.T) {
	random := rand.New(rand.NewPCG(31, 7))
	read, tries := 0, share.Of(t, 3_000)
	for range tries {
		data := richBook(damage(random, richTexts)).pack(t, zip.Store)
		requireSame(t, data, 1<<10)
		if _, err := sheets.ReadSlow(data); err == nil {
			read++
		}
	}
	assert.Greater(t, read, tries/15, "some are read all the same")
}

// BenchmarkRich reads 20,000 shared texts of two runs each, past the parser and through it.
func BenchmarkRich(b *testing.B) {
	one := richTexts[:strings.Index(richTexts, "</si>")+len("</si>")]
	data := richBook(strings.Repeat(one, 20_000)).zip(b)
	b.Run("quick", func(b *testing.B) {
		for b.Loop() {
			_, err := sheets.Read(bytes.NewReader(data), int64(len(data)))
			require.NoError(b, err)
		}
	})
	b.Run("parser", func(b *testing.B) {
		for b.Loop() {
			_, err := sheets.ReadSlow(data)
			require.NoError(b, err)
		}
	})
}
