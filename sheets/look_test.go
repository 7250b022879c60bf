package sheets_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// coloured is a workbook with a cell of each style: 0 plain, then what is given.
func coloured(t *testing.T, fonts, fills string, xfs ...string) []uint8 {
	t.Helper()
	var row strings.Builder
	for i := range xfs {
		fmt.Fprintf(&row, `<c r="%s1" s="%d"><v>1</v></c>`, cell.Column(int32(i+1)), i)
	}
	p := rows(`<row r="1">` + row.String() + `</row>`).with(parts{stylesPart: `<styleSheet xmlns="` + mainSpace + `"><fonts>` + fonts + `</fonts><fills>` + fills + `</fills><cellXfs>` + strings.Join(xfs, "") + `</cellXfs></styleSheet>`})
	cells, _ := p.one(t)
	var out []uint8
	for i := range xfs {
		out = append(out, cells[cell.Pos{Row: 1, Col: int32(i + 1)}].Look)
	}
	return out
}

// TestLooks holds that equal colours are one look, that what cannot be seen is none, and
// that both ways of reading agree (which rows and `one` check).
func TestLooks(t *testing.T) {
	const (
		none, gray, red, theme, white, tinted = `<fill><patternFill patternType="none"/></fill>`, `<fill><patternFill patternType="gray125"/></fill>`,
			`<fill><patternFill patternType="solid"><fgColor rgb="FFFF0000"/><bgColor indexed="64"/></patternFill></fill>`,
			`<fill><patternFill patternType="solid"><fgColor theme="4"/></patternFill></fill>`,
			`<fill><patternFill patternType="solid"><fgColor rgb="FFFFFFFF"/></patternFill></fill>`,
			`<fill><patternFill patternType="solid"><fgColor theme="4" tint="0.5"/></patternFill></fill>`
		fonts = `<font/><font><color theme="1"/></font><font><color rgb="FFC00000"/></font><font><u/><color theme="10"/></font><font><color rgb="00c00000"/></font>`
	)
	got := coloured(t, fonts, none+gray+red+theme+white+tinted+red,
		`<xf/>`, `<xf fillId="2"/>`, `<xf fillId="6"/>`, `<xf fillId="4"/>`, `<xf fillId="3"/>`, `<xf fillId="5"/>`,
		`<xf fontId="1"/>`, `<xf fontId="2"/>`, `<xf fontId="4"/>`, `<xf fontId="3"/>`, `<xf fontId="2" fillId="2"/>`, `<xf fillId="99"/>`)
	assert.Equal(t, []uint8{0, 1, 1, 0, 2, 3, 0, 4, 4, 0, 5, 0}, got)
}

// TestManyLooks holds that more looks than are told apart are one.
func TestManyLooks(t *testing.T) {
	var fills strings.Builder
	xfs := []string{`<xf/>`}
	for i := range 300 {
		fmt.Fprintf(&fills, `<fill><patternFill patternType="solid"><fgColor rgb="FF%06X"/></patternFill></fill>`, i+1)
		xfs = append(xfs, fmt.Sprintf(`<xf fillId="%d"/>`, i))
	}
	got := coloured(t, `<font/>`, fills.String(), xfs...)
	assert.Equal(t, uint8(1), got[1])
	assert.NotEqual(t, got[1], got[2])
	assert.Equal(t, got[299], got[300])
	assert.NotZero(t, got[300])
}

func commented(t *testing.T, p parts) ([]cell.Pos, int, error) {
	t.Helper()
	data := p.zip(t)
	book, err := sheets.Read(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	return book.Commented(0, nil)
}

func TestCommented(t *testing.T) {
	const (
		sheetRels = "book/_rels/one.xml.rels"
		notes     = `<comments xmlns="` + mainSpace + `"><authors><author>A</author></authors><commentList><comment ref="B3" authorId="0"><text><t>x</t></text></comment><comment ref="A2" authorId="0"><text><t>y</t></text></comment><comment ref="?" authorId="0"/></commentList></comments>`
		threads   = `<ThreadedComments xmlns="http://schemas.microsoft.com/office/spreadsheetml/2018/threadedcomments"><threadedComment ref="B3" id="1"><text>x</text></threadedComment><threadedComment ref="C9" id="2"><text>x</text></threadedComment></ThreadedComments>`
		thread    = "http://schemas.microsoft.com/office/2017/10/relationships/threadedComment"
	)
	at, n, err := commented(t, ordinary())
	require.NoError(t, err)
	assert.Empty(t, at)
	assert.Zero(t, n)

	both := ordinary().with(parts{sheetRels: rels("a comments c.xml", "b "+thread+" t.xml", "c hyperlink nowhere.xml"), "book/c.xml": notes, "book/t.xml": threads})
	at, n, err = commented(t, both)
	require.NoError(t, err)
	assert.Equal(t, []cell.Pos{{Row: 2, Col: 1}, {Row: 3, Col: 2}, {Row: 9, Col: 3}}, at)
	assert.Equal(t, 3, n)

	_, _, err = commented(t, both.with(parts{"book/c.xml": notes[:len(notes)-20]}))
	requireFault(t, err, "cut off|damaged|complete|ends")
	at, _, err = commented(t, both.with(parts{"book/c.xml": ""}))
	require.NoError(t, err)
	assert.Len(t, at, 2, "a part that is not there holds no comment")

	var many strings.Builder
	for i := range 3000 {
		fmt.Fprintf(&many, `<comment ref="A%d"/>`, i+1)
	}
	at, n, err = commented(t, both.with(parts{"book/c.xml": `<comments>` + many.String() + `</comments>`}))
	require.NoError(t, err)
	assert.Len(t, at, 1000)
	assert.Equal(t, 3002, n)
}
