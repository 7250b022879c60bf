package enumerate

import "fmt"

// sideSheets writes, for pairs, rows that hold before all others and are about both sides: what
// stands left and right differs now and then, for all vehicles or for those of some values of
// one trait.
func (g *gen) sideSheets() {
	for pos := range g.c.positions {
		if other := g.c.facing(pos); other > pos && g.chance(0.6) {
			g.sideSheet(pos, other)
		}
	}
}

func (g *gen) sideSheet(a, b int) {
	s := g.sheet(fmt.Sprintf("Fitment of pair %d", a+1))
	s.columns = append(g.condColumns(), column{g.c.positions[a].name, ""}, column{g.c.positions[b].name, ""}, column{"Precedence", ""})
	names := some(g, g.plainNumbers(), 2)
	trait := g.asked()
	for range g.between(1, 4) {
		f := &fit{row: newRow(), says: map[int]*statement{}, columns: map[int]string{}, notes: make([]string, len(g.c.positions)), precedence: 20 + g.IntN(2)}
		f.platform, f.traits = cond{form: "any"}, make([]cond, len(g.c.traits))
		if trait >= 0 && g.chance(0.8) {
			f.traits[trait] = g.traitCond(trait, pick(g, []string{"list", "not", "list n/a"}))
			f.cells[g.c.traits[trait].name] = g.traitText(trait, f.traits[trait])
		}
		f.cells["Platform"], f.cells["Precedence"] = g.platformText(f.platform), f.precedence
		for _, pos := range []int{a, b} {
			if g.chance(0.85) {
				st := &statement{kind: "parts", alts: [][]item{{{pick(g, names), 2}}}}
				f.says[pos], f.columns[pos] = st, g.c.positions[pos].name
				f.cells[g.c.positions[pos].name] = g.partsText(st)
			}
		}
		s.rows = append(s.rows, f.row)
		g.c.fits = append(g.c.fits, f)
	}
}

// plainNumbers are those of parts that go on every line.
func (g *gen) plainNumbers() []string {
	var out []string
	for _, p := range g.c.parts {
		if p.line == nil {
			out = append(out, p.name)
		}
	}
	if len(out) < 2 {
		return g.numbers()
	}
	return out
}

// asked picks a trait that rows may ask for, rather one that names a side; -1 for none.
func (g *gen) asked() int {
	out := -1
	for i := range g.c.traits {
		if !g.c.traits[i].idle && (out < 0 || g.c.sided(i) || g.chance(0.3)) {
			out = i
		}
	}
	return out
}
