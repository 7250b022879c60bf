package enumerate

// rule makes a Compatibility row without With, mostly a forbidding one.
func (g *gen) rule() *rule {
	r := &rule{row: newRow()}
	if g.chance(0.65) {
		r.part = pick(g, g.numbers())
		r.cells["Part"] = g.odd(r.part)
	}
	known := g.usedFamilies()
	if r.part != "" {
		known = g.familyOf(r.part) // with another the row would be about nothing, an error
	}
	if len(known) > 0 && (r.part == "" || g.chance(0.2)) {
		r.family = pick(g, known)
		r.cells["Family"] = g.odd(r.family)
	}
	if r.part == "" && r.family == "" {
		r.part = g.c.parts[0].name
		r.cells["Part"] = r.part
	}
	r.conds = g.conds(r.row, false)
	for i, t := range g.c.traits {
		if g.chance(0.5) {
			r.traits[i] = cond{}
			r.cells[t.name] = nil
		}
	}
	r.effect = "forbid"
	if r.idle = g.chance(0.1); r.idle {
		r.effect = "caution"
	}
	r.cells["Effect"] = g.odd(r.effect)
	r.cells["Reason"] = "it rubs"
	r.fault = g.spoil(r.row, 0.04)
	return r
}

// companion makes a Compatibility row with With. It is mostly about a part
// that is offered, and so is the other.
func (g *gen) companion() *rule {
	r := g.rule()
	r.idle = true
	r.effect = pick(g, []string{"forbid", "require"})
	for r.with = pick(g, g.c.parts).name; r.with == r.part; r.with = pick(g, g.numbers()) {
	}
	r.cells["Effect"], r.cells["With"] = g.odd(r.effect), g.odd(r.with)
	return r
}

// familyOf gives the family of a number, none where it has none.
func (g *gen) familyOf(number string) []string {
	for _, p := range g.c.parts {
		if p.name == number && p.family != "" {
			return []string{p.family}
		}
	}
	return nil
}

func (g *gen) usedFamilies() []string {
	var out []string
	for _, p := range g.c.parts {
		if p.family != "" {
			out = append(out, p.family)
		}
	}
	return out
}

// accept makes an Accepted row. Today is 2027-03-01: a row that ends on that
// day is still in force.
func (g *gen) accept() *accept {
	codes := []string{"coverage-gap", "fitment-conflict", "part-forbidden", "line-size-mismatch", "coverage-planned", "coverage-ask",
		"companion-missing", "companion-missing", "companion-missing", "companion-forbidden", "companion-forbidden", "vehicles-overlap", "coverage-thin", "indistinguishable",
		"fact-conflict", "fact-missing", "fact-missing", "limit-broken", "limit-broken", "limit-undefined", "side-missing", "side-quantity", "sides-differ", "sides-differ", "quantity-odd", "quantity-odd"}
	a := &accept{row: newRow(), code: pick(g, codes)}
	a.cells["Finding"] = a.code
	a.cells["Reason"], a.cells["By"] = "known and looked at", "workshop"
	a.conds = g.conds(a.row, false)
	for i, t := range g.c.traits {
		if g.chance(0.75) {
			a.traits[i] = cond{}
			a.cells[t.name] = nil
		}
	}
	if g.chance(0.4) {
		a.position = pick(g, g.c.positions).name
		a.cells["Position"] = g.odd(a.position)
	}
	if ofOnePart(a.code) && g.chance(0.3) {
		a.part = pick(g, g.c.parts).name
		a.cells["Part"] = a.part
	}
	switch g.IntN(5) {
	case 0:
		a.cells["Until"] = day(2027, 2, 28)
		a.expired = true
	case 1:
		a.cells["Until"] = day(2027, 3, 1)
	case 2:
		a.cells["Until"] = day(2029, 12, 31)
	}
	return a
}
