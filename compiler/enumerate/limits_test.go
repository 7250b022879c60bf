package enumerate

import (
	"slices"
	"sort"
	"strings"
)

// deciding gives the rows that decide a fact at a configuration.
func (f *fact) deciding(platform int, g config) []*factRow {
	var out []*factRow
	for _, r := range f.rows {
		if r.gone || r.fault != "" || !r.meets(platform, g) {
			continue
		}
		if len(out) > 0 && r.precedence < out[0].precedence {
			continue
		}
		if len(out) > 0 && r.precedence > out[0].precedence {
			out = nil
		}
		out = append(out, r)
	}
	return out
}

func (c *catalogue) fact(name string) *fact {
	for _, f := range c.facts {
		if f.name == name {
			return f
		}
	}
	return nil
}

// calculation finds what calculates a value for a part.
func (c *catalogue) calculation(name string, p *part) *calculation {
	for _, k := range c.calculations {
		if k.name == name && !k.gone && (k.family == "" || k.family == p.family) {
			return k
		}
	}
	return nil
}

// known gives what a property of a part is, and otherwise what is missing for it:
// nothing, where its formula has no value.
func (c *catalogue) known(p *part, name string) (is amount, ok bool, missing []string) {
	if a, states := p.has[name]; states {
		return a, true, nil
	}
	k := c.calculation(name, p)
	if k == nil {
		return amount{}, false, []string{name}
	}
	values := map[string]amount{}
	ok = true
	for _, n := range k.is.names() {
		a, has, lacks := c.known(p, n)
		values[n], ok, missing = a, ok && has, append(missing, lacks...)
	}
	if !ok {
		return amount{}, false, missing
	}
	is, ok = k.is.work(values)
	return is, ok, nil
}

// about reports whether a limit is about a part at a position. A kit is what it holds,
// unless the limit names its family.
func (l *limit) about(c *catalogue, name string, pos int) bool {
	if l.gone || l.broken != "" || l.position >= 0 && l.position != pos || !c.knows(name) {
		return false
	}
	if l.family == "" {
		return c.kit(name) == nil
	}
	p := c.part(name)
	return p != nil && p.family == l.family
}

// names lists what a limit names, facts apart.
func (l *limit) names(c *catalogue) (properties []string, facts []*fact) {
	for _, n := range append(l.left.names(), l.right.names()...) {
		f := c.fact(n)
		switch {
		case f == nil && !slices.Contains(properties, n):
			properties = append(properties, n)
		case f != nil && !slices.Contains(facts, f):
			facts = append(facts, f)
		}
	}
	return properties, facts
}

// holds reports whether a limit holds for two sides, at their worst.
func (l *limit) holds(left, right amount) bool {
	switch l.must {
	case "at least":
		return left.low.Cmp(right.high) >= 0
	case "at most":
		return left.high.Cmp(right.low) <= 0
	}
	return left.equal(right)
}

// disputes notes where the deciding rows of a fact do not state the same.
func (c *catalogue) disputes(o *outlook, w *world, i int) {
	for _, f := range c.facts {
		for _, k := range c.disputed(w, f, f.deciding(w.platform, w.configs[i])) {
			o.add(k, "error", w, i)
		}
	}
}

// disputed gives the findings about a fact of which some rows do not state the same.
func (c *catalogue) disputed(w *world, f *fact, rows []*factRow) []key {
	var out []key
	for a, r := range rows {
		for _, s := range rows[:a] {
			if !r.states[f.name].equal(s.states[f.name]) {
				out = append(out, key{"fact-conflict", c.platforms[w.platform].name, "", pair(r.at[f.name], s.at[f.name])})
			}
		}
	}
	return out
}

// limited works all limits out for what a deciding cell offers.
func (c *catalogue) limited(o *outlook, w *world, i, pos int, d deciding) {
	for _, name := range c.offered(d.st) {
		for _, l := range c.limits {
			if l.about(c, name, pos) {
				c.limit(o, w, i, pos, d, l, c.part(name))
			}
		}
	}
}

