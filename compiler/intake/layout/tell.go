package layout

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"ferrule/compiler/intake/table"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// tell reports the cells that no row of Layouts claims: a column once, and what stands outside of
// tables by the stretch of rows.
func (r *reader) tell() {
	r.columnsLeft()
	r.looseCells()
	r.barrenRows()
}

// columnsLeft tells of cells in the rows of tables whose columns nothing claims, with their heads.
func (r *reader) columnsLeft() {
	by := map[int32][]bare{}
	var order []int32
	add := func(b bare) {
		if by[b.at.Col] == nil {
			order = append(order, b.at.Col)
		}
		by[b.at.Col] = append(by[b.at.Col], b)
	}
	for _, b := range r.heads {
		if !r.headClaimed(b) {
			add(b)
		}
	}
	for _, b := range r.under {
		add(b)
	}
	slices.Sort(order)
	for _, col := range order {
		all := by[col]
		slices.SortFunc(all, func(a, b bare) int { return cell.ComparePos(a.at, b.at) })
		head := r.headText(col)
		what, way := "column "+cell.Column(col), "column "+cell.Column(col)
		if head != "" {
			what, way = fmt.Sprintf("the column %s (%s)", word.Quote(table.Short(head)), cell.Column(col)), head
		}
		r.unclaimed(all, fmt.Sprintf("no row of Layouts says what %s is", what), fmt.Sprintf("no row of Layouts says what column %s is", word.Quote(head)),
			fmt.Sprintf("write a row is with %s under Where and the column that it holds under As, or a row skip to leave it out", word.Quote(table.Short(way))), all[0].g)
	}
}

// headText gives what stands above a column in the first table that has a head there.
func (r *reader) headText(col int32) string {
	for _, g := range r.gs {
		if h := g.headOf(col); h != nil && h.text != "" {
			return h.text
		}
	}
	return ""
}

// headClaimed tells whether the column of a cell of a header is used.
func (r *reader) headClaimed(b bare) bool {
	for _, g := range r.gs {
		if !(g.extent.header.From > 0 && b.at.Row >= g.extent.header.From && b.at.Row <= g.extent.header.To) {
			continue
		}
		if g.dead {
			return true
		}
		for _, h := range g.heads {
			same := h.col == b.at.Col || slices.ContainsFunc(h.levels, func(c headCell) bool { return c.Value != nil && c.at == b.at })
			if same && int(h.col) < len(g.use) {
				if u := &g.use[h.col]; len(u.rowed) > 0 || u.cross != nil || u.skip {
					return true
				}
			}
		}
	}
	return false
}

// looseCells tells of cells outside of tables.
func (r *reader) looseCells() {
	for len(r.loose) > 0 {
		n := 1
		for n < len(r.loose) && r.loose[n].at.Row <= r.loose[n-1].at.Row+1 {
			n++
		}
		all := r.loose[:n]
		r.loose = r.loose[n:]
		where := fmt.Sprintf("row %d stands", all[0].at.Row)
		if last := all[n-1].at.Row; last > all[0].at.Row {
			where = fmt.Sprintf("rows %d to %d stand", all[0].at.Row, last)
		}
		r.unclaimed(all, where+" outside of every table that is read, and no row of Layouts leaves "+pronoun(all)+" out",
			fmt.Sprintf("cells outside of every table, of which the first says %s", word.Quote(table.Short(all[0].text))),
			fmt.Sprintf("write a row skip with row %s under Where, or let a row table reach over %s", quoteRow(all[0].text), pronoun(all)), nil)
	}
}

func quoteRow(s string) string { return `"` + table.Short(s) + `"` }

func pronoun(all []bare) string {
	if all[0].at.Row == all[len(all)-1].at.Row {
		return "it"
	}
	return "them"
}

// barrenRows tells of rows whose cells are named, and of which nothing comes: nothing is marked in
// them. One that looks like a heading or a remark probably is one.
func (r *reader) barrenRows() {
	var alike []bare
	for len(r.barren) > 0 {
		n := 1
		for n < len(r.barren) && r.barren[n].at.Row == r.barren[0].at.Row {
			n++
		}
		all := r.barren[:n]
		r.barren = r.barren[n:]
		if n == 1 && heading(all[0]) {
			r.unclaimed(all, fmt.Sprintf("row %d holds %s alone, and nothing comes of it: it looks like a heading or a remark", all[0].at.Row, word.Quote(table.Short(all[0].text))),
				fmt.Sprintf("a row holds %s alone, and nothing comes of it", word.Quote(table.Short(all[0].text))),
				fmt.Sprintf("write a row section if it says something of the rows below it, or a row skip with row %s under Where", quoteRow(all[0].text)), all[0].g)
			continue
		}
		alike = append(alike, all[0])
	}
	if len(alike) > 0 {
		r.unmarked(alike)
	}
}

// unmarked tells of rows in which nothing is marked, by the first cell of each.
func (r *reader) unmarked(alike []bare) {
	f := &table.Fault{What: table.Barren, Fix: "mark what fits, or write a row skip to leave them out; a heading is said by a row section"}
	var said []string
	for _, b := range alike[:min(len(alike), manyCells)] {
		f.Cells = append(f.Cells, cell.Place{Sheet: r.sheet, Pos: b.at})
		if len(said) < 4 {
			said = append(said, word.Quote(table.Short(b.text)))
		}
	}
	f.Constant = "nothing is marked in rows: " + strings.Join(said, ", ")
	f.Message = fmt.Sprintf("nothing is marked in %d rows, so nothing is said of %s", len(alike), word.List(said, "and"))
	if len(alike) == 1 {
		f.Message = fmt.Sprintf("nothing is marked in row %d, so nothing is said of %s", alike[0].at.Row, said[0])
	} else if len(alike) > len(said) {
		f.Message += " and others"
	}
	r.report(f)
}

// heading tells whether a cell that stands alone looks like a heading or a remark.
func heading(b bare) bool {
	first, _ := utf8.DecodeRuneInString(b.text)
	return b.bold || b.wide || strings.ContainsRune("*†‡§¹²³•", first) || strings.HasSuffix(b.text, ":") || len(strings.Fields(b.text)) >= 4
}

// unclaimed tells of cells that no row of Layouts claims.
func (r *reader) unclaimed(all []bare, message, constant, fix string, g *reading) {
	f := &table.Fault{What: table.Unclaimed, Fix: fix, Constant: constant, Count: len(all) - 1}
	for _, b := range all[:min(len(all), manyCells)] {
		f.Cells, f.Notes = append(f.Cells, cell.Place{Sheet: r.sheet, Pos: b.at}), append(f.Notes, "")
	}
	count := "1 cell"
	if len(all) > 1 {
		count = fmt.Sprintf("%d cells", len(all))
	}
	f.Message = fmt.Sprintf("%s (%s, from %s %s)", message, count, all[0].at, word.Quote(table.Short(all[0].text)))
	by := r.rows[0].SheetAt
	if g != nil {
		by = g.top.WordAt
	}
	f.Cells, f.Notes = append(f.Cells, by), append(f.Notes, "the sheet is read from here on")
	r.report(f)
}
