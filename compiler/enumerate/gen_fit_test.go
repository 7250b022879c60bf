package enumerate

import (
	"fmt"
	"strings"
)

// fitments makes the fitment rows, sheet by sheet. Each position has a small
// stock of statements, so that cells agree as often as they disagree.
func (g *gen) fitments() {
	stock := make([][]*statement, len(g.c.positions))
	for pos := range stock {
		names := some(g, g.numbers(), g.between(2, 3))
		for range g.between(2, 4) {
			stock[pos] = append(stock[pos], g.statement(pos, names))
		}
	}
	for pos := range stock {
		if other := g.c.opposite(pos); other > pos && g.chance(0.7) {
			g.lend(stock, pos, other)
		}
	}
	for i := range g.between(1, 4) {
		g.fitSheet(i, stock)
	}
	g.sideSheets()
}

// lend gives a position what is said of parts at the one opposite, as on either side of a
// vehicle.
func (g *gen) lend(stock [][]*statement, from, to int) {
	for _, st := range stock[from] {
		if st.kind == "parts" && (g.c.positions[from].clash || !g.c.positions[to].clash) {
			stock[to] = append(stock[to], &statement{kind: "parts", alts: st.alts})
		}
	}
}

func (g *gen) fitSheet(i int, stock [][]*statement) {
	s := g.sheet(pick(g, []string{"Fitment", "FITMENT", "fitment –"}) + fmt.Sprintf(" %d", i+1))
	long := g.chance(0.35)
	s.columns = g.condColumns()
	shown := some(g, count(len(g.c.positions)), g.between(1, len(g.c.positions)))
	if long {
		s.columns = append(s.columns, column{"Position", ""}, column{"Fits", ""})
	}
	for _, pos := range shown {
		if name := g.c.positions[pos].name; !long {
			s.columns = append(s.columns, column{name, ""}, column{name + " note", ""})
		}
	}
	s.columns = append(s.columns, column{"Precedence", ""}, column{"Note", ""}, column{"Cautions", ""})
	for range g.between(1, 7) {
		f := g.fit()
		if long {
			pos := pick(g, shown)
			f.cells["Position"] = g.odd(g.c.positions[pos].name)
			g.fill(f, pos, "Fits", stock)
		}
		for _, pos := range shown {
			if !long && g.chance(0.7) {
				g.fill(f, pos, g.c.positions[pos].name, stock)
			}
		}
		s.rows = append(s.rows, f.row)
		g.c.fits = append(g.c.fits, f)
		if f.fault == "" && g.chance(0.4) {
			twin := g.twin(f)
			s.rows = append(s.rows, twin.row)
			g.c.fits = append(g.c.fits, twin)
		}
	}
	g.mergeCells(s)
}

// fit makes a fitment row without its cells.
func (g *gen) fit() *fit {
	f := &fit{row: newRow(), says: map[int]*statement{}, columns: map[int]string{}}
	f.conds = g.conds(f.row, true)
	for i, t := range g.c.traits {
		if g.chance(0.4) {
			f.traits[i] = cond{}
			f.cells[t.name] = nil
		}
	}
	if g.chance(0.4) {
		f.precedence = pick(g, []int{0, 1, 2, 10})
		f.cells["Precedence"] = f.precedence
	}
	f.notes = make([]string, len(g.c.positions))
	if g.chance(0.2) {
		f.note = pick(g, []string{"look twice", "bolts M12", "from the left"})
		f.cells["Note"] = f.note
	}
	if f.fault = g.spoil(f.row, 0.02); f.fault == "" && f.note != "" && g.chance(0.05) {
		f.nowhere, f.platform, f.cells["Platform"] = true, cond{}, nil
	}
	return f
}

func (g *gen) fill(f *fit, pos int, column string, stock [][]*statement) {
	f.columns[pos] = column
	if g.chance(0.12) {
		return
	}
	st := pick(g, stock[pos])
	text, reason := g.sayText(st)
	if g.chance(0.02) {
		st, reason = &statement{unreadable: true}, ""
		text = pick(g, []string{"FD-1, FD-2", "FD-1; FD-2", "-", "n/a", "FD-1\nFD-2", "—"})
	}
	f.says[pos] = st
	f.cells[column] = text
	f.notes[pos] = reason
	if note := column + " note"; column != "Fits" && reason == "" && g.chance(0.1) {
		f.notes[pos] = pick(g, []string{"see the drawing", "short bolts"})
		f.cells[note] = f.notes[pos]
	}
}

