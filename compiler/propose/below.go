package propose

import (
	"fmt"
	"strings"

	"ferrule/compiler/propose/shape"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// sayGrid writes what the headings and the cells of a grid say.
func (r *reading) sayGrid() {
	a := r.across
	if a == nil {
		return
	}
	if c := the(r.all, Years); a.split && c != nil {
		a.as = "Platform"
	}
	first, last := a.columns[0], a.columns[len(a.columns)-1]
	where := r.lastHead(first) + " … " + r.lastHead(last)
	if len(a.columns) == 1 {
		where = r.lastHead(first)
	}
	r.rule("across", where, a.as, a.sure, a.why)
	if r.partsInGrid() {
		r.rule("cells", "", "Fits", Likely, "the cells of the grid hold part numbers")
		r.splitCells()
	}
	marks, signs := r.uses()
	if len(marks) == 0 && len(signs) == 0 && r.partsInGrid() {
		return
	}
	for _, u := range marks {
		r.sayMark(u, marks)
	}
	for _, u := range signs {
		r.saySign(u)
	}
	r.counts()
}

// lastHead names a column of a grid.
func (r *reading) lastHead(c *column) string {
	if where := r.where(c); len(c.Heads) == 1 || strings.HasPrefix(where, "column ") {
		return where
	}
	return "column " + cell.Column(c.Col)
}

// splitCells writes how cells of a grid with several parts are parted.
func (r *reading) splitCells() {
	all := &shape.Column{}
	for _, c := range r.across.columns {
		all.Values = append(all.Values, c.Values...)
	}
	r.splitParts("cells", &column{Column: all, role: Grid})
}

// nothingAt tells whether a cell of a grid says that nothing fits.
func (r *reading) nothingAt(text string) bool {
	base, _ := shape.Sign(text)
	if shape.ClassOf(base) != shape.Mark {
		return false
	}
	says, _ := r.explained(base)
	as, _, _ := markMeans(base, says)
	return as == "nothing"
}

// counted says how many.
func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

func quoted(says string) string {
	if says == "" {
		return ""
	}
	return " but by " + word.Quote(says)
}
