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
	styles := []int{noStyle, 0, 3, 7, 12, 23, 99, 123, 1199}
	return look{styles[even(t, len(styles))], even(t, 7)}
}

const (
	noStyle    = -1
	emptyStyle = -2
)

// write writes a cell with this name.
func (l look) write(name string, value int) string {
	style := ""
	switch {
	case l.style >= 0:
		style = fmt.Sprintf(` s="%d"`, l.style)
	case l.style == emptyStyle:
		style = ` s=""`
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
	ends := []string{``, ` spans="1:9"`, ` spans="1:9" ht="15.75" customHeight="1" x14ac:dyDescent="0.25"`, ` hidden="1"`, ` hidden="1" hidden="1"`, ` `}
	rapid.Check(t, func(t *rapid.T) {
		columns := rapid.SliceOfN(rapid.Custom(drawLook), 1, 9).Draw(t, "columns")
		first := rapid.SampledFrom([]int{1, 24, 60, 700}).Draw(t, "first")
		end := rapid.SampledFrom(ends[:4]).Draw(t, "end")
		const last = 20
		oddRows, oddCells := map[int]string{}, map[[2]int]string{}
		for range rapid.IntRange(0, 4).Draw(t, "oddities") {
			row, n := even(t, last), even(t, len(rowOddities)+len(cellOddities))
			if n < len(rowOddities) {
				oddRows[row] = rowOddities[n]
			} else {
				oddCells[[2]int{row, even(t, len(columns))}] = cellOddities[n-len(rowOddities)]
			}
		}
		var b strings.Builder
		number := rapid.SampledFrom([]int{1, 7, 90, 9_985, 1_048_555}).Draw(t, "number")
		for row := range last {
			this, written, zero := end, fmt.Sprint(number), ""
			switch oddRows[row] {
			case "another end":
				this = rapid.SampledFrom(ends).Draw(t, "this end")
			case "another number":
				written = rapid.SampledFrom([]string{"0" + written, fmt.Sprint(number + 1), " " + written}).Draw(t, "written")
			case "zeros":
				zero, written = "0", "0"+written
			case "skipped rows":
				number += rapid.SampledFrom([]int{-1, 1, 90}).Draw(t, "by")
				written = fmt.Sprint(number)
			}
			fmt.Fprintf(&b, `<row r="%s"%s>`, written, this)
			for i, l := range columns {
				at := cell.Pos{Row: int32(number), Col: int32(first + i)}
				what := oddCells[[2]int{row, i}]
				switch what {
				case "no cell":
					continue
				case "another look":
					l = drawLook(t)
				case "another style":
					l.style = drawLook(t).style
				case "no such style":
					l.style = 1200
				case "empty style":
					l.style = emptyStyle
				case "another row":
					at.Row += int32(rapid.SampledFrom([]int{-1, 1, 10}).Draw(t, "by"))
				case "another column":
					at.Col += int32(rapid.SampledFrom([]int{-1, 1, 26}).Draw(t, "by"))
				case "space":
					b.WriteString("\n ")
				}
				text := []byte(l.write(cell.Column(at.Col)+zero+fmt.Sprint(at.Row), number+i))
				if what == "another byte" {
					text[even(t, len(text))] = rapid.SampledFrom([]byte("\n\t '\"<>/=0129acrstvAB")).Draw(t, "byte")
				}
				b.Write(text)
			}
			b.WriteString(`</row>`)
			number++
		}
		data := rows(b.String()).with(parts{stylesPart: styles, stringsPart: texts}).pack(discard{}, zip.Store)
		fast += requireSame(t, data, rapid.SampledFrom([]int{60, 700, 5000}).Draw(t, "block"))
		if _, _, _, err := readAll(data); err != nil {
			refused++
		} else {
			whole++
		}
	})
	assert.Greater(t, fast, 300, "rows that were taken fast")
	assert.Greater(t, whole, 10, "sheets that were read whole")
	assert.Greater(t, refused, 10, "sheets that were refused")
}

// A cell with any one byte unlike that of the cell above it is read as if it stood alone.
func TestSameRowsOneByte(t *testing.T) {
	styles := `<styleSheet xmlns="` + mainSpace + `"><cellXfs>` + strings.Repeat(`<xf/>`, 1200) + `</cellXfs></styleSheet>`
	fast := 0
	for form := 1; form <= 4; form++ {
		l := look{1199, form}
		above, below := l.write("A1", 1), l.write("A2", 1)
		for at := range below {
			for _, c := range []byte("\n '\"/>0s") {
				text := []byte(below)
				text[at] = c
				book := rows(`<row r="1">` + above + `</row><row r="2">` + string(text) + `</row>`).with(parts{stylesPart: styles})
				fast += requireSame(t, book.pack(t, zip.Store), 5000)
			}
		}
	}
	assert.Positive(t, fast, "rows that were taken fast")
}

// The ways in which a row or a cell is unlike those above it.
var (
	rowOddities  = []string{"another end", "another number", "zeros", "skipped rows"}
	cellOddities = []string{"no cell", "another look", "another style", "no such style", "empty style", "another row",
		"another column", "space", "another byte"}
)

// even draws each of 0 to n-1 alike; rapid's own numbers are small ones for the most part.
func even(t *rapid.T, n int) (drawn int) {
	for range 10 {
		drawn *= 2
		if rapid.Bool().Draw(t, "bit") {
			drawn++
		}
	}
	return drawn * n >> 10
}
