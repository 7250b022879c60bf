package enumerate

import (
	"math/big"
	"sort"
	"strings"
)

// key tells one finding about vehicles from another, by the granularity of
// the format. Cells is written by the functions below.
type key struct{ code, platform, position, cells string }

// expected is a finding that must be there, with exactly this set.
type expected struct {
	key
	severity string
	world    *world
	set      []int // indexes of world.configs, ascending
	parts    []string
	margin   *big.Rat // of a broken limit; nil for another finding
	must     string
	cells    []ref  // that it must name, in order; nil where that is not compared
	parted   *entry // see split; nil until it is asked for
}

// outlook is everything that the enumeration says of a catalogue.
type outlook struct {
	worlds   []*world
	verdicts map[*world][][]verdict // by configuration, then position
	findings map[key]*expected
	clashes  map[[2]*place]bool
	decided  map[*statement]bool // statements that decide somewhere
	emptied  []ref               // see idleCells; nil until it is asked for

	called map[*limit]bool          // limits that are about something that is offered
	lacks  map[lack]map[*limit]bool // properties that offered parts lack
	doubt  map[spotAt][]key         // where facts that a limit needs are disputed: those findings
	stands map[spotAt][]*expected   // see behind; nil until it is asked for
}

// lack is a property that a part does not state.
type lack struct{ part, property string }

// spotAt is a position of one configuration.
type spotAt struct {
	world *world
	i     int
	pos   int
}

func (o *outlook) met(l *limit) { o.called[l] = true }

func (o *outlook) lack(p *part, property string, l *limit) {
	at := lack{p.name, property}
	if o.lacks[at] == nil {
		o.lacks[at] = map[*limit]bool{}
	}
	o.lacks[at][l] = true
}

func (o *outlook) add(k key, severity string, w *world, i int, parts ...string) {
	e := o.findings[k]
	if e == nil {
		e = &expected{key: k, severity: severity, world: w, parts: parts}
		o.findings[k] = e
	}
	if n := len(e.set); n == 0 || e.set[n-1] != i {
		e.set = append(e.set, i)
	}
}

// enumerate works everything out, configuration by configuration.
func (c *catalogue) enumerate() *outlook {
	o := &outlook{
		worlds:   c.worlds(),
		verdicts: map[*world][][]verdict{},
		findings: map[key]*expected{},
		clashes:  map[[2]*place]bool{},
		decided:  map[*statement]bool{},
		called:   map[*limit]bool{},
		lacks:    map[lack]map[*limit]bool{},
		doubt:    map[spotAt][]key{},
	}
	for _, w := range o.worlds {
		for i, g := range w.configs {
			var all []verdict
			for pos := range c.positions {
				v := c.judge(w.platform, g, pos)
				all = append(all, v)
				if v.exists {
					c.report(o, w, i, pos, v)
				}
			}
			o.verdicts[w] = append(o.verdicts[w], all)
			c.together(o, w, i)
			c.overlaps(o, w, i)
			c.thin(o, w, i)
			c.sides(o, w, i)
			c.disputes(o, w, i)
		}
		c.alike(o, w)
		c.unequal(o, w)
	}
	return o
}

// report notes every finding that holds at one configuration and position.
func (c *catalogue) report(o *outlook, w *world, i, pos int, v verdict) {
	at := func(code, cells string) key {
		return key{code, c.platforms[w.platform].name, c.positions[pos].name, cells}
	}
	switch v.outcome {
	case "gap":
		severity := map[string]string{"required": "error", "wanted": "warning"}[c.positions[pos].coverage]
		if severity != "" && !c.owed(at("coverage-gap", ""), w, i, pos) {
			o.add(at("coverage-gap", ""), severity, w, i)
		}
	case "planned", "ask":
		o.add(at("coverage-"+v.outcome, ""), "note", w, i)
	}
	for a, d := range v.cells {
		o.decided[d.st] = true
		cell := d.fit.at[d.fit.columns[pos]]
		for _, e := range v.cells[:a] {
			if e.say != d.say {
				other := e.fit.at[e.fit.columns[pos]]
				o.add(at("fitment-conflict", pair(cell, other)), "error", w, i)
			}
		}
		for _, r := range c.rules {
			for _, name := range c.forbids(r, d.st, w.platform, w.configs[i]) {
				o.add(at("part-forbidden", pair(cell, r.first.row())+" & "+name), "error", w, i, name)
			}
		}
		c.limited(o, w, i, pos, d)
		for _, p := range c.mismatched(d.st, v.air, w.configs[i]) {
			o.add(at("line-size-mismatch", pair(cell, p.at["Line size"])+" & "+p.name), "error", w, i, p.name)
		}
	}
	c.amiss(o, w, i, pos, v)
	c.meetings(o, w, i, pos)
}

