package layout

import (
	"fmt"
	"slices"

	"ferrule/compiler/intake/table"
	"ferrule/schema/word"
)

// section says that headings which look alike hold for the rows below them.
type section struct {
	row   *Row
	look  string // bold, merged or ""
	level []target
}

// sectionRow understands a row section: how headings look, and the columns that they say.
func (a *author) sectionRow(p *piece, r *Row) {
	s := &section{row: r, look: word.Fold(r.Where), level: level(r.As)}
	if !slices.Contains([]string{"", "bold", "merged"}, s.look) {
		a.fail(r.WhereAt, fmt.Sprintf("%s under Where of a row section is not how a heading looks%s", said(r.Where), word.DidYouMean(r.Where, []string{"bold", "merged"})), "write bold or merged, or nothing where every row with one filled cell is a heading")
		return
	}
	if r.As == "" {
		a.fail(r.AsAt, "nothing stands under As of a row section", "write the column that the headings say for the rows below them")
		return
	}
	for _, t := range p.sections {
		if t.look == s.look {
			a.contradict(t.row.WhereAt, r.WhereAt, "two rows section are about headings that look alike", "write bold in the one and merged in the other, as they look, or keep one of them")
			return
		}
	}
	p.sections = append(p.sections, s)
}

// current is a section with what its last heading says.
type current struct {
	*section
	*column
	fields [][]table.Field
}

// sectionColumns makes the columns that headings between rows say.
func (g *reading) sectionColumns() {
	for _, s := range g.sections {
		c := g.columnOf(s.row, s.level, elsewhere, "")
		g.about(c, "", 0)
		g.secs = append(g.secs, &current{section: s, column: c})
	}
}

// section takes a row that is a heading of those below it.
func (g *reading) section(level []level8) bool {
	if len(g.secs) == 0 || !g.r.lone() {
		return false
	}
	it := &g.r.items[0]
	for _, look := range []string{"merged", "bold", ""} {
		for _, s := range g.secs {
			if s.look != look || look == "merged" && !it.wide || look == "bold" && !it.bold {
				continue
			}
			g.r.met[s.section.row] = true
			s.set(g, it)
			all(level)
			return true
		}
	}
	return false
}

// set takes a heading, which holds for the rows below it.
func (s *current) set(g *reading, it *item) {
	s.fields = g.values(s.column, &held{*it.Value, it.at})
}
