package layout

import "ferrule/sheets/cell"

// level8 is how far a cell is claimed.
type level8 uint8

const (
	unclaimed level8 = iota
	idle             // named, and nothing has come of it
	claimed
)

// bare is a cell to be told, or perhaps.
type bare struct {
	at   cell.Pos
	text string
	wide bool
	bold bool
	g    *reading // the table in whose rows it stands
}

// account takes note of the cells that nothing has claimed.
func (r *reader) account(level []level8, g *reading, header bool) {
	for i, l := range level {
		if l == claimed || r.items[i].at.Row != r.rowOf(i) || r.items[i].at.Col != r.items[i].col {
			continue
		}
		it := &r.items[i]
		b := bare{at: it.at, text: it.said(), wide: it.wide, bold: it.bold, g: g}
		switch {
		case header:
			r.heads = append(r.heads, b)
		case l == idle:
			r.barren = append(r.barren, b)
		case g != nil:
			r.under = append(r.under, b)
		default:
			r.loose = append(r.loose, b)
		}
	}
}

// all claims all cells of a row.
func all(level []level8) {
	for i := range level {
		level[i] = claimed
	}
}

// claim says which cells of the row are used; it tells whether any is that holds a value.
func (g *reading) claim(level []level8, as level8) (filled bool) {
	for i := range g.r.items {
		it := &g.r.items[i]
		if int(it.col) >= len(g.use) {
			continue
		}
		switch u := &g.use[it.col]; {
		case len(u.rowed) > 0:
			level[i], filled = max(level[i], as), true
		case u.skip:
			level[i] = claimed
		}
	}
	return filled
}
