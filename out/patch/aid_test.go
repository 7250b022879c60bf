package patch

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"ferrule/sheets"
	"ferrule/sheets/cell"
)

func area(t *testing.T, s string) cell.Range {
	r, ok := cell.ParseRange(s)
	require.True(t, ok, s)
	return r
}

// aided gives every sheet all that it lacks.
func aided(t *testing.T, data []byte) (Change, []State) {
	book, err := sheets.Read(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	states, err := States(book)
	require.NoError(t, err)
	c := Change{Sheet: &Sheet{Name: "_Lists", Hidden: true, Widths: []float64{12}, Colour: "AA3322", Rows: [][]Text{{{Text: "Names"}}, {{Text: "item 2"}}}}}
	for i, s := range states {
		a := Aid{Sheet: i}
		if !s.Print {
			a.Pages = 2
		}
		if !s.Pane {
			a.Pane = cell.Pos{Row: 2, Col: 2}
		}
		if !s.Filter {
			a.Filter = area(t, "A1:C20")
		}
		if !s.Titles {
			a.Title = cell.Pos{Row: 1, Col: 1}
		}
		for col := int32(1); col <= 6; col++ {
			if !s.Wide(col) {
				a.Widths = append(a.Widths, Width{col, 20.5})
			}
		}
		for _, at := range []string{"A2:A60", "B2:B60"} {
			if r := area(t, at); !s.Picked(r) {
				a.Picks = append(a.Picks, Pick{At: r, From: `OFFSET('_Lists'!$A$2,0,0,1,1)&"<"`, Title: "Name & <more>", Prompt: "a 'name',\nor \"two\"", Doubt: strings.Repeat("Not listed. ", i)})
			}
		}
		c.Aids = append(c.Aids, a)
		if at := (cell.Pos{Row: 1, Col: 3}); !s.Notes[at] {
			c.Cells = append(c.Cells, Cell{Sheet: i, At: at, Note: func(string) string { return "about <it>" }})
		}
	}
	return c, states
}

// TestAids gives rich workbooks what they lack, and looks at the copies with another reader: what was there
// before is still there and no more, and what was not there is.
func TestAids(t *testing.T) {
	added := map[string]int{}
	for n := range 70 {
		data, has := rich(t, n)
		c, states := aided(t, data)
		out, err := Apply(data, c)
		require.NoError(t, err, "%d %v", n, has)
		faithful(t, data, out.Bytes, fmt.Sprint(n, has))
		a, err := excelize.OpenReader(bytes.NewReader(data))
		require.NoError(t, err)
		b, err := excelize.OpenReader(bytes.NewReader(out.Bytes))
		require.NoError(t, err)
		assert.Equal(t, a.GetActiveSheetIndex(), b.GetActiveSheetIndex(), "a hidden sheet is not opened")
		shown, err := b.GetSheetVisible("_Lists")
		require.NoError(t, err)
		assert.False(t, shown)
		for i, name := range []string{sheetA, sheetB} {
			aid := c.Aids[i]
			panes, err := b.GetPanes(name)
			require.NoError(t, err)
			assert.True(t, panes.Freeze, "%d %v", n, has)
			if states[i].Pane {
				old, err := a.GetPanes(name)
				require.NoError(t, err)
				assert.Equal(t, old, panes)
			} else {
				assert.Equal(t, "B2", panes.TopLeftCell)
				added["pane"]++
			}
			was, err := a.GetDataValidations(name)
			require.NoError(t, err)
			is, err := b.GetDataValidations(name)
			require.NoError(t, err)
			require.Len(t, is, len(was)+len(aid.Picks))
			for k, p := range aid.Picks {
				v := is[len(was)+k]
				assert.Equal(t, p.At.String(), v.Sqref)
				assert.Equal(t, p.From, strings.NewReplacer("&lt;", "<", "&quot;", `"`, "&amp;", "&").Replace(v.Formula1))
				assert.Equal(t, p.Prompt, *v.Prompt)
				assert.Equal(t, p.Doubt != "", v.ShowErrorMessage)
				added["pick"]++
			}
			for _, w := range aid.Widths {
				wide, err := b.GetColWidth(name, cell.Column(w.Col))
				require.NoError(t, err)
				assert.Equal(t, w.Wide, wide)
			}
			if aid.Pages > 0 {
				layout, err := b.GetPageLayout(name)
				require.NoError(t, err)
				assert.Equal(t, "landscape 9 2 0", fmt.Sprint(*layout.Orientation, " ", *layout.Size, " ", *layout.FitToWidth, " ", *layout.FitToHeight))
				props, err := b.GetSheetProps(name)
				require.NoError(t, err)
				assert.True(t, *props.FitToPage)
				added["print"]++
			}
			titles := slices.ContainsFunc(b.GetDefinedName(), func(d excelize.DefinedName) bool {
				return d.Name == printTitles && d.Scope == name && d.RefersTo == "'"+name+"'!$A:$A,'"+name+"'!$1:$1"
			})
			assert.True(t, titles, "%d %v", n, has)
		}
		for _, s := range c.Aids {
			if s.Filter != (cell.Range{}) {
				added["filter"]++
			}
		}
		require.NoError(t, a.Close())
		require.NoError(t, b.Close())
		// What is there is seen: a second time nothing is lacking.
		again, err := sheets.Read(bytes.NewReader(out.Bytes), int64(len(out.Bytes)))
		require.NoError(t, err)
		now, err := States(again)
		require.NoError(t, err)
		for i := range c.Aids {
			s := now[i]
			assert.True(t, s.Pane && s.Filter && s.Print && s.Titles && s.Wide(1) && s.Wide(6) && s.Picked(area(t, "A2:B90")) && s.Notes[cell.Pos{Row: 1, Col: 3}], "%d %v %+v", n, has, s)
			assert.False(t, s.Wide(7) && !states[i].Wide(7))
		}
	}
	for _, what := range []string{"pane", "pick", "print", "filter"} {
		assert.Greater(t, added[what], 60, what)
	}
}

// A sheet that says nothing of how it is shown, and a header that does not begin in the first column: only what is
// above stays in sight.
func TestFreezesRowsAloneWhereNothingIsSaidOfViews(t *testing.T) {
	x := &part{old: []byte(`<worksheet><sheetData/></worksheet>`)}
	o := outlined(x, worksheetOrder, func(string, tag) {})
	o.freeze(cell.Pos{Row: 4, Col: 1}, nil, nil)
	assert.Equal(t, `<worksheet><sheetViews><sheetView workbookViewId="0"><pane ySplit="3" topLeftCell="A4" activePane="bottomLeft" state="frozen"/>`+
		`<selection pane="bottomLeft" activeCell="A4" sqref="A4"/></sheetView></sheetViews><sheetData/></worksheet>`, string(x.result()))
}
