// Package yardstick is for benchmarks: a large catalogue of one shape, and what a machine
// needs at least to read it.
package yardstick

import (
	"bufio"
	"encoding/xml"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/klauspost/compress/flate"
	"github.com/klauspost/compress/zip"
	"github.com/stretchr/testify/require"
)

// made is a workbook that is written row by row, as spreadsheet programs store one: texts
// are shared, whole numbers are numbers.
type made struct {
	zip    *zip.Writer
	out    *bufio.Writer // the sheet at hand
	rows   int           // of the sheet at hand
	sheets []string
	texts  map[string]int
	order  []string
}

func newMade(w io.Writer) *made {
	z := zip.NewWriter(w)
	z.RegisterCompressor(zip.Deflate, func(w io.Writer) (io.WriteCloser, error) { return flate.NewWriter(w, 6) })
	return &made{zip: z, texts: map[string]int{}}
}

const (
	mainSpace = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	relSpace  = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	pkgSpace  = "http://schemas.openxmlformats.org/package/2006/relationships"
)

func (m *made) sheet(tb testing.TB, name string) {
	m.endSheet(tb)
	m.sheets, m.rows = append(m.sheets, name), 0
	w, err := m.zip.Create(fmt.Sprintf("xl/worksheets/sheet%d.xml", len(m.sheets)))
	require.NoError(tb, err)
	m.out = bufio.NewWriterSize(w, 1<<16)
	_, err = m.out.WriteString(`<worksheet xmlns="` + mainSpace +
		`" xmlns:x14ac="http://schemas.microsoft.com/office/spreadsheetml/2009/9/ac"><sheetData>`)
	require.NoError(tb, err)
}

func (m *made) endSheet(tb testing.TB) {
	if m.out == nil {
		return
	}
	_, err := m.out.WriteString(`</sheetData></worksheet>`)
	require.NoError(tb, err)
	require.NoError(tb, m.out.Flush())
}

// row writes one row; "" stands for a blank cell.
func (m *made) row(tb testing.TB, cells ...string) {
	m.rows++
	number := strconv.Itoa(m.rows)
	line := append([]byte(nil), `<row r="`+number+`" spans="1:`+strconv.Itoa(len(cells))+`" x14ac:dyDescent="0.25">`...)
	for i, text := range cells {
		if text == "" {
			continue
		}
		line = append(line, `<c r="`+string(rune('A'+i))+number+`" s="1"`...)
		if _, err := strconv.Atoi(text); err == nil {
			line = append(line, `><v>`+text+`</v></c>`...)
			continue
		}
		line = append(line, ` t="s"><v>`+strconv.Itoa(m.text(text))+`</v></c>`...)
	}
	_, err := m.out.Write(append(line, `</row>`...))
	require.NoError(tb, err)
}

func (m *made) text(s string) int {
	n, ok := m.texts[s]
	if !ok {
		n = len(m.order)
		m.texts[s] = n
		m.order = append(m.order, s)
	}
	return n
}

func (m *made) close(tb testing.TB) {
	m.endSheet(tb)
	var book, rels, texts strings.Builder
	for i, name := range m.sheets {
		fmt.Fprintf(&book, `<sheet name="%s" sheetId="%d" r:id="r%d"/>`, name, i+1, i+1)
		fmt.Fprintf(&rels, `<Relationship Id="r%d" Type="%s/worksheet" Target="worksheets/sheet%d.xml"/>`, i+1, relSpace, i+1)
	}
	for _, t := range m.order {
		texts.WriteString("<si><t>")
		require.NoError(tb, xml.EscapeText(&texts, []byte(t)))
		texts.WriteString("</t></si>")
	}
	parts := [][2]string{
		{"[Content_Types].xml", `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="xml" ContentType="application/xml"/></Types>`},
		{"_rels/.rels", `<Relationships xmlns="` + pkgSpace + `"><Relationship Id="r1" Type="` + relSpace + `/officeDocument" Target="xl/workbook.xml"/></Relationships>`},
		{"xl/workbook.xml", `<workbook xmlns="` + mainSpace + `" xmlns:r="` + relSpace + `"><sheets>` + book.String() + `</sheets></workbook>`},
		{"xl/_rels/workbook.xml.rels", `<Relationships xmlns="` + pkgSpace + `">` + rels.String() +
			`<Relationship Id="t" Type="` + relSpace + `/sharedStrings" Target="sharedStrings.xml"/>` +
			`<Relationship Id="s" Type="` + relSpace + `/styles" Target="styles.xml"/></Relationships>`},
		{"xl/styles.xml", `<styleSheet xmlns="` + mainSpace + `"><fonts count="1"><font/></fonts><cellXfs count="2"><xf numFmtId="0"/><xf numFmtId="0"/></cellXfs></styleSheet>`},
		{"xl/sharedStrings.xml", `<sst xmlns="` + mainSpace + `">` + texts.String() + `</sst>`},
	}
	for _, p := range parts {
		w, err := m.zip.Create(p[0])
		require.NoError(tb, err)
		_, err = io.WriteString(w, p[1])
		require.NoError(tb, err)
	}
	require.NoError(tb, m.zip.Close())
}