// statement makes something that cells of a position say.
func (g *gen) statement(pos int, names []string) *statement {
	switch g.IntN(14) {
	case 0:
		return &statement{kind: "none"}
	case 1:
		return &statement{kind: "planned"}
	case 2:
		return &statement{kind: "ask"}
	case 3:
		return &statement{kind: "with", with: (pos + 1) % len(g.c.positions)}
	}
	st := &statement{kind: "parts"}
	seen := map[string]bool{}
	for range pick(g, []int{1, 1, 1, 2, 3}) {
		items := g.items(names, g.c.positions[pos].clash)
		if text := sayItems(items); !seen[text] {
			seen[text] = true
			st.alts = append(st.alts, items)
		}
	}
	return st
}

// items makes one alternative. Where Positions rows clash, a lone part has
// its quantity written.
func (g *gen) items(names []string, full bool) []item {
	var out []item
	for range pick(g, []int{1, 1, 1, 2, 2, 3}) {
		out = append(out, item{pick(g, names), pick(g, []int{0, 0, 1, 2, 4})})
	}
	if len(out) == 1 && full && out[0].quantity == 0 {
		out[0].quantity = 2
	}
	if g.chance(0.02) && !full {
		out[0].name = fmt.Sprintf("ZZ-%d", g.between(900, 999)) // nothing declares it
	}
	return out
}

// sayText writes a statement in one of its spellings, with a reason or without.
func (g *gen) sayText(st *statement) (text, reason string) {
	switch st.kind {
	case "none":
		text = pick(g, []string{"none", "None", "NONE"})
		reason = pick(g, []string{"", "steered without one", "on purpose"})
	case "planned":
		text = pick(g, []string{"planned", "Planned", "tbd", "TBD"})
		reason = pick(g, []string{"", "for spring"})
	case "ask":
		text = pick(g, []string{"ask", "Ask"})
		reason = pick(g, []string{"", "measure the bracket", "whether left + right or one line only"})
	case "with":
		text = pick(g, []string{"with ", "With "}) + g.odd(g.c.positions[st.with].name)
	default:
		text = g.partsText(st)
	}
	if reason != "" {
		text += " " + reason
	}
	return text, reason
}

func (g *gen) partsText(st *statement) string {
	var alts []string
	for _, items := range st.alts {
		alts = append(alts, g.itemsText(items))
	}
	return strings.Join(alts, pick(g, []string{" or ", " or ", " OR ", "  or "}))
}

func (g *gen) itemsText(items []item) string {
	var out []string
	for _, it := range some(g, items, len(items)) { // the order of + is free
		text := it.name
		if g.c.knows(text) { // what nothing declares is told as it is written
			text = g.odd(text)
		}
		if it.quantity > 0 {
			text = fmt.Sprintf("%d%s%s", it.quantity, pick(g, []string{" x ", "x ", "  x "}), text)
		}
		out = append(out, text)
	}
	return strings.Join(out, pick(g, []string{" + ", " + ", "  +  ", "+"}))
}

// mergeCells joins some cells of neighbouring rows that then share what the
// first one says.
func (g *gen) mergeCells(s *sheet) {
	if len(s.rows) < 2 || !g.chance(0.4) {
		return
	}
	rows := g.c.fits[len(g.c.fits)-len(s.rows):]
	at := g.IntN(len(rows) - 1)
	a, b := rows[at], rows[at+1]
	if a.fault != "" || b.fault != "" {
		return
	}
	for pos := range g.c.positions {
		if col := a.columns[pos]; col != "" && col != "Fits" && a.says[pos] != nil && !a.says[pos].unreadable {
			b.says[pos], b.columns[pos] = a.says[pos], col
			b.cells[col], b.notes[pos] = a.cells[col], a.notes[pos]
			delete(b.cells, col+" note")
			if note := a.cells[col+" note"]; note != nil {
				b.cells[col+" note"] = note
			}
			s.merges = append(s.merges, merge{column: col, rows: []*row{a.row, b.row}})
			return
		}
	}
}
