package enumerate

import (
	"fmt"
	"strconv"
	"strings"
)

// platformCond is a condition on the platform: one, or any form.
func (g *gen) platformCond(p int) cond {
	n := len(g.c.platforms)
	if p >= 0 {
		return cond{form: "list", spans: [][2]int{{p, p}}}
	}
	switch g.IntN(10) {
	case 0, 1:
		return cond{form: "any"}
	case 2:
		q := g.IntN(n)
		return cond{form: "not", spans: [][2]int{{q, q}}}
	case 3, 4:
		return cond{form: "list", spans: singles(some(g, count(n), g.between(1, n)))}
	}
	q := g.IntN(n)
	return cond{form: "list", spans: [][2]int{{q, q}}}
}

func count(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

func singles(vals []int) [][2]int {
	var out [][2]int
	for _, v := range vals {
		out = append(out, [2]int{v, v})
	}
	return out
}

// yearCond is a condition on the year, near the years of platform p or of any
// platform; some of it may lie beyond them or in a hole.
func (g *gen) yearCond(p int) cond {
	if g.chance(0.06) {
		return cond{form: "any"}
	}
	if p < 0 {
		p = g.IntN(len(g.c.platforms))
	}
	all := g.c.platforms[p].years()
	lo, hi := all[0]-1, all[len(all)-1]+1
	c := cond{form: "list"}
	if g.chance(0.12) {
		c.form = "not"
	}
	for range 1 + g.IntN(2)*g.IntN(3) {
		y := g.between(lo, hi)
		c.spans = append(c.spans, pick(g, [][2]int{{y, y}, {y, g.between(y, hi)}, {y, last}, {earliest, y}}))
	}
	return c
}

// earliest and last are the ends of `to 2006` and `2007+`: a platform has no
// years beyond them.
const (
	earliest = 0
	last     = 9999
)

// traitCond is a condition on trait i in a form: blank, any, n/a, list,
// list n/a, not, not n/a, from or to.
func (g *gen) traitCond(i int, form string) cond {
	n := len(g.c.traits[i].values)
	switch form {
	case "", "any":
		return cond{form: form}
	case "n/a":
		return cond{form: "list", spans: singles([]int{never})}
	case "from":
		return cond{form: "from", spans: [][2]int{{g.IntN(n), n - 1}}}
	case "to":
		return cond{form: "to", spans: [][2]int{{0, g.IntN(n)}}}
	}
	vals := some(g, count(n), g.between(1, n))
	word, withNever := strings.CutSuffix(form, " n/a")
	if withNever {
		at := g.IntN(len(vals) + 1)
		vals = append(vals[:at:at], append([]int{never}, vals[at:]...)...)
	}
	if len(vals) > 1 || word == "not" {
		vals = g.withoutAlone(i, vals)
	}
	return cond{form: word, spans: singles(vals)}
}

// withoutAlone drops the values whose names hold a separator, since they can
// only stand alone in a cell.
func (g *gen) withoutAlone(i int, vals []int) []int {
	var out []int
	for _, v := range vals {
		if v == never || !g.c.traits[i].values[v].alone {
			out = append(out, v)
		}
	}
	if len(out) == 0 {
		out = append(out, len(g.c.traits[i].values)-1)
	}
	return out
}

// anyForm weighs the forms of a trait's cell outside Vehicles.
func (g *gen) anyForm(i int) string {
	forms := []string{"", "", "", "", "", "", "", "any", "n/a", "list", "list", "list", "list n/a", "not", "not n/a"}
	if g.c.traits[i].sorted {
		forms = append(forms, "from", "to")
	}
	return pick(g, forms)
}

func (g *gen) platformText(c cond) any {
	return g.listText(c, func(p int) string { return g.odd(g.c.platforms[p].name) })
}

func (g *gen) traitText(i int, c cond) any {
	t := g.c.traits[i]
	name := func(v int) string {
		if v == never {
			return pick(g, []string{"n/a", "N/A"})
		}
		return g.valueText(t.values[v])
	}
	if len(c.spans) > 0 && (c.form == "from" || c.form == "to") {
		end := c.spans[0][0]
		if c.form == "to" {
			end = c.spans[0][1]
		}
		return g.odd(c.form) + " " + name(end)
	}
	text := g.listText(c, name)
	if s, ok := text.(string); ok && g.chance(0.6) {
		if n, err := strconv.Atoi(s); err == nil {
			return n // a number cell for a value such as 3
		}
	}
	return text
}

// valueText writes a value: sizes in any way of equal magnitude.
func (g *gen) valueText(v value) string {
	if v.size == nil {
		return g.odd(v.name)
	}
	for _, s := range append(spellings(), hoses()...) {
		if s.size.equal(*v.size) {
			return pick(g, s.ways)
		}
	}
	panic("a declared size has no spelling: " + v.name)
}

// listText writes blank, any, a list or not a list.
func (g *gen) listText(c cond, name func(int) string) any {
	switch c.form {
	case "":
		return nil
	case "any":
		return g.odd("any")
	}
	var b strings.Builder
	if c.form == "not" {
		b.WriteString(pick(g, []string{"not ", "not ", "Not ", "NOT  "}))
	}
	for i, s := range c.spans {
		if i > 0 {
			b.WriteString(g.separator())
		}
		b.WriteString(name(s[0]))
	}
	return b.String()
}

func (g *gen) separator() string {
	return pick(g, []string{", ", ", ", ",", "; ", "\n", " or ", " OR "})
}

func (g *gen) yearText(c cond) any {
	if c.form == "" || c.form == "any" {
		return g.listText(c, nil)
	}
	var b strings.Builder
	if c.form == "not" {
		b.WriteString("not ")
	}
	for i, s := range c.spans {
		if i > 0 {
			b.WriteString(g.separator())
		}
		switch {
		case s[0] == earliest:
			fmt.Fprintf(&b, "%s %d", pick(g, []string{"to", "To"}), s[1])
		case s[1] == last:
			fmt.Fprintf(&b, "%d+", s[0])
		default:
			b.WriteString(g.span(s))
		}
	}
	return g.yearCell(b.String())
}

// spoil writes an unknown value into a condition of a row, now and then, and
// tells the column.
func (g *gen) spoil(r *row, chance float64) string {
	if !g.chance(chance) {
		return ""
	}
	columns := []string{"Platform", "Years"}
	for _, t := range g.c.traits {
		columns = append(columns, t.name)
	}
	column := pick(g, columns)
	r.cells[column] = pick(g, []string{"Zzyzx", "not Zzyzx", "Zzyzx, Quux"})
	return column
}

// conds makes the condition cells of a row outside Vehicles. Platform is filled
// where it must be, and otherwise often left blank.
func (g *gen) conds(r *row, filled bool) conds {
	k := conds{platform: g.platformCond(-1)}
	if !filled && g.chance(0.4) {
		k.platform = cond{}
	}
	if g.chance(0.4) {
		k.years = g.yearCond(-1)
	}
	r.cells["Platform"] = g.platformText(k.platform)
	r.cells["Years"] = g.yearText(k.years)
	for i, t := range g.c.traits {
		c := g.traitCond(i, g.anyForm(i))
		if t.idle {
			c = cond{}
		}
		k.traits = append(k.traits, c)
		r.cells[t.name] = g.traitText(i, c)
	}
	return k
}
