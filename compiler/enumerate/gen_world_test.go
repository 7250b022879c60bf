package enumerate

import (
	"fmt"
	"strconv"
	"strings"
)

// world makes platforms, traits and vehicles.
func (g *gen) world() {
	names := some(g, []string{"H7", "H9 Long", "Coach 12", "M-4", "Low Floor"}, g.between(1, 4))
	for _, name := range names {
		g.c.platforms = append(g.c.platforms, platform{name: name, spans: g.spans()})
	}
	g.traits()
	for range g.between(len(names), 2*len(names)+2) {
		g.c.vehicles = append(g.c.vehicles, g.vehicle(-1))
	}
	for p := range names {
		if g.chance(0.8) {
			g.c.vehicles = append(g.c.vehicles, g.vehicle(p))
		}
	}
}

func (g *gen) spans() [][2]int {
	y := g.between(1994, 2012)
	out := [][2]int{{y, y + g.IntN(4)}}
	for g.chance(0.35) && len(out) < 3 {
		y = out[len(out)-1][1] + g.between(2, 4)
		out = append(out, [2]int{y, y + g.IntN(3)})
	}
	if g.chance(0.1) {
		y = g.between(latestHere-1, latestHere+9)
		out = append(out, [2]int{y, y + g.IntN(2)})
	}
	return out
}

// yearsText writes the years of a platform.
func (g *gen) yearsText(spans [][2]int) any {
	if len(spans) == 1 && spans[0][0] == spans[0][1] {
		return g.yearCell(strconv.Itoa(spans[0][0]))
	}
	var out []string
	for _, s := range spans {
		out = append(out, g.span(s))
	}
	return strings.Join(out, pick(g, []string{", ", "; ", "\n", " or "}))
}

func (g *gen) span(s [2]int) string {
	if s[0] == s[1] {
		return strconv.Itoa(s[0])
	}
	return fmt.Sprintf("%d%s%d", s[0], pick(g, []string{"-", "–"}), s[1])
}

// yearCell is a single year as a number or as text.
func (g *gen) yearCell(text string) any {
	if n, err := strconv.Atoi(text); err == nil && g.chance(0.5) {
		return n
	}
	return text
}

// traitPool is what traits can be; names stand in the order of examples.
type traitPool struct {
	name, kind string
	values     []string
}

func pools() []traitPool {
	return []traitPool{
		{"Front suspension", "choice", []string{"Air beam", "Leaf", "Independent", "Coil"}},
		{"Rear suspension", "choice", []string{"Air 2-bag", "Air 4-bag", "Spring"}},
		{"Levelling", "choice", []string{"Mechanical", "Electronic", "Manual"}},
		{"Axle count", "ordered", []string{"2", "3", "4"}},
		{"Drive", "choice", []string{"Not driven", "From factory", "To order", "Later"}},
		{"Grade", "ordered", []string{"Low", "Middle", "High", "Top"}},
		{"Lift axle", "choice", []string{"Yes", "No"}},
		{"Tee", "choice", []string{"No tee", "Left tee", "Right tee", "Both tees"}},
		{"Front tee", "choice", []string{"Left tee", "RIGHT tee", "Left and right"}},
		{"Steering side", "choice", []string{"Left-hand", "Right-hand"}},
		{"Step left", "choice", []string{"Yes", "No"}},
		{"Step right", "choice", []string{"No", "Yes", "Right only"}},
		{"Body", "choice", []string{"Steel or air", "Box", "Bus"}},
	}
}

func (g *gen) traits() {
	for _, p := range some(g, pools(), g.between(1, 4)) {
		t := trait{name: p.name, kind: p.kind, sorted: p.kind == "ordered"}
		for i, name := range p.values[:g.between(2, len(p.values))] {
			t.values = append(t.values, value{name: name, alone: p.name == "Body" && i == 0})
		}
		g.c.traits = append(g.c.traits, t)
	}
	for _, name := range []string{"Front line", "Rear line"} {
		if g.chance(0.45) {
			g.c.traits = append(g.c.traits, g.sizeTrait(name))
		}
	}
	for i := range g.c.traits {
		g.c.traits[i].idle = g.chance(0.06)
	}
}

// sizeTrait declares sizes in ascending order, or in any order and then no
// condition on it says from or to.
func (g *gen) sizeTrait(name string) trait {
	t := trait{name: name, kind: "size", sorted: true}
	all := spellings()
	for i := range all {
		if len(t.values) < 3 && g.chance(0.5) {
			s := all[i].size
			t.values = append(t.values, value{name: all[i].ways[0], size: &s})
		}
	}
	if len(t.values) == 0 {
		t.values = append(t.values, value{name: all[0].ways[0], size: &all[0].size})
	}
	if g.chance(0.2) {
		h := pick(g, hoses())
		t.values = append(t.values, value{name: h.ways[0], size: &h.size})
		t.sorted = false
	}
	if g.chance(0.2) {
		g.Shuffle(len(t.values), func(i, j int) { t.values[i], t.values[j] = t.values[j], t.values[i] })
		t.sorted = false
	}
	return t
}

// vehicle makes one Vehicles row, of platform p or of any.
func (g *gen) vehicle(p int) *vehicle {
	v := &vehicle{row: newRow()}
	v.platform = g.platformCond(p)
	v.cells["Platform"] = g.platformText(v.platform)
	if g.chance(0.5) {
		v.years = g.yearCond(p)
	}
	v.cells["Years"] = g.yearText(v.years)
	for i, t := range g.c.traits {
		c := g.traitCond(i, g.vehicleForm(t))
		v.traits = append(v.traits, c)
		v.cells[t.name] = g.traitText(i, c)
	}
	if g.chance(0.7) {
		v.road = float64(1+g.IntN(8000)) / pick(g, []float64{1, 1, 2, 4})
		v.cells["On the road"] = v.road
	}
	v.fault = g.spoil(v.row, 0.02)
	return v
}

// vehicleForm weighs the forms of a trait's cell in Vehicles.
func (g *gen) vehicleForm(t trait) string {
	forms := []string{"", "n/a", "list", "list", "list", "list", "list n/a", "any", "any", "not"}
	if t.sorted {
		forms = append(forms, "from", "to")
	}
	return pick(g, forms)
}
