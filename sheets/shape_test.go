package sheets_test

import (
	"archive/zip"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"ferrule/sheets/cell"
)

// look is how a column of cells is written.
type look struct{ style, form int }

func drawLook(t *rapid.T) look {
	return look{rapid.SampledFrom([]int{-1, 0, 3, 7, 12, 99, 123, 1199, 1200}).Draw(t, "style"), rapid.IntRange(0, 6).Draw(t, "form")}
}

// write writes a cell with this name.
func (l look) write(name string, value int) string {
	style := ""
	if l.style >= 0 {
		style = fmt.Sprintf(` s="%d"`, l.style)
	}
	switch l.form {
	case 0, 1:
		return fmt.Sprintf(`<c r="%s"%s t="s"><v>%d</v></c>`, name, style, value%4)
	case 2:
		return fmt.Sprintf(`<c r="%s"%s><v>%d</v></c>`, name, style, value)
	case 3:
		return fmt.Sprintf(`<c r="%s"%s><v>%d.5</v></c>`, name, style, value)
	case 4:
		return fmt.Sprintf(`<c r="%s"%s/>`, name, style)
	case 5:
		return fmt.Sprintf(`<c r="%s"%s t="b"><v>1</v></c>`, name, style)
	}
	return fmt.Sprintf(`<c r="%s"%s t="str"><v>x</v></c>`, name, style)
}

// Cells and rows that are written as those above them, but for one here and there, are
// read as if each stood alone.
func TestSameRowsShaped(t *testing.T) {
	// 1,200 looks, every fifth struck through and every seventh a date.
	var looks strings.Builder
	for i := range 1200 {
		fmt.Fprintf(&looks, `<xf fontId="%d" numFmtId="%d"/>`, map[bool]int{true: 1}[i%5 == 3], map[bool]int{true: 14}[i%7 == 0])
	}
	styles := `<styleSheet xmlns="` + mainSpace + `"><fonts><font/><font><strike/></font></fonts><cellXfs>` + looks.String() + `</cellXfs></styleSheet>`
	texts := `<sst xmlns="` + mainSpace + `"><si><t>Platform</t></si><si><t/></si><si><r><rPr><strike/></rPr><t>gone</t></r></si>` +
		`<si><r><t>a</t></r><r><rPr><strike/></rPr><t>b</t></r></si></sst>`
	fast, whole, refused := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		columns := rapid.SliceOfN(rapid.Custom(drawLook), 1, 9).Draw(t, "columns")
		first := rapid.SampledFrom([]int{1, 24, 60, 700}).Draw(t, "first")
		often := rapid.SampledFrom([]string{"another end", "zero", "none", "another look", "another row", "another column", "space", "skip", ""}).Draw(t, "often")
		odd := func(what string) bool {
			if what == often {
				return rapid.IntRange(0, 8).Draw(t, what) == 0
			}
			return rapid.IntRange(0, 200).Draw(t, what) == 0
		}
		ends := []string{``, ` spans="1:9"`, ` spans="1:9" ht="15.75" customHeight="1" x14ac:dyDescent="0.25"`, ` hidden="1"`, ` hidden="1" hidden="1"`, ` `}
		end := rapid.SampledFrom(ends[:4]).Draw(t, "end")
		var b strings.Builder
		number := rapid.SampledFrom([]int{1, 7, 98, 9_996, 1_048_570}).Draw(t, "number")
		for range rapid.IntRange(2, 12).Draw(t, "rows") {
			this, written := end, fmt.Sprint(number)
			if odd("another end") {
				this = rapid.SampledFrom(ends).Draw(t, "this end")
			}
			if odd("zero") {
				written = "0" + written
			}
			fmt.Fprintf(&b, `<row r="%s"%s>`, written, this)
			for i, l := range columns {
				if odd("none") {
					continue
				}
				if odd("another look") {
					l = drawLook(t)
				}
				at := cell.Pos{Row: int32(number), Col: int32(first + i)}
				if odd("another row") {
					at.Row += int32(rapid.SampledFrom([]int{-1, 1, 10}).Draw(t, "by"))
				}
				if odd("another column") {
					at.Col += int32(rapid.SampledFrom([]int{-1, 1, 26}).Draw(t, "by"))
				}
				b.WriteString(l.write(at.String(), number+i))
				if odd("space") {
					b.WriteString("\n ")
				}
			}
			b.WriteString(`</row>`)
			number++
			if odd("skip") {
				number += rapid.SampledFrom([]int{-1, 1, 90}).Draw(t, "by")
			}
		}
		data := rows(b.String()).with(parts{stylesPart: styles, stringsPart: texts}).pack(discard{}, zip.Store)
		fast += requireSame(t, data, rapid.SampledFrom([]int{60, 700, 5000}).Draw(t, "block"))
		if _, _, _, err := readAll(data); err != nil {
			refused++
		} else {
			whole++
		}
	})
	assert.Greater(t, fast, 100, "rows that were taken fast")
	assert.Positive(t, whole, "sheets that were read whole")
	assert.Positive(t, refused, "sheets that were refused")
}
