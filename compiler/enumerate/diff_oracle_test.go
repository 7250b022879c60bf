package enumerate

import (
	"fmt"
	"slices"
	"sort"
	"strings"
)

// differ enumerates two catalogues together.
type differ struct {
	old, new *catalogue
	a, b     *outlook
	names    names
}

// axis is a trait as both catalogues use it on a platform: its index in each, -1 for
// none, and the values of both, "" for never.
type axis struct {
	name   string
	a, b   int
	values []string
	inA    bool // vehicles of the platform in OLD have it
	inB    bool
}

// pairing is a platform in both catalogues; -1 and nil where one does not have it.
type pairing struct {
	name   string
	a, b   *world
	axes   []axis
	years  []int
	indexA map[config]int
	indexB map[config]int
}

// jointly is a configuration of a pairing, with the configurations of OLD and NEW that it
// stands for, -1 where that does not exist.
type jointly struct {
	year   int
	values []string // by axis
	a, b   int
}

func (j jointly) String() string { return fmt.Sprint(j.year, " ", strings.Join(j.values, "/")) }

func sorted(words []string) string {
	sort.Strings(words)
	return strings.Join(words, " & ")
}

func newDiffer(old, new *catalogue, n names) *differ {
	return &differ{old, new, old.enumerate(), new.enumerate(), n}
}

func (d *differ) pairings() []*pairing {
	var out []*pairing
	taken := map[*world]bool{}
	for _, w := range d.b.worlds {
		p := &pairing{name: d.new.platforms[w.platform].name, b: w}
		for _, v := range d.a.worlds {
			if d.names.now("platform", "", d.old.platforms[v.platform].name) == p.name {
				p.a, taken[v] = v, true
			}
		}
		out = append(out, p)
	}
	for _, v := range d.a.worlds {
		if !taken[v] {
			out = append(out, &pairing{name: d.old.platforms[v.platform].name, a: v})
		}
	}
	for _, p := range out {
		d.axes(p)
		p.indexA, p.indexB = index(p.a), index(p.b)
	}
	return out
}

func index(w *world) map[config]int {
	out := map[config]int{}
	if w != nil {
		for i, g := range w.configs {
			out[g] = i
		}
	}
	return out
}

func uses(w *world, trait int) bool {
	return w != nil && trait >= 0 && slices.ContainsFunc(w.configs, func(g config) bool { return g.vals[trait] != never })
}

// axes lays out the traits of both: NEW's first, with NEW's values first.
func (d *differ) axes(p *pairing) {
	for i, t := range d.new.traits {
		x := axis{name: t.name, a: -1, b: i}
		for _, v := range t.values {
			x.values = append(x.values, v.name)
		}
		for k, o := range d.old.traits {
			if d.names.now("trait", "", o.name) != t.name {
				continue
			}
			x.a = k
			for _, v := range o.values {
				if now := d.valueNow(o, v, t); !slices.Contains(x.values, now) {
					x.values = append(x.values, now)
				}
			}
		}
		d.axis(p, x)
	}
	for k, o := range d.old.traits {
		if slices.ContainsFunc(d.new.traits, func(t trait) bool { return t.name == d.names.now("trait", "", o.name) }) {
			continue
		}
		x := axis{name: o.name, a: k, b: -1}
		for _, v := range o.values {
			x.values = append(x.values, v.name)
		}
		d.axis(p, x)
	}
	for _, w := range []*world{p.a, p.b} {
		c := d.new
		if w == p.a {
			c = d.old
		}
		if w != nil {
			p.years = append(p.years, c.platforms[w.platform].years()...)
		}
	}
	sort.Ints(p.years)
	p.years = slices.Compact(p.years)
}

// valueNow gives NEW's name of a value of OLD: sizes are the same by magnitude.
func (d *differ) valueNow(o trait, v value, t trait) string {
	for _, w := range t.values {
		if v.size != nil && w.size != nil && v.size.equal(*w.size) {
			return w.name
		}
	}
	return d.names.now("value", t.name, v.name)
}

