package layout

import "ferrule/sheets/cell"

// readerOf gives the cell of a Layouts sheet that says what a cell of the sheet holds.
func (g *reading) readerOf(at cell.Pos) cell.Place {
	if !(at.Row > 0 && int(at.Col) < len(g.use)) {
		return cell.Place{}
	}
	u := &g.use[at.Col]
	switch {
	case len(u.rowed) > 0:
		return u.rowed[0].by
	case u.cross == nil:
		return cell.Place{}
	case at.Row <= g.extent.header.To || g.cellsAt < 0:
		return u.cross.h.row.AsAt
	}
	return g.by[g.cellsAt]
}

// numberOf gives the cell with the part that a mark means.
func (g *reading) numberOf(at cell.Pos) (cell.Pos, bool) {
	number, ok := g.numbers[at.Row]
	if !ok || int(at.Col) >= len(g.use) || g.use[at.Col].cross == nil || at.Row <= g.extent.header.To {
		return at, false
	}
	if number == (cell.Pos{}) {
		return g.use[at.Col].cross.head.at, true
	}
	return number, true
}
