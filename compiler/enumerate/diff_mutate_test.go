package enumerate

import (
	"maps"
	"math/rand/v2"
	"slices"
)

// mutant is the catalogue of a seed after some changes, as hands make them, with the
// names that were changed on the way.
func mutant(seed, step uint64, changes int) *catalogue {
	c := generate(seed)
	g := &gen{Rand: rand.New(rand.NewPCG(seed, 1<<32+step)), c: c}
	all := []func(*gen){
		(*gen).changeCell, (*gen).changeCell, (*gen).changeCell, (*gen).dropRow, (*gen).dropRow, (*gen).addVehicle,
		(*gen).addFit, (*gen).requantity, (*gen).addRule, (*gen).changeKit, (*gen).reorder, (*gen).reprecede, (*gen).reyear,
	}
	for range changes {
		pick(g, all)(g)
	}
	return c
}

// sheetOf finds the sheet that holds a row.
func (c *catalogue) sheetOf(r *row) *sheet {
	for _, s := range c.sheets {
		if slices.Contains(s.rows, r) {
			return s
		}
	}
	return nil
}

// ensure gives a sheet the columns that a row of it fills.
func (s *sheet) ensure(r *row) {
	for _, name := range slices.Sorted(maps.Keys(r.cells)) {
		has := slices.ContainsFunc(s.columns, func(c column) bool { return c.name == name })
		if r.cells[name] != nil && !has {
			s.columns = append(s.columns, column{name, name})
		}
	}
}

// merged tells whether a cell is part of a merged range.
func (c *catalogue) merged(r *row, column string) bool {
	return slices.ContainsFunc(c.sheets, func(s *sheet) bool {
		return slices.ContainsFunc(s.merges, func(m merge) bool { return m.holds(r, column) })
	})
}

// someCell gives a fitment cell that says something and can be changed.
func (g *gen) someCell() (*fit, int) {
	f := pick(g, g.c.fits)
	for _, pos := range g.Perm(len(g.c.positions)) {
		if st := f.says[pos]; st != nil && !f.gone && !st.unreadable && !g.c.merged(f.row, f.columns[pos]) {
			return f, pos
		}
	}
	return nil, 0
}

func (g *gen) say(f *fit, pos int, st *statement) {
	text, reason := g.sayText(st)
	f.says[pos], f.cells[f.columns[pos]], f.notes[pos] = st, text, reason
	delete(f.cells, f.columns[pos]+" note")
}

// changeCell makes a fitment cell say something else, or nothing.
func (g *gen) changeCell() {
	f, pos := g.someCell()
	switch {
	case f == nil:
	case g.chance(0.15):
		delete(f.says, pos)
		delete(f.cells, f.columns[pos]+" note")
		f.cells[f.columns[pos]], f.notes[pos] = nil, ""
	default:
		g.say(f, pos, g.statement(pos, g.numbers()))
	}
}

// reorder turns the order of preference of a cell round.
func (g *gen) reorder() {
	f, pos := g.someCell()
	if f == nil || f.says[pos].kind != "parts" {
		return
	}
	st := *f.says[pos]
	st.alts = slices.Clone(st.alts)
	slices.Reverse(st.alts)
	g.say(f, pos, &st)
}

func (g *gen) reprecede() {
	f := pick(g, g.c.fits)
	if f.gone || g.c.merged(f.row, "Precedence") {
		return
	}
	f.precedence = pick(g, []int{0, 1, 2, 10})
	f.cells["Precedence"] = f.precedence
	g.c.sheetOf(f.row).ensure(f.row)
}

// dropRow deletes a row, unless nothing would be left of a platform.
func (g *gen) dropRow() {
	r := pick(g, g.c.rows())
	was := r.gone
	r.gone = true
	if !g.c.manageable() {
		r.gone = was
	}
}

func (g *gen) addVehicle() {
	v := g.vehicle(-1)
	g.c.vehicles = append(g.c.vehicles, v)
	if !g.c.manageable() {
		g.c.vehicles = g.c.vehicles[:len(g.c.vehicles)-1]
		return
	}
	g.insert(g.c.vehicles[0].row, v.row)
}

// insert puts a row somewhere into the sheet of another one.
func (g *gen) insert(beside, r *row) {
	s := g.c.sheetOf(beside)
	for k := g.IntN(len(s.rows) + 1); ; k++ {
		if k == len(s.rows) || !g.c.inMerge(s.rows[k]) {
			s.rows = slices.Insert(s.rows, k, r)
			break
		}
	}
	s.ensure(r)
}

func (c *catalogue) inMerge(r *row) bool {
	return slices.ContainsFunc(c.sheets, func(s *sheet) bool {
		return slices.ContainsFunc(s.merges, func(m merge) bool { return slices.Contains(m.rows, r) })
	})
}

// addFit copies a fitment row and gives the copy other conditions.
func (g *gen) addFit() {
	f := pick(g, g.c.fits)
	if f.gone || f.fault != "" {
		return
	}
	t := *f
	t.row = newRow()
	t.cells = maps.Clone(f.cells)
	t.says, t.columns, t.notes = maps.Clone(f.says), maps.Clone(f.columns), slices.Clone(f.notes)
	for _, column := range append([]string{"Platform", "Years"}, traitNames(g.c)...) {
		delete(t.cells, column)
	}
	t.nowhere = false
	t.conds = g.conds(t.row, true)
	g.c.fits = append(g.c.fits, &t)
	g.insert(f.row, t.row)
}

func traitNames(c *catalogue) []string {
	var out []string
	for _, t := range c.traits {
		out = append(out, t.name)
	}
	return out
}

// requantity changes how many a position takes, where it has one row.
func (g *gen) requantity() {
	p := pick(g, g.c.positions)
	if len(p.rows) > 1 || g.c.merged(p.rows[0].row, "Quantity") {
		return
	}
	r := p.rows[0]
	r.quantity = g.quantity()
	r.cells["Quantity"] = r.quantity
	g.c.sheetOf(r.row).ensure(r.row)
}

// reyear gives a platform other years.
func (g *gen) reyear() {
	p := &g.c.platforms[g.IntN(len(g.c.platforms))]
	r := g.c.declaration(p.name)
	if g.c.merged(r, "Years") {
		return
	}
	was := p.spans
	p.spans = slices.Clone(was)
	p.spans[len(p.spans)-1][1] += g.between(1, 2)
	if g.chance(0.3) {
		p.spans[0][0]--
	}
	if g.chance(0.3) && len(p.spans) > 1 {
		p.spans = p.spans[1:]
	}
	if !g.c.manageable() {
		p.spans = was
		return
	}
	r.cells["Years"] = g.yearsText(p.spans)
}

// declaration gives the Platforms row of a platform.
func (c *catalogue) declaration(platform string) *row {
	for _, s := range c.sheets {
		for _, r := range s.rows {
			if s.name == "Platforms" && r.cells["Platform"] == platform {
				return r
			}
		}
	}
	panic("no platform " + platform)
}

func (g *gen) addRule() {
	if len(g.c.rules) == 0 {
		return
	}
	r := g.rule()
	beside := g.c.rules[0].row
	g.c.rules = append(g.c.rules, r)
	g.insert(beside, r.row)
}

// changeKit changes how many of a part a kit holds.
func (g *gen) changeKit() {
	if len(g.c.kits) == 0 {
		return
	}
	k := pick(g, g.c.kits)
	i := g.IntN(len(k.items))
	k.items[i].quantity++
	k.rows[i].cells["Quantity"] = k.items[i].quantity
}