func (d *differ) axis(p *pairing, x axis) {
	x.inA, x.inB = uses(p.a, x.a), uses(p.b, x.b)
	if x.inA || x.inB {
		x.values = append(x.values, "")
		p.axes = append(p.axes, x)
	}
}

// joints lists every thinkable configuration in the order of examples.
func (d *differ) joints(p *pairing) []jointly {
	var out []jointly
	values := make([]string, len(p.axes))
	var walk func(year, i int)
	walk = func(year, i int) {
		if i == len(p.axes) {
			out = append(out, jointly{year, slices.Clone(values), d.find(p, year, values, true), d.find(p, year, values, false)})
			return
		}
		for _, v := range p.axes[i].values {
			values[i] = v
			walk(year, i+1)
		}
	}
	for _, y := range p.years {
		walk(y, 0)
	}
	return out
}

// find gives the index of the configuration of one catalogue that a joint one stands for.
func (d *differ) find(p *pairing, year int, values []string, old bool) int {
	c, at := d.new, p.indexB
	if old {
		c, at = d.old, p.indexA
	}
	g := config{year: year}
	for i := range c.traits {
		g.vals[i] = never
	}
	for i, x := range p.axes {
		trait, used := x.b, x.inB
		if old {
			trait, used = x.a, x.inA
		}
		if !used || values[i] == "" {
			continue
		}
		g.vals[trait] = slices.IndexFunc(c.traits[trait].values, func(v value) bool {
			return v.name == values[i] || old && x.b >= 0 && d.valueNow(c.traits[trait], v, d.new.traits[x.b]) == values[i]
		})
		if g.vals[trait] < 0 {
			return -1
		}
	}
	if i, ok := at[g]; ok {
		return i
	}
	return -1
}

// said is what one catalogue says of a position at a configuration, under NEW's names.
func (d *differ) said(old bool, p *pairing, i, pos int) (text string, cells []ref) {
	c, o, w := d.new, d.b, p.b
	if old {
		c, o, w = d.old, d.a, p.a
	}
	if pos < 0 {
		return "nowhere", nil
	}
	v := o.verdicts[w][i][pos]
	if !v.exists {
		return "nowhere", nil
	}
	for _, cell := range v.cells {
		cells = append(cells, cell.fit.at[cell.fit.columns[pos]])
	}
	if v.outcome != "fitted" {
		return v.outcome, cells
	}
	n := d.names
	if !old {
		n = names{}
	}
	st := v.cells[0].st
	if st.kind == "with" {
		text = "with " + n.now("position", "", c.positions[st.with].name)
	} else {
		for _, alt := range c.filled(st, v.quantity) {
			text += "| " + c.itemsSaid(n, alt)
		}
	}
	if (&checker{c: c, o: o}).trouble(w, i, pos) {
		text += " unsettled"
	}
	return text, cells
}

func (c *catalogue) itemsSaid(n names, items []item) string {
	var out []string
	for _, it := range items {
		text := fmt.Sprintf("%d x %s", it.quantity, n.now("part", "", it.name))
		if k := c.kit(it.name); k != nil {
			text += " (" + c.itemsSaid(n, k.items) + ")"
		}
		out = append(out, text)
	}
	return sorted(out)
}

// kindOf names a difference.
func kindOf(was, is string) string {
	level := func(s string) string {
		switch {
		case s == "conflict":
			return "conflict"
		case strings.HasSuffix(s, " unsettled"):
			return "unsettled"
		case strings.HasPrefix(s, "| "), strings.HasPrefix(s, "with "):
			return "fitted"
		}
		return "open"
	}
	switch a, b := level(was), level(is); {
	case a == b:
		return "changed"
	case b == "conflict":
		return "conflict"
	case b == "unsettled" && a != "conflict":
		return "unsettled"
	case b == "fitted" && a == "open":
		return "gained"
	case b == "fitted":
		return "settled"
	case b == "open" && a != "conflict":
		return "lost"
	}
	return "changed"
}
