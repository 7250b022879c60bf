package enumerate

import (
	"slices"
	"strings"
)

// position makes the rows of a position: one; several that part a trait or
// the years between them and differ; or several that meet, and then mostly
// say the same.
func (g *gen) position(p *position) {
	p.coverage = pick(g, []string{"required", "required", "wanted", "optional"})
	base := g.place(p, g.quantity(), g.airline())
	p.rows = append(p.rows, base)
	if g.chance(0.35) {
		g.belong(p)
	}
	switch g.IntN(5) {
	case 0, 1:
		g.narrow(base)
	case 2:
		g.divide(p, base)
	case 3:
		g.narrow(base)
		other := g.place(p, base.quantity, base.air)
		if g.chance(0.3) {
			other = g.place(p, base.quantity+1, base.air)
		}
		g.narrow(other)
		p.rows = append(p.rows, other)
	}
}

// belong lists families that belong at a position.
func (g *gen) belong(p *position) {
	used := g.usedFamilies()
	if len(used) == 0 {
		return
	}
	for _, f := range some(g, used, g.between(1, min(2, len(used)))) {
		if !slices.Contains(p.families, f) {
			p.families = append(p.families, f)
		}
	}
	p.rows[0].cells["Family"] = strings.Join(p.families, ", ")
}

// pairs lets two positions name each other, or one of them the other; now and then a
// third one names one of the two, or one of the two the third.
func (g *gen) pairs() {
	if g.chance(0.1) {
		return
	}
	order := g.Perm(len(g.c.positions))
	a, b := g.c.positions[order[0]], g.c.positions[order[1]]
	a.pair = b.name
	if g.chance(0.5) {
		b.pair = a.name
	}
	if len(order) > 2 && g.chance(0.18) {
		third := g.c.positions[order[2]]
		if g.chance(0.5) {
			third.pair = pick(g, []string{a.name, b.name})
		} else {
			b.pair = third.name
		}
	} else if len(order) > 3 && g.chance(0.9) {
		g.c.positions[order[2]].pair = g.c.positions[order[3]].name
	}
	for pos, p := range g.c.positions {
		if p.pair != "" {
			p.rows[0].cells["Pair"] = g.odd(p.pair)
		}
		if other := g.c.opposite(pos); other > pos && g.chance(0.6) {
			g.sides(p, g.c.positions[other])
		}
	}
}

// sides says on which sides two positions are, mostly left and right.
func (g *gen) sides(a, b *position) {
	sides := pick(g, [][2]string{{"left", "right"}, {"left", "right"}, {"right", "left"}, {"left", "right"}, {"left", ""}, {"", "right"}, {"right", "both"}, {"centre", ""}, {"left", "left"}})
	for i, p := range []*position{a, b} {
		if p.side = sides[i]; p.side != "" {
			p.rows[0].cells["Side"] = p.side
		}
	}
}

func (g *gen) quantity() int { return pick(g, []int{1, 1, 2, 2, 4}) }

// airline is the index of a size trait, or -1.
func (g *gen) airline() int {
	for i, t := range g.c.traits {
		if t.kind == "size" && !t.idle && g.chance(0.6) {
			return i
		}
	}
	return -1
}

// place makes a Positions row without conditions.
func (g *gen) place(p *position, quantity, air int) *place {
	r := &place{row: newRow(), quantity: quantity, air: air}
	r.traits = make([]cond, len(g.c.traits))
	r.cells["Position"] = p.name
	if quantity != 1 || g.chance(0.5) {
		r.cells["Quantity"] = quantity
	}
	if air >= 0 {
		r.cells["Air line"] = g.odd(g.c.traits[air].name)
	}
	if p.coverage != "required" || p.name[0] < 'S' {
		r.cells["Coverage"] = p.coverage
	}
	return r
}

// narrow gives a row conditions.
func (g *gen) narrow(r *place) {
	r.conds = g.conds(r.row, false)
	for i, t := range g.c.traits {
		if g.chance(0.6) {
			r.traits[i] = cond{}
			r.cells[t.name] = nil
		}
	}
	r.fault = g.spoil(r.row, 0.01)
}

// divide parts the space by one trait: a list on one row, not the same list
// on the other, so that they never meet.
func (g *gen) divide(p *position, base *place) {
	i := g.IntN(len(g.c.traits))
	if g.c.traits[i].idle {
		g.narrow(base)
		return
	}
	in := g.traitCond(i, pick(g, []string{"list", "list n/a"}))
	if len(in.spans) == 1 && in.spans[0][0] != never && g.c.traits[i].values[in.spans[0][0]].alone {
		in = cond{form: "list", spans: singles([]int{never})}
	}
	out := cond{form: "not", spans: in.spans}
	other := g.place(p, g.quantity(), g.airline())
	g.setTrait(base, i, in)
	g.setTrait(other, i, out)
	p.rows = append(p.rows, other)
}

func (g *gen) setTrait(r *place, i int, c cond) {
	r.traits[i] = c
	r.cells[g.c.traits[i].name] = g.traitText(i, c)
}

// markClashes finds positions whose rows meet and differ. The format does not
// say which row counts there, so their cells give every quantity in full.
func (g *gen) markClashes() {
	o := &outlook{worlds: g.c.worlds(), clashes: map[[2]*place]bool{}}
	for pos, p := range g.c.positions {
		for _, w := range o.worlds {
			for i := range w.configs {
				g.c.meetings(o, w, i, pos)
			}
		}
		p.clash = len(o.clashes) > 0
		clear(o.clashes)
	}
}
