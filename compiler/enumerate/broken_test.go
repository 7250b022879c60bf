package enumerate

import (
	"fmt"
	"math/rand/v2"
	"slices"
)

// broken is a row of Breaks: when values of a trait are built.
type broken struct {
	*row
	conds
	trait int
	value cond
}

// names tells whether the row is about a configuration.
func (b *broken) names(p int, g config) bool {
	return !b.gone && b.platform.meets(p) && g.vals[b.trait] != never && b.value.meets(g.vals[b.trait])
}

// built tells whether a configuration exists as far as Breaks say: for each trait of which rows name
// the value, the conditions of one of them hold.
func (c *catalogue) built(p int, g config) bool {
	for i := range c.traits {
		named, holds := false, false
		for _, b := range c.breaks {
			if b.trait == i && b.names(p, g) {
				named = true
				holds = holds || b.meets(p, g)
			}
		}
		if named && !holds {
			return false
		}
	}
	return true
}

// breakUp gives a catalogue a sheet of Breaks, and tells whether it could: not where a Vehicles row is
// set aside, since then nobody knows what Vehicles list, nor where a platform would have nothing.
func (c *catalogue) breakUp(seed uint64) bool {
	g := &gen{Rand: rand.New(rand.NewPCG(seed, 77)), c: c}
	if g.chance(0.4) || slices.ContainsFunc(c.vehicles, func(v *vehicle) bool { return v.fault != "" }) {
		return false
	}
	s := &sheet{file: c.files[0], name: "Breaks", columns: append(columns("Platform", "Trait", "Value", "Source", "Note", "Years"), columns(c.traitNames()...)...)}
	for range g.between(1, 5) {
		b := g.breakRow()
		c.breaks = append(c.breaks, b)
		s.rows = append(s.rows, b.row)
	}
	for _, w := range c.worlds() {
		if len(w.configs) == 0 {
			c.breaks = nil
			return false
		}
	}
	for i := range s.columns {
		s.columns[i].head = s.columns[i].name
	}
	c.sheets = append(c.sheets, s)
	return true
}

func (g *gen) breakRow() *broken {
	b := &broken{row: newRow(), trait: g.IntN(len(g.c.traits))}
	b.platform = g.platformCond(-1)
	t := g.c.traits[b.trait]
	b.value = g.traitCond(b.trait, pick(g, []string{"list", "list", "list", "any", "not"}))
	if g.chance(0.7) {
		b.years = g.yearCond(-1)
	}
	b.cells["Platform"], b.cells["Years"] = g.platformText(b.platform), g.yearText(b.years)
	b.cells["Trait"], b.cells["Value"] = t.name, g.saidOf(b.trait, b.value)
	for i, t := range g.c.traits {
		c := cond{}
		if g.chance(0.3) && i != b.trait && !t.idle {
			c = g.traitCond(i, g.anyForm(i))
		}
		b.traits = append(b.traits, c)
		b.cells[t.name] = g.saidOf(i, c)
	}
	return b
}

// saidOf writes a condition on any trait.
func (g *gen) saidOf(i int, c cond) any {
	if l := g.c.traits[i].line; l != nil {
		return g.lineCell(l, c)
	}
	return g.traitText(i, c)
}

// breakFindings compares break-idle and vehicles-empty.
func (k *checker) breakFindings() {
	k.sameCells("break-idle", "warning", k.c.idleBreaks())
	k.sameCells("vehicles-empty", "error", k.c.emptyRows())
}

func (k *checker) sameCells(code, severity string, want map[string]bool) {
	told := map[string]bool{}
	for _, f := range k.out.findings {
		if f.Code != code {
			continue
		}
		at := f.Cells[0].String()
		told[at] = true
		if !want[at] || f.Severity != severity {
			k.failf(code, "not expected: %s %s", f.Severity, at)
		}
		for _, more := range f.Cells[1:] {
			if more.Sheet != "Breaks" {
				k.failf(code, "%s names %s", at, more)
			}
		}
	}
	for at := range want {
		if !told[at] {
			k.failf(code, "not told: %s", at)
		}
	}
}

// idleBreaks gives the rows of Breaks that exclude nothing that Vehicles list: for each vehicle with one of
// the values the conditions of a row hold that names its value.
func (c *catalogue) idleBreaks() map[string]bool {
	out := map[string]bool{}
	for _, b := range c.breaks {
		excludes, any := false, false
		for p := range c.platforms {
			if !b.platform.meets(p) {
				continue
			}
			for _, g := range c.listed(p) {
				any = true
				if b.names(p, g) && !slices.ContainsFunc(c.breaks, func(o *broken) bool { return o.trait == b.trait && o.names(p, g) && o.meets(p, g) }) {
					excludes = true
				}
			}
		}
		if any && !excludes {
			out[b.at["Value"].String()] = true
		}
	}
	return out
}

// listed gives what Vehicles list of a platform, built or not.
func (c *catalogue) listed(p int) []config {
	var out []config
	for _, g := range c.candidates(p) {
		if slices.ContainsFunc(c.vehicles, func(v *vehicle) bool { return v.matches(p, g) }) {
			out = append(out, g)
		}
	}
	return out
}

// emptyRows gives the Vehicles rows of which nothing is left.
func (c *catalogue) emptyRows() map[string]bool {
	out := map[string]bool{}
	if len(c.breaks) == 0 {
		return out
	}
	for _, v := range c.vehicles {
		listed, left := 0, 0
		for p := range c.platforms {
			for _, g := range c.candidates(p) {
				if v.matches(p, g) {
					listed++
					if c.built(p, g) {
						left++
					}
				}
			}
		}
		if listed > 0 && left == 0 {
			out[v.first.String()] = true
		}
	}
	return out
}

// ruledOut checks the cells beside the first of a row that no vehicle reaches: the rows of Breaks
// because of which, if there are any.
func (k *checker) ruledOut(f finding) error {
	listed, unlisted := false, false // of rows that share a merged cell, one and another
	k.c.eachCond(func(r *row, of *conds, _ string) {
		if r.gone || r.first != f.Cells[0] || k.o.exists(*of) {
			return
		}
		meets := false
		for p := range k.c.platforms {
			meets = meets || slices.ContainsFunc(k.c.listed(p), func(g config) bool { return of.meets(p, g) })
		}
		listed, unlisted = listed || meets, unlisted || !meets
	})
	for _, at := range f.Cells[1:] {
		if at.Sheet != "Breaks" {
			return fmt.Errorf("%v is no row of Breaks", at)
		}
	}
	if more := len(f.Cells) > 1; more && !listed || !more && !unlisted {
		return fmt.Errorf("%d rows of Breaks, and Vehicles list a vehicle that meets the row: %v", len(f.Cells)-1, listed)
	}
	return nil
}
