package enumerate

import (
	"fmt"
	"math/rand/v2"
)

// complaint is a row of Complaints, inspection one of Inspections.
type complaint struct {
	*row
	conds
	name, family, check string
	position            int // -1: any
	order               int // 0: blank
}

type inspection struct {
	*row
	conds
	look, level string
	position    int // -1: the vehicle as a whole
}

// advice are the rows of both sheets of a random catalogue.
type advice struct {
	complaints  []*complaint
	inspections []*inspection
}

// advise writes random complaints and inspections into a catalogue.
func advise(c *catalogue) advice {
	g := &gen{Rand: rand.New(rand.NewPCG(c.seed, 77)), c: c}
	var a advice
	for range g.between(3, 9) {
		a.complaints = append(a.complaints, g.complaint())
	}
	for i := range g.between(2, 5) {
		n := &inspection{row: newRow(), look: fmt.Sprint("look ", i), position: -1, level: pick(g, []string{"", "note", "notice", "warning", "danger"})}
		n.conds = g.conds(n.row, false)
		n.cells["What to look at"], n.cells["Level"], n.cells["Why"] = n.look, g.odd(n.level), "it breaks"
		if g.chance(0.4) {
			n.position = g.IntN(len(c.positions))
			n.cells["Position"] = g.odd(c.positions[n.position].name)
		}
		a.inspections = append(a.inspections, n)
	}
	var first, second []*row
	for _, c := range a.complaints {
		first = append(first, c.row)
	}
	for _, n := range a.inspections {
		second = append(second, n.row)
	}
	g.adviceSheet("Complaints", first, "Complaint", "Position", "Family", "Order", "How it helps", "Check first")
	g.adviceSheet("Inspections", second, "What to look at", "Position", "Level", "Why")
	c.files = g.usedFiles()
	return a
}

func (g *gen) complaint() *complaint {
	c := &complaint{row: newRow(), name: pick(g, []string{"rocks about", "dives", "leans at a stop"}), position: -1}
	c.conds = g.conds(c.row, false)
	families := g.usedFamilies()
	if len(families) == 0 || g.chance(0.6) {
		c.position = g.IntN(len(g.c.positions))
		c.cells["Position"] = g.odd(g.c.positions[c.position].name)
	}
	if len(families) > 0 && (c.position < 0 || g.chance(0.2)) {
		c.family = pick(g, families)
		c.cells["Family"] = g.odd(c.family)
	}
	if g.chance(0.6) {
		c.order = g.between(1, 4)
		c.cells["Order"] = c.order
	}
	if g.chance(0.6) {
		c.check = pick(g, []string{"the tyres", "the load", "the lines"})
		c.cells["Check first"] = c.check
	}
	c.cells["Complaint"], c.cells["How it helps"] = g.odd(c.name), "it holds the axle"
	return c
}

func (g *gen) adviceSheet(name string, rows []*row, own ...string) {
	s := g.sheet(name)
	s.rows = rows
	for _, c := range append(columns(own...), g.condColumns()...) {
		s.columns = append(s.columns, column{c.name, c.name})
	}
}
