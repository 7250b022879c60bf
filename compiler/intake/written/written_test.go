package written

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/sheets/cell"
)

// sheetOf makes a sheet of lines, cells parted by spaces; `-` is a blank.
func sheetOf(file, name, head string, lines ...string) *Sheet {
	s := &Sheet{Of: &cell.Sheet{File: file, Name: name}, Kind: "fitment", Texts: []string{""}}
	for i, h := range strings.Fields(head) {
		s.Columns = append(s.Columns, Column{Name: h, At: int32(i + 1)})
	}
	for i, l := range lines {
		r := Row{Number: int32(i + 2)}
		for _, text := range strings.Fields(l) {
			text = strings.Trim(text, "-")
			id := slices.Index(s.Texts, text)
			if id < 0 {
				id, s.Texts = len(s.Texts), append(s.Texts, text)
			}
			r.Cells = append(r.Cells, uint32(id))
		}
		s.Rows = append(s.Rows, r)
	}
	return s
}

// changes gives what has changed in a column: row, before and now.
func changes(t *testing.T, old, new *Sheet, column string) (cells []Change, others [2]int) {
	t.Helper()
	ps := Pairs([]*Sheet{old}, []*Sheet{new})
	if !assert.Len(t, ps, 1) {
		return nil, others
	}
	k := slices.IndexFunc(ps[0].Columns, func(c Both) bool { return c.Name == column })
	c := ps[0].Changes(k)
	return c.Cells, [2]int{len(c.Other[0]), len(c.Other[1])}
}

func TestChanges(t *testing.T) {
	old := sheetOf("a", "Fitment", "P Y D", "H7 1 x", "H7 2 y", "H7 3 z")
	for _, c := range []struct {
		name   string
		new    *Sheet
		cells  []Change
		others [2]int
	}{
		{"nothing", old, nil, [2]int{}},
		{"another order", sheetOf("a", "Fitment", "P Y D", "H7 3 z", "H7 1 x", "H7 2 y"), nil, [2]int{}},
		{"a cell", sheetOf("a", "Fitment", "P Y D", "H7 1 x", "H7 2 z", "H7 3 z"), []Change{{1, "y", "z"}}, [2]int{}},
		{"a cell that went blank, in another order", sheetOf("a", "Fitment", "P Y D", "H7 2 -", "H7 3 z", "H7 1 x"), []Change{{0, "y", ""}}, [2]int{}},
		{"two cells of a row", sheetOf("a", "Fitment", "P Y D", "H7 1 x", "H8 2 z", "H7 3 z"), nil, [2]int{1, 1}},
		{"columns in another order, and one more", sheetOf("a", "Fitment", "D N P Y", "x n H7 1", "q n H7 2", "z n H7 3"), []Change{{1, "y", "q"}}, [2]int{}},
		{"a row more", sheetOf("a", "Fitment", "P Y D", "H7 1 x", "H7 2 y", "H7 3 z", "H7 4 z"), nil, [2]int{0, 1}},
		{"a row more that is like another but for the column", sheetOf("a", "Fitment", "P Y D", "H7 1 x", "H7 2 q", "H7 2 r", "H7 3 z"), nil, [2]int{1, 2}},
	} {
		cells, others := changes(t, old, c.new, "D")
		assert.Equal(t, c.cells, cells, c.name)
		assert.Equal(t, c.others, others, c.name)
	}
}

// TestRowsThatAreAlike holds that rows which differ in the column alone are known as a group.
func TestRowsThatAreAlike(t *testing.T) {
	old := sheetOf("a", "Fitment", "P D", "H7 x", "H7 y", "H8 z")
	cells, _ := changes(t, old, sheetOf("a", "Fitment", "P D", "H7 y", "H7 x", "H8 z"), "D")
	assert.Empty(t, cells, "they changed places")
	cells, _ = changes(t, old, sheetOf("a", "Fitment", "P D", "H7 y", "H7 q", "H8 z"), "D")
	assert.Equal(t, []Change{{1, "x", "q"}}, cells)
}

func TestPairs(t *testing.T) {
	of := func(file, name string) *Sheet { return sheetOf(file, name, "P", "H7") }
	names := func(old, new []*Sheet) (out []string) {
		for _, p := range Pairs(old, new) {
			out = append(out, p.Old.Of.File+":"+p.Old.Of.Name+" "+p.New.Of.File+":"+p.New.Of.Name)
		}
		return out
	}
	assert.Equal(t, []string{"a:Fitment a:Fitment", "b:Fitment b:Fitment"}, names([]*Sheet{of("b", "Fitment"), of("a", "Fitment")}, []*Sheet{of("a", "Fitment"), of("b", "Fitment")}))
	assert.Equal(t, []string{"a:Fitment c:fitment"}, names([]*Sheet{of("a", "Fitment")}, []*Sheet{of("c", "fitment")}), "another workbook")
	assert.Equal(t, []string{"a:Fitment a:Fitment H7"}, names([]*Sheet{of("a", "Fitment")}, []*Sheet{of("a", "Fitment H7")}), "another name")
	assert.Empty(t, names([]*Sheet{of("a", "Fitment")}, []*Sheet{of("a", "Fitment H7"), of("a", "Fitment H8")}), "nobody knows which")
	assert.Empty(t, names(nil, []*Sheet{of("a", "Fitment")}))
}
