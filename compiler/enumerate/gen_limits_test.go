package enumerate

import "math/big"

// fact is a column of the Facts sheets, with the rows that state it.
type fact struct {
	measured
	rows []*factRow
}

// factRow is a row of a Facts sheet; states is by name of the fact.
type factRow struct {
	*row
	conds
	precedence int
	states     map[string]amount
	fault      string
}

// calculation is a row of a Calculated sheet.
type calculation struct {
	*row
	symbol
	family string
	is     *tree
}

// limit is a row of a Limits sheet. A broken one has a formula that cannot be read in
// the column.
type limit struct {
	*row
	position    int // -1 for any
	family      string
	left, right *tree
	must        string
	warning     bool
	broken      string
}

// properties are the columns of Parts that are measured.
func properties() []measured {
	return []measured{{"Extended length", "length", true}, {"Compressed-length", "length", false}, {"Rating", "mass", true}, {"Turns", "count", false}}
}

// measure gives parts their properties. The first part has all, so that every column
// says what it measures.
func (g *gen) measure() {
	for i, p := range g.c.parts {
		p.has = map[string]amount{}
		if p.line != nil {
			p.has["Line size"] = amount{new(big.Rat).Quo(p.line.mm, big.NewRat(1000, 1)), new(big.Rat).Quo(p.line.mm, big.NewRat(1000, 1))}
		}
		for _, m := range properties() {
			if i == 0 || g.chance(0.9) {
				p.has[m.name] = g.write(p.row, m)
			}
		}
	}
}

func facts() []measured {
	return []measured{{"Travel", "length", true}, {"Travel / bump", "length", true}, {"Axle load", "mass", true}, {"Springs", "count", false}}
}

// limits makes facts, calculated values and limits.
func (g *gen) limits() {
	if !g.chance(0.85) {
		return
	}
	g.measure()
	for _, m := range some(g, facts(), g.between(1, 3)) {
		g.c.facts = append(g.c.facts, &fact{measured: m})
	}
	for i := range g.between(1, 2) {
		g.factSheet(i)
	}
	g.calculations()
	for range g.between(1, 4) {
		g.c.limits = append(g.c.limits, g.limit())
	}
}

// factSheet makes a sheet of facts. The first row of the first states all facts.
func (g *gen) factSheet(i int) {
	s := g.sheet([]string{"Facts", "FACTS – more"}[i])
	s.columns = g.condColumns()
	for _, f := range g.c.facts {
		s.columns = append(s.columns, column{name: f.name})
	}
	s.columns = append(s.columns, columns("Precedence", "Source")...)
	s.measured = map[string]measured{}
	for _, f := range g.c.facts {
		s.measured[f.name] = f.measured
	}
	for n := range g.between(1, 5) {
		r := &factRow{row: newRow(), states: map[string]amount{}}
		r.conds = g.conds(r.row, false)
		if g.chance(0.3) {
			r.precedence = g.between(-1, 1)
			r.cells["Precedence"] = r.precedence
		}
		for at, f := range g.c.facts {
			// A row that states nothing may look like a heading or a note.
			last := at == len(g.c.facts)-1 && len(r.states) == 0
			if i+n == 0 || g.chance(0.6) || last {
				r.states[f.name] = g.write(r.row, f.measured)
				f.rows = append(f.rows, r)
			}
		}
		if r.fault = g.spoil(r.row, 0.02); r.fault == "" && g.chance(0.25) {
			g.widen(r)
		}
		s.rows = append(s.rows, r.row)
		g.c.factRows = append(g.c.factRows, r)
	}
}

// widen lifts the conditions of a row, so that facts are stated for most vehicles.
func (g *gen) widen(r *factRow) {
	for i, t := range g.c.traits {
		r.traits[i], r.cells[t.name] = cond{}, nil
	}
	r.years, r.cells["Years"] = cond{}, nil
}

// calculations makes up to two calculated values; the second may follow from the first.
func (g *gen) calculations() {
	names := g.symbols(false)
	for i, name := range []string{"Stroke", "Stroke over all"}[:g.IntN(3)] {
		c := &calculation{row: newRow(), symbol: symbol{name: name, kind: pick(g, []string{"length", "count"})}}
		for c.is == nil || c.is.constant() || c.is.hopeless() {
			c.is = g.grow(c.kind, names, 1+i)
		}
		c.cells["Name"], c.cells["Formula"] = g.odd(name), g.formula(c.is)
		if c.kind == "length" {
			c.cells["Unit"] = pick(g, []string{"mm", "in", "cm"})
		}
		if known := g.usedFamilies(); len(known) > 0 && g.chance(0.3) {
			c.family = pick(g, known)
			c.cells["Family"] = g.odd(c.family)
		}
		g.c.calculations = append(g.c.calculations, c)
		names = append(names, c.symbol)
	}
}

// symbols lists what a formula can name.
func (g *gen) symbols(withFacts bool) []symbol {
	out := []symbol{{"Line size", "length", false}}
	for _, m := range properties() {
		out = append(out, symbol{m.name, m.kind, false})
	}
	for _, c := range g.c.calculations {
		out = append(out, c.symbol)
	}
	for _, f := range g.c.facts {
		if withFacts {
			out = append(out, symbol{f.name, f.kind, true})
		}
	}
	return out
}

func (g *gen) limit() *limit {
	l := &limit{row: newRow(), position: -1, must: pick(g, []string{"at least", "at most", "at most", "equal to"})}
	kind, names := pick(g, []string{"length", "length", "mass", "count"}), g.symbols(true)
	for l.left == nil || l.left.hopeless() || l.right.hopeless() {
		l.left, l.right = g.grow(kind, names, 2), g.grow(kind, names, 2)
	}
	l.cells["Limit"], l.cells["Left"], l.cells["Right"], l.cells["Must be"] = "rule "+pick(g, []string{"a", "b", "c"}), g.formula(l.left), g.formula(l.right), g.odd(l.must)
	if g.chance(0.5) {
		l.position = g.IntN(len(g.c.positions))
		l.cells["Position"] = g.odd(g.c.positions[l.position].name)
	}
	if known := g.usedFamilies(); len(known) > 0 && g.chance(0.6) {
		l.family = pick(g, known)
		l.cells["Family"] = g.odd(l.family)
	}
	if l.warning = g.chance(0.3); l.warning {
		l.cells["Effect"] = "warning"
	}
	if g.chance(0.05) {
		l.broken = pick(g, []string{"Left", "Right"})
		l.cells[l.broken] = "Zzyzx + 1 mm"
	}
	return l
}

// limitSheets puts the calculated values and the limits on their sheets.
func (g *gen) limitSheets() {
	if len(g.c.calculations) > 0 {
		s := g.sheet("Calculated")
		s.columns = columns("Name", "Unit", "Formula", "Family", "Source", "Note")
		for _, c := range g.c.calculations {
			s.rows = append(s.rows, c.row)
		}
	}
	if len(g.c.limits) > 0 {
		s := g.sheet("Limits")
		s.columns = columns("Limit", "Position", "Family", "Left", "Must be", "Right", "Effect", "Message")
		for _, l := range g.c.limits {
			s.rows = append(s.rows, l.row)
		}
	}
}
