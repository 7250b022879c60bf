package layout

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// What faults of one table name: so many cells in all of its faults together, of what nobody
// claims, and so many faults one by one.
const (
	mostCells  = 2000
	manyCells  = 100
	mostFaults = 500
)

// fault tells something of a cell; cells of which the same is wrong are told together. key is
// equal for these. It gives whether the cell is named.
func (g *reading) fault(key string, at cell.Pos, by cell.Place, what table.What, message, fix string) bool {
	f := g.faulty[key]
	if f == nil && len(g.order) >= mostFaults {
		key = fmt.Sprint("others ", what)
		f = g.faulty[key]
	}
	if f == nil {
		f = &table.Fault{What: what, Message: message, Fix: fix, Cells: []cell.Place{{Sheet: g.sheet, Pos: at}, by}, Notes: []string{"", "the row of Layouts that reads it"}}
		g.faulty[key] = f
		g.order = append(g.order, key)
		return true
	}
	f.Count++
	if g.telling >= mostCells {
		return false
	}
	g.telling++
	f.Cells, f.Notes = append(f.Cells, cell.Place{Sheet: g.sheet, Pos: at}), append(f.Notes, "")
	return true
}

// tellFaults reports what was gathered, in the order in which it was met.
func (g *reading) tellFaults() {
	for _, key := range g.order {
		f := g.faulty[key]
		if f.Count > 0 {
			f.Constant = f.Message
			f.Message = fmt.Sprintf("%s; %d cells like it", f.Message, f.Count+1)
		}
		g.r.report(f)
	}
}

// unmet tells of what the row table names and the sheet does not have.
func (g *reading) unmet() {
	if g.extent.until != "" && !g.ended {
		g.r.report(&table.Fault{What: table.Unmatched, Cells: []cell.Place{g.top.WhereAt, {Sheet: g.r.sheet}},
			Message: fmt.Sprintf("no row of the sheet %q below the heads begins with %s", g.r.sheet.Name, word.Quote(g.extent.until)),
			Fix:     "write the text with which the first row below the table begins, or leave until out"})
	}
}

// unknownSubjects tells of rows that are about a head or a column which there is not.
func (g *reading) unknownSubjects() {
	check := func(r *Row, p place) {
		if p.what != aHead || len(g.called(p.text)) == 1 || g.columnNamed(p.text) {
			return
		}
		g.find(r, p)
	}
	for _, s := range g.says {
		check(s.row, s.place)
	}
	for _, s := range g.splits {
		check(s.row, s.place)
	}
	for _, d := range g.downs {
		check(d.row, d.place)
		if !slices.ContainsFunc(g.rowed, func(c *column) bool { return c.down == d }) && len(g.called(d.text)) == 1 {
			g.r.report(&table.Fault{What: table.Unmatched, Cells: []cell.Place{d.row.WhereAt, {Sheet: g.r.sheet, Pos: g.called(d.text)[0].at}},
				Message: fmt.Sprintf("no row is says what %s holds, so nothing is read down from it", word.Quote(d.text)), Fix: "write a row is about it, or delete the row down"})
		}
	}
}

// columnNamed tells whether a text is the name of a column that something holds.
func (g *reading) columnNamed(text string) bool {
	_, ok := g.index[word.Fold(g.alias(text))]
	return ok || g.flipping() || strings.EqualFold(text, "part") && g.partAt >= 0
}
