package enumerate

import "slices"

// leeway is whether a finding must be told, may be told, or must not be.
type leeway int

const (
	mustNot leeway = iota
	may
	must
)

// positionIdle: no row says what is fitted there, on any platform. Whether a
// row does so that is set aside, or a cell that cannot be read, is left open.
func (c *catalogue) positionIdle(pos int) leeway {
	out := must
	for _, f := range c.fits {
		st := f.says[pos]
		switch {
		case f.gone || st == nil:
		case f.fault != "" || st.unreadable:
			out = min(out, may)
		default:
			return mustNot
		}
	}
	return out
}

// traitIdle: vehicles are told apart by the trait, and neither a row of
// another sheet names it nor an Air line. It is left open where all vehicles
// have one value, where rows say what is as good as any, or are set aside, and
// where Accepted alone names it.
func (c *catalogue) traitIdle(o *outlook, i int) leeway {
	out := must
	if !o.varies(i) {
		out = may
	}
	add := func(r *row, k conds, fault string) {
		switch named := k.traits[i]; {
		case r.gone || named.form == "":
		case fault != "" || named.form == "any" || c.everything(i, named):
			out = min(out, may)
		default:
			out = mustNot
		}
	}
	for _, f := range c.fits {
		add(f.row, f.conds, f.fault)
	}
	for _, r := range c.rules {
		add(r.row, r.conds, r.fault)
	}
	for _, r := range c.factRows {
		add(r.row, r.conds, r.fault)
	}
	for _, p := range c.positions {
		for _, r := range p.rows {
			add(r.row, r.conds, r.fault)
			if r.air == i && !r.gone {
				out = min(out, may)
				if r.fault == "" {
					out = mustNot
				}
			}
		}
	}
	for _, a := range c.accepts {
		if !a.gone && a.traits[i].form != "" {
			out = min(out, may)
		}
	}
	return out
}

// varies reports whether a platform has vehicles that a trait tells apart.
func (o *outlook) varies(i int) bool {
	for _, w := range o.worlds {
		for _, g := range w.configs {
			if g.vals[i] != w.configs[0].vals[i] {
				return true
			}
		}
	}
	return false
}

// everything reports whether a condition is met by all values and by none.
func (c *catalogue) everything(i int, k cond) bool {
	return k.meets(never) && !slices.ContainsFunc(count(len(c.traits[i].values)), func(v int) bool { return !k.meets(v) })
}

// unused compares position-unused and trait-unused.
func (k *checker) unused() {
	for pos, p := range k.c.positions {
		k.idle("position-unused", p.name, k.c.positionIdle(pos), func(f finding) bool { return f.Position == p.name })
	}
	for i, t := range k.c.traits {
		k.idle("trait-unused", t.name, k.c.traitIdle(k.o, i), func(f finding) bool { return f.Cells[0] == t.rows[0].at["Trait"] })
	}
}

func (k *checker) idle(code, name string, want leeway, is func(finding) bool) {
	told := 0
	for _, f := range k.out.findings {
		if f.Code != code {
			continue
		}
		if len(f.Cells) != 1 || f.Severity != "note" || f.Platform != "" || f.Configurations != 0 {
			k.failf(code, "%v: %s, platform %q, %d configurations", f.Cells, f.Severity, f.Platform, f.Configurations)
		} else if is(f) {
			told++
		}
	}
	if told > 1 || told == 1 && want == mustNot || told == 0 && want == must {
		k.failf(code, "%s: told %d times, leeway %d", name, told, want)
	}
}

// idleNames lists position-unused and trait-unused as they must be told.
func (k *checker) idleNames() []finding {
	var out []finding
	for pos, p := range k.c.positions {
		if k.c.positionIdle(pos) == must {
			out = append(out, finding{Code: "position-unused", Severity: "note", Message: "it is so", Position: p.name, Cells: []ref{p.rows[0].first}})
		}
	}
	for i, t := range k.c.traits {
		if k.c.traitIdle(k.o, i) == must {
			out = append(out, finding{Code: "trait-unused", Severity: "note", Message: "it is so", Cells: []ref{t.rows[0].at["Trait"]}})
		}
	}
	return out
}