// limit works one limit out for one part that a deciding cell offers.
func (c *catalogue) limit(o *outlook, w *world, i, pos int, d deciding, l *limit, p *part) {
	properties, facts := l.names(c)
	o.met(l)
	values, ready := map[string]amount{}, true
	var cells []ref
	for _, n := range properties {
		is, ok, missing := c.known(p, n)
		values[n], ready = is, ready && ok
		for _, m := range missing {
			o.lack(p, m, l)
		}
		cells = append(cells, c.sources(p, n)...)
	}
	for _, f := range facts {
		rows := f.deciding(w.platform, w.configs[i])
		switch {
		case len(rows) == 0:
			if k := c.needs(w, l, f); !c.unstated(k, w, i, f) {
				o.add(k, l.severity(), w, i)
			}
			ready = false
			continue
		case slices.ContainsFunc(rows, func(r *factRow) bool { return !r.states[f.name].equal(rows[0].states[f.name]) }):
			if !l.warning {
				at := spotAt{w, i, pos}
				o.doubt[at] = append(o.doubt[at], c.disputed(w, f, rows)...)
			}
			ready = false
		}
		values[f.name] = rows[0].states[f.name]
		for _, r := range rows {
			cells = append(cells, r.at[f.name])
		}
	}
	if ready {
		c.judgeLimit(o, w, i, pos, d, l, p, values, cells)
	}
}

// has reports whether a part has all of some properties.
func (c *catalogue) has(p *part, names []string) bool {
	return !slices.ContainsFunc(names, func(n string) bool { _, ok, _ := c.known(p, n); return !ok })
}

// needs is the finding that nobody states a fact that a limit needs.
func (c *catalogue) needs(w *world, l *limit, f *fact) key {
	position := ""
	if l.position >= 0 {
		position = c.positions[l.position].name
	}
	return key{"fact-missing", c.platforms[w.platform].name, position, l.at["Limit"].String() + " & " + c.header(f.name).String()}
}

func (l *limit) severity() string {
	if l.warning {
		return "warning"
	}
	return "error"
}

func (c *catalogue) judgeLimit(o *outlook, w *world, i, pos int, d deciding, l *limit, p *part, values map[string]amount, cells []ref) {
	cell := d.fit.at[d.fit.columns[pos]]
	k := key{"", c.platforms[w.platform].name, c.positions[pos].name, strings.Join([]string{cell.String(), l.at["Limit"].String(), p.name}, " & ")}
	left, ok1 := l.left.work(values)
	right, ok2 := l.right.work(values)
	switch {
	case !ok1 || !ok2:
		k.code = "limit-undefined"
		o.add(k, l.severity(), w, i, p.name)
	case !l.holds(left, right):
		k.code = "limit-broken"
		k.cells += " & " + left.String() + " & " + right.String()
		o.add(k, l.severity(), w, i, p.name)
		o.findings[k].margin, o.findings[k].must = l.margin(left, right), l.must
		o.findings[k].names(append(append([]ref{cell}, cells...), l.at["Limit"]))
	}
}

func (a amount) String() string { return a.low.RatString() + ".." + a.high.RatString() }

// sources lists the cells from which a part has a property: its own, or those of what it
// follows from and of the formulas.
func (c *catalogue) sources(p *part, name string) []ref {
	if _, states := p.has[name]; states {
		return []ref{p.at[name]}
	}
	k := c.calculation(name, p)
	if k == nil {
		return nil
	}
	out := []ref{k.at["Formula"]}
	for _, n := range k.is.names() {
		out = append(out, c.sources(p, n)...)
	}
	return out
}

// names adds cells that a finding must name.
func (e *expected) names(cells []ref) {
	for _, at := range cells {
		if !slices.Contains(e.cells, at) {
			e.cells = append(e.cells, at)
		}
	}
	sort.Slice(e.cells, func(i, j int) bool { return e.cells[i].String() < e.cells[j].String() })
}

// header finds the first header of a fact, in the order of files and sheets.
func (c *catalogue) header(name string) ref {
	files := slices.Clone(c.files)
	sort.Strings(files)
	for _, file := range files {
		for _, s := range c.sheets {
			if at, ok := s.heads[name]; ok && s.file == file && strings.HasPrefix(strings.ToLower(s.name), "facts") {
				return at
			}
		}
	}
	panic("no header " + name)
}
