package layout

import (
	"fmt"
	"slices"

	"ferrule/schema"
	"ferrule/schema/word"
)

// agree tells of rows of one table that contradict each other, whatever stands in the sheet.
func (a *author) agree(p *piece) {
	a.oneEach(p)
	a.marked(p)
	if len(p.across) == 0 && p.cells != nil {
		a.fail(p.cells.row.WordAt, "a row cells is about the cells below across, and the table has no row across", "write a row across with the heads, or delete the row cells")
	}
	for _, s := range p.splits {
		if (s.what == theCells || s.what == theHeads) && len(p.across) == 0 {
			a.fail(s.row.WhereAt, fmt.Sprintf("%s are those of a row across, and the table has none", s.text), "write the head whose cells are split")
		}
		for _, t := range p.splits {
			if t == s {
				break
			}
			if word.Fold(t.text) == word.Fold(s.text) && t.sign == s.sign && t.with != s.with {
				a.contradict(t.row.AsAt, s.row.AsAt, fmt.Sprintf("%s are split at %s as %s and as %s", s.text, said(s.sign), t.with, s.with), "keep one of the two rows")
			}
		}
	}
	if e := p.extent; e.rows.From > 0 && e.header.To > 0 && e.rows.holds(e.header.From) {
		a.fail(p.top.WhereAt, "the rows of the table begin above its heads", fmt.Sprintf("write rows %d-%d, or the header that stands above them", e.header.To+1, max(e.rows.To, e.header.To+1)))
	}
}

// oneEach tells of a column that two rows fill. Of the two the first holds.
func (a *author) oneEach(p *piece) {
	first := map[string]*Row{}
	take := func(r *Row, targets []target) bool {
		for _, t := range targets {
			key := word.Fold(p.alias(t.name))
			if f := first[key]; f != nil && f != r {
				a.contradict(f.AsAt, r.AsAt, fmt.Sprintf("two rows say what %s is: %s and %s", t.name, said(f.Where), said(r.Where)),
					"keep one of them; another table of the sheet is read by a second row table")
				return false
			}
			first[key] = r
		}
		return true
	}
	all := func(h *holding) bool {
		ok := true
		for _, l := range h.levels {
			ok = take(h.row, l) && ok
		}
		return !ok
	}
	p.is = slices.DeleteFunc(p.is, all)
	groups := map[string]*Row{}
	p.across = slices.DeleteFunc(p.across, func(h *holding) bool {
		if g := groups[word.Fold(h.row.As)]; g != nil {
			return false // the same columns, further heads
		}
		groups[word.Fold(h.row.As)] = h.row
		return all(h)
	})
	p.sections = slices.DeleteFunc(p.sections, func(s *section) bool { return !take(s.row, s.level) })
}

// alias gives the column that a name means in a table of its kind: the part of a fitment row
// stands under Fits.
func (p *piece) alias(name string) string {
	if p.kind == schema.Fitment && word.Fold(name) == "part" {
		return fits
	}
	return name
}

const fits = "Fits"

// marked tells of marks that mean the part of the row where no row has one.
func (a *author) marked(p *piece) {
	if len(p.marks) == 0 && len(p.joins) == 0 {
		return
	}
	if len(p.across) == 0 && p.kind != "" {
		at := append(slices.Clone(p.joins), nil)[0]
		row := p.top
		if len(p.marks) > 0 {
			row = p.marks[0].row
		} else if at != nil {
			row = at.row
		}
		a.fail(row.WordAt, "marks stand in the cells below across, and the table has no row across", "write a row across with the heads of the marked columns; other words for the same in a column are said by a row say")
		return
	}
	if p.kind != schema.Fitment || p.part() {
		return
	}
	for _, m := range p.marks {
		if m.part {
			a.fail(m.row.AsAt, fmt.Sprintf("the mark %s means the part of the row, and no row says where that stands", said(m.sign)), "write a row is with the head of the part numbers, and Part under As")
			return
		}
	}
}

// part tells whether a row of Layouts says which part the rows of a grid are about.
func (p *piece) part() bool {
	has := func(levels [][]target) bool {
		return slices.ContainsFunc(levels, func(l []target) bool {
			return slices.ContainsFunc(l, func(t target) bool { return word.Fold(p.alias(t.name)) == "fits" || word.Fold(t.name) == "part" })
		})
	}
	return slices.ContainsFunc(p.is, func(h *holding) bool { return has(h.levels) }) ||
		slices.ContainsFunc(p.across, func(h *holding) bool { return has(h.levels) }) ||
		slices.ContainsFunc(p.sections, func(s *section) bool { return has([][]target{s.level}) })
}