// meetings notes the Positions rows that meet here and differ.
func (c *catalogue) meetings(o *outlook, w *world, i, pos int) {
	var here []*place
	for _, r := range c.positions[pos].rows {
		if r.matches(w.platform, w.configs[i]) {
			here = append(here, r)
		}
	}
	for a, r := range here {
		for _, s := range here[:a] {
			if r.quantity != s.quantity || r.air != s.air {
				o.clashes[[2]*place{s, r}] = true
			}
		}
	}
}

// forbids lists what a rule forbids of a statement at a configuration.
func (c *catalogue) forbids(r *rule, st *statement, platform int, g config) []string {
	if r.idle {
		return nil
	}
	return c.touches(r, st, platform, g)
}

// touches lists what of a statement a rule is about at a configuration.
func (c *catalogue) touches(r *rule, st *statement, platform int, g config) []string {
	if r.gone || r.fault != "" || !r.meets(platform, g) {
		return nil
	}
	var hit []string
	for _, name := range c.offered(st) {
		family := ""
		if p := c.part(name); p != nil {
			family = p.family
		}
		if (r.part == "" || r.part == name) && (r.family == "" || r.family == family) {
			hit = append(hit, name)
		}
	}
	return hit
}

// mismatched lists the parts of a statement whose Line size is not the one of
// the position's air line.
func (c *catalogue) mismatched(st *statement, air int, g config) []*part {
	if air < 0 {
		return nil
	}
	var out []*part
	for _, name := range c.offered(st) {
		p := c.part(name)
		if p == nil || p.line == nil {
			continue
		}
		if v := g.vals[air]; v == never || !c.traits[air].values[v].size.equal(*p.line) {
			out = append(out, p)
		}
	}
	return out
}

// pair names two cells, whichever comes first.
func pair(a, b ref) string {
	both := []string{a.String(), b.String()}
	sort.Strings(both)
	return both[0] + " & " + both[1]
}

// row is a cell's address with the column left out.
func (r ref) row() ref {
	i := 0
	for i < len(r.Cell) && r.Cell[i] > '9' {
		i++
	}
	return ref{r.File, r.Sheet, r.Cell[i:]}
}

// exists reports whether conditions match any configuration at all.
func (o *outlook) exists(k conds) bool {
	for _, w := range o.worlds {
		for _, g := range w.configs {
			if k.meets(w.platform, g) {
				return true
			}
		}
	}
	return false
}

// unreachable lists the rows that match nothing, by their first cells.
// partial tells whether more vehicles than are known may meet a condition: a Vehicles row
// of one of its platforms could not be read, or one that leaves out a platform which is
// unknown.
func (c *catalogue) partial(k conds) bool {
	for p := range c.platforms {
		for _, v := range c.vehicles {
			about := v.platform.meets(p)
			if v.fault == "Platform" {
				about = strings.HasPrefix(v.cells["Platform"].(string), "not ")
			}
			if !v.gone && v.fault != "" && about && k.platform.meets(p) {
				return true
			}
		}
	}
	return false
}

func (c *catalogue) unreachable(o *outlook) map[string]bool {
	out := map[string]bool{}
	note := func(r *row, k conds) {
		if !r.gone && !o.exists(k) && !c.partial(k) {
			out[r.first.String()] = true
		}
	}
	for _, f := range c.fits {
		if f.fault == "" {
			note(f.row, f.conds)
		}
	}
	for _, r := range c.rules {
		if r.fault == "" {
			note(r.row, r.conds)
		}
	}
	for _, p := range c.positions {
		for _, r := range p.rows {
			if r.fault == "" {
				note(r.row, r.conds)
			}
		}
	}
	for _, r := range c.factRows {
		if r.fault == "" {
			note(r.row, r.conds)
		}
	}
	return out
}
