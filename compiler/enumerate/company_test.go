package enumerate

import (
	"fmt"
	"strings"
)

// about lists the numbers of a statement that a row with With is about, other
// than the one under With itself.
func (c *catalogue) about(r *rule, st *statement, platform int, g config) []string {
	var out []string
	for _, name := range c.touches(r, st, platform, g) {
		if name != r.with {
			out = append(out, name)
		}
	}
	return out
}

// together notes where the part that another one requires is missing, and
// where parts are offered together that must not be.
func (c *catalogue) together(o *outlook, w *world, i int) {
	for pos := range c.positions {
		for _, d := range o.verdicts[w][i][pos].cells {
			for _, r := range c.rules {
				if r.with == "" {
					continue
				}
				for _, name := range c.about(r, d.st, w.platform, w.configs[i]) {
					if code := c.broken(r, o.verdicts[w][i], pos, d.st, name); code != "" {
						cells := pair(d.fit.at[d.fit.columns[pos]], r.subject()) + " & " + name
						o.add(key{code, c.platforms[w.platform].name, c.positions[pos].name, cells}, "error", w, i, name)
					}
				}
			}
		}
	}
}

// broken tells which finding a row with With makes of one number of a statement, "" for
// none.
func (c *catalogue) broken(r *rule, all []verdict, pos int, st *statement, name string) string {
	elsewhere := c.offersAt(all, r.with, pos)
	switch {
	case r.effect == "require" && !elsewhere && !c.beside(all[pos], r.with):
		return "companion-missing"
	case r.effect == "forbid" && (elsewhere || c.joined(st, name, r.with)):
		return "companion-forbidden"
	}
	return ""
}

// subject is the cell that says what the row is about.
func (r *rule) subject() ref {
	if r.part != "" {
		return r.at["Part"]
	}
	return r.at["Family"]
}

// offersAt reports whether a cell that decides at any position but one offers
// a number.
func (c *catalogue) offersAt(all []verdict, name string, but int) bool {
	for pos, v := range all {
		if pos != but && c.beside(v, name) {
			return true
		}
	}
	return false
}

// beside reports whether a cell that decides here offers a number.
func (c *catalogue) beside(v verdict, name string) bool {
	for _, d := range v.cells {
		if holdsName(c.offered(d.st), name) {
			return true
		}
	}
	return false
}

// joined reports whether one alternative holds both of two numbers.
func (c *catalogue) joined(st *statement, name, with string) bool {
	for _, alt := range st.alts {
		all := c.offered(&statement{kind: "parts", alts: [][]item{alt}})
		if holdsName(all, name) && holdsName(all, with) {
			return true
		}
	}
	return false
}

// overlaps notes the pairs of Vehicles rows that hold a configuration and both
// say how many are on the road.
func (c *catalogue) overlaps(o *outlook, w *world, i int) {
	var here []*vehicle
	for _, v := range c.vehicles {
		if v.cells["On the road"] != nil && v.matches(w.platform, w.configs[i]) {
			here = append(here, v)
		}
	}
	for a, v := range here {
		for _, u := range here[:a] {
			k := key{"vehicles-overlap", c.platforms[w.platform].name, "", pair(u.at["On the road"], v.at["On the road"])}
			o.add(k, "warning", w, i)
		}
	}
}

// thin notes the configurations that are fitted at a required position by a
// cell with a superseded part in every alternative.
func (c *catalogue) thin(o *outlook, w *world, i int) {
	for pos, p := range c.positions {
		v := o.verdicts[w][i][pos]
		if !v.exists || v.outcome != "fitted" || p.coverage != "required" {
			continue
		}
		for _, d := range v.cells {
			if c.outdated(d.st) {
				o.add(key{"coverage-thin", c.platforms[w.platform].name, p.name, ""}, "warning", w, i)
			}
		}
	}
}

func (c *catalogue) outdated(st *statement) bool {
	for _, alt := range st.alts {
		old := false
		for _, name := range c.offered(&statement{alts: [][]item{alt}}) {
			p := c.part(name)
			old = old || p != nil && p.status == "superseded"
		}
		if !old {
			return false
		}
	}
	return len(st.alts) > 0
}

// alike notes the configurations that need something else than another one
// that nobody can tell from them: the year is the same, and so is every trait
// for which the catalogue says how to tell it on this platform.
func (c *catalogue) alike(o *outlook, w *world) {
	for pos, p := range c.positions {
		needs := map[string]map[string]bool{}
		each := func(do func(i int, looks, need string)) {
			for i, g := range w.configs {
				v := o.verdicts[w][i][pos]
				if v.exists && (v.outcome == "fitted" || v.outcome == "none") {
					do(i, c.looks(w.platform, g), v.cells[0].say)
				}
			}
		}
		each(func(_ int, looks, need string) {
			if needs[looks] == nil {
				needs[looks] = map[string]bool{}
			}
			needs[looks][need] = true
		})
		each(func(i int, looks, _ string) {
			if len(needs[looks]) > 1 {
				o.add(key{"indistinguishable", c.platforms[w.platform].name, p.name, ""}, "warning", w, i)
			}
		})
	}
}

// looks is what can be seen of a configuration.
func (c *catalogue) looks(platform int, g config) string {
	var b strings.Builder
	fmt.Fprint(&b, g.year)
	for i, t := range c.traits {
		if t.told[-1] || t.told[platform] {
			fmt.Fprintf(&b, " %d=%d", i, g.vals[i])
		}
	}
	return b.String()
}
