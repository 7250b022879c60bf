package enumerate

import (
	"fmt"
	"strings"
)

// catalogue makes everything that is about parts, over the spaces of world.
func (g *gen) catalogue() {
	g.parts()
	g.kits()
	for _, name := range some(g, positionNames(), g.between(2, 4)) {
		g.c.positions = append(g.c.positions, &position{name: name})
	}
	for _, p := range g.c.positions {
		g.position(p)
	}
	g.pairs()
	g.markClashes()
	g.fitments()
	g.drag()
	for range g.IntN(4) {
		g.c.rules = append(g.c.rules, g.rule())
	}
	for range g.IntN(4) {
		g.c.rules = append(g.c.rules, g.companion())
	}
	g.limits()
	for range g.IntN(13) {
		g.c.accepts = append(g.c.accepts, g.accept())
	}
}

func positionNames() []string {
	return []string{"Front damper", "Rear damper", "Steering damper", "Roll bar", "Restrictor left", "To body"}
}

// partNumbers are easy to misread on purpose: with x, digits alone, a space.
func partNumbers() []string {
	return []string{"FD-1", "FD-2", "RB 10", "X-20", "4x4-B", "10442", "SD-7", "RS-3", "RS-4", "OR-5"}
}

func families() []string { return []string{"Dampers", "Bars", "Restrictors"} }

func (g *gen) parts() {
	for _, name := range some(g, partNumbers(), g.between(4, 8)) {
		g.c.parts = append(g.c.parts, g.part(name))
	}
	g.c.parts[0].status = "current"
	g.c.parts[0].cells["Status"] = nil
	for _, p := range g.c.parts[1:] {
		if p.status != "current" && g.chance(0.6) {
			p.cells["Replaced by"] = g.c.parts[0].name
		}
	}
}

func (g *gen) part(name string) *part {
	p := &part{row: newRow(), name: name, status: "current"}
	p.cells["Part"] = name
	p.cells["Name"] = "part " + strings.ToLower(name)
	if g.chance(0.8) {
		p.family = pick(g, families())
		p.cells["Family"] = p.family
	}
	if g.chance(0.25) {
		p.status = pick(g, []string{"superseded", "superseded", "withdrawn"})
		p.cells["Status"] = p.status
	} else if g.chance(0.3) {
		p.cells["Status"] = "current"
	}
	if g.chance(0.4) {
		s := pick(g, append(spellings(), hoses()...))
		p.line = &s.size
		p.cells["Line size"] = pick(g, s.ways)
	}
	return p
}

// kits may hold parts and the kits made before them. Some have a Parts row.
func (g *gen) kits() {
	for i := range g.IntN(4) {
		k := &kit{name: fmt.Sprintf("KIT %c", 'A'+i)}
		for _, p := range some(g, g.c.parts, g.between(1, 3)) {
			g.component(k, p.name)
		}
		if i > 0 && g.chance(0.5) {
			if inner := pick(g, g.c.kits).name; !k.has(inner) {
				g.component(k, inner)
			}
		}
		if g.chance(0.3) {
			p := &part{row: newRow(), name: k.name, status: "current", family: pick(g, families())}
			p.cells["Part"], p.cells["Family"] = p.name, p.family
			if g.chance(0.15) {
				p.status, p.cells["Status"] = "superseded", "superseded"
			}
			g.c.parts = append(g.c.parts, p)
		}
		g.c.kits = append(g.c.kits, k)
	}
}

// has reports whether a kit lists a number itself. Two rows that list one are
// a declaration that stands twice.
func (k *kit) has(name string) bool {
	for _, it := range k.items {
		if it.name == name {
			return true
		}
	}
	return false
}

func (g *gen) component(k *kit, name string) {
	n := g.between(1, 3)
	r := newRow()
	r.cells["Kit"], r.cells["Part"], r.cells["Quantity"] = k.name, g.odd(name), n
	k.items = append(k.items, item{name, n})
	k.rows = append(k.rows, r)
}

// numbers lists what a fitment cell can name.
func (g *gen) numbers() []string {
	var out []string
	for _, p := range g.c.parts {
		if g.c.kit(p.name) == nil {
			out = append(out, p.name)
		}
	}
	for _, k := range g.c.kits {
		out = append(out, k.name)
	}
	return out
}