// Workbook is the name of the workbook that Catalogue writes.
const Workbook = "made.xlsx"

// Catalogue writes a catalogue of platforms whose 100 fitment rows each say, year by
// year and suspension by suspension, what fits at five positions: 14 columns, without a gap
// and without a conflict.
func Catalogue(tb testing.TB, platforms int) (dir string) {
	dir = tb.TempDir()
	file, err := os.Create(filepath.Join(dir, Workbook))
	require.NoError(tb, err)
	m := newMade(file)
	front := []string{"Beam", "Air beam", "Leaf", "Independent"}
	rear := []string{"Walking beam", "Four bags", "Two bags", "Leaf", "Rubber"}
	positions := []string{"Front damper", "Rear damper", "Front spring", "Rear spring", "Height valve"}

	m.sheet(tb, "Traits")
	m.row(tb, "Trait", "Value", "Question", "How to tell")
	for i, trait := range []string{"Front suspension", "Rear suspension"} {
		for _, v := range [][]string{front, rear}[i] {
			m.row(tb, trait, v, "Which is it?", "look under the floor")
		}
	}
	m.sheet(tb, "Positions")
	m.row(tb, "Position")
	for _, p := range positions {
		m.row(tb, p)
	}
	m.sheet(tb, "Parts")
	m.row(tb, "Part", "Name", "Family")
	for i := range 5000 {
		m.row(tb, fmt.Sprintf("AB-%04d", i), "Ride part", "Damper")
	}
	m.sheet(tb, "Platforms")
	m.row(tb, "Platform", "Years", "Maker")
	for i := range platforms {
		m.row(tb, fmt.Sprintf("H%04d", i), "2000-2019", "Own works")
	}
	m.sheet(tb, "Vehicles")
	m.row(tb, "Platform", "Years", "Front suspension", "Rear suspension", "On the road")
	for i := range platforms {
		m.row(tb, fmt.Sprintf("H%04d", i), "2000-2019", "any", "any", "4000")
	}
	m.sheet(tb, "Fitment")
	m.row(tb, append([]string{"Platform", "Years", "Front suspension", "Rear suspension", "Precedence"},
		append(positions, "Note", "Front damper note", "Rear damper note", "Height valve note")...)...)
	madeFitment(tb, m, platforms, front, rear)
	m.close(tb)
	require.NoError(tb, file.Close())
	return dir
}

func madeFitment(tb testing.TB, m *made, platforms int, front, rear []string) {
	random := uint32(1)
	part := func() string {
		random = random*1664525 + 1013904223
		text := fmt.Sprintf("AB-%04d", random>>12%5000)
		if random>>28 == 0 {
			text = "2 x " + text
		}
		return text
	}
	note := func() string {
		random = random*1664525 + 1013904223
		return fmt.Sprintf("as drawing %d shows", random>>16%60)
	}
	for p := range platforms {
		for y := range 5 {
			for _, f := range front {
				for _, r := range rear {
					years := fmt.Sprintf("%d-%d", 2000+4*y, 2003+4*y)
					m.row(tb, fmt.Sprintf("H%04d", p), years, f, r, "1", part(), part(), part(), part(), part(),
						note(), note(), note(), note())
				}
			}
		}
	}
}
