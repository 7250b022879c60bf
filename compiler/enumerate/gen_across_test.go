package enumerate

// mergePositions joins some cells of two positions that stand beside each other, which
// then say the same of both.
func (g *gen) mergePositions(s *sheet) {
	for i := range s.columns[1:] {
		a, b := g.positionOf(s.columns[i].name), g.positionOf(s.columns[i+1].name)
		if a < 0 || b < 0 || g.c.positions[b].clash {
			continue
		}
		for _, f := range g.c.fits {
			if g.c.sheetOf(f.row) == s && g.across(f, a, b) && g.chance(0.25) {
				g.mergeAcross(s, f, a, b)
			}
		}
	}
}

// positionOf gives the index of the position of a column, -1 for another column.
func (g *gen) positionOf(column string) int {
	for i, p := range g.c.positions {
		if p.name == column {
			return i
		}
	}
	return -1
}

// across reports whether what a row says of one position can be said of another.
func (g *gen) across(f *fit, a, b int) bool {
	st, from, to := f.says[a], g.c.positions[a].name, g.c.positions[b].name
	return st != nil && !st.unreadable && st.kind != "with" && f.columns[a] == from && !g.c.merged(f.row, from) && !g.c.merged(f.row, to)
}

func (g *gen) mergeAcross(s *sheet, f *fit, a, b int) {
	from, to := g.c.positions[a].name, g.c.positions[b].name
	f.says[b], f.columns[b], f.notes[b] = f.says[a], to, f.notes[a]
	if f.cells[from+" note"] != nil {
		f.notes[b] = "" // the note is of the other cell alone
	}
	delete(f.cells, to+" note")
	f.cells[to] = f.cells[from]
	s.merges = append(s.merges, merge{column: from, rows: []*row{f.row}, over: to})
}
