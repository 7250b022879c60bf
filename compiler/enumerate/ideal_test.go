package enumerate

import "strings"

// ideal writes the output that the enumeration itself would print, a box for
// every configuration. The checker is tried on it, and on what is spoilt in it.
func (c *catalogue) ideal(o *outlook) output {
	out := output{public: map[string]guide{}, staff: map[string]guide{}}
	out.findings = append(c.idealSets(o), c.idealCells(o)...)
	out.recount()
	for _, w := range o.worlds {
		cover, g := c.idealPlatform(o, w, true)
		out.coverage = append(out.coverage, cover)
		out.public[g.Platform] = g
		_, out.staff[g.Platform] = c.idealPlatform(o, w, false)
	}
	return out
}

// recount makes the summary fit the findings.
func (out *output) recount() {
	out.summary = map[string]int{}
	for _, f := range out.findings {
		if f.Accepted != nil {
			out.summary["accepted"]++
		} else {
			out.summary[f.Severity]++
		}
	}
}

// boxOf holds one configuration and nothing else.
func (c *catalogue) boxOf(g config) box {
	b := box{Years: [][2]int{{g.year, g.year}}, Traits: map[string]inBox{}}
	for i, t := range c.traits {
		b.Traits[t.name] = []*string{nil}
		if v := g.vals[i]; v != never {
			b.Traits[t.name] = []*string{&t.values[v].name}
		}
	}
	return b
}

func (c *catalogue) idealSets(o *outlook) []finding {
	var out []finding
	for _, e := range o.findings {
		out = append(out, c.idealSet(e)...)
	}
	return out
}

// idealSet tells one finding about vehicles, what is accepted of it apart.
func (c *catalogue) idealSet(e *expected) []finding {
	var out []finding
	left := c.split(e)
	if len(left.open) > 0 {
		out = append(out, c.idealFinding(e, left.open))
	}
	for _, a := range c.accepts {
		var rest []int
		for _, i := range left.accepted[a] {
			if left.union()[i] && !c.earlier(e, i, a) {
				rest = append(rest, i)
			}
		}
		if len(rest) > 0 {
			f := c.idealFinding(e, rest)
			f.Accepted = &acceptance{Cell: a.first}
			out = append(out, f)
		}
	}
	return out
}

// earlier reports whether a row before this one accepts a configuration.
func (c *catalogue) earlier(e *expected, i int, until *accept) bool {
	for _, a := range c.accepts {
		if a == until {
			return false
		}
		if holdsInt(c.split(e).accepted[a], i) {
			return true
		}
	}
	return false
}

func (c *catalogue) idealFinding(e *expected, set []int) finding {
	f := finding{Code: e.code, Severity: e.severity, Message: "it is so", Platform: e.platform,
		Position: e.position, Configurations: len(set), OnTheRoad: e.world.share(set)}
	for _, i := range set {
		f.Where = append(f.Where, c.boxOf(e.world.configs[i]))
	}
	f.Example = &example{Year: e.world.configs[set[0]].year, Traits: map[string]*string{}}
	for name, values := range f.Where[0].Traits {
		f.Example.Traits[name] = values[0]
	}
	if e.code == "sides-differ" {
		here, there, _ := strings.Cut(e.key.cells, " / ")
		f.Message = c.unequalWords(here, there)
		return f
	}
	if len(e.parts) > 0 {
		f.Part = e.parts[0]
	}
	if e.code == "part-out-of-place" {
		f.Cells = e.cells
		return f
	}
	f.Cells = c.cellsOf(e.key)
	if e.cells != nil {
		f.Cells, f.Message = e.named(f.Cells[0], f.Cells[1]), "it is so; "+e.says()
	}
	return f
}

// cellsOf reads the cells of a key back, the fitment cell first.
func (c *catalogue) cellsOf(k key) []ref {
	if k.cells == "" {
		return nil
	}
	var out []ref
	for _, text := range strings.Split(k.cells, " & ")[:2] {
		file, rest, _ := strings.Cut(text, ":")
		name, cell, _ := strings.Cut(rest, "!")
		out = append(out, ref{file, name, cell})
	}
	a, b := out[0], out[1]
	if strings.HasPrefix(k.code, "limit-") || k.code == "fact-missing" {
		return out
	}
	last := k.code != "fitment-conflict" && !strings.HasPrefix(strings.ToLower(b.Sheet), "fitment")
	if last || k.code == "fitment-conflict" && (a.File != b.File || a.Sheet != b.Sheet || before(a.Cell, b.Cell)) {
		return out
	}
	return []ref{b, a}
}

func (c *catalogue) idealCells(o *outlook) []finding {
	var out []finding
	add := func(code, severity string, cells ...ref) {
		out = append(out, finding{Code: code, Severity: severity, Message: "it is so", Cells: cells})
	}
	for _, e := range c.misplaced(o) {
		out = append(out, c.idealSet(e)...)
	}
	outside := c.outside()
	for at := range outside {
		add("years-outside", "warning", at)
	}
	for at := range c.ahead() {
		if !outside[at] {
			add("years-ahead", "warning", at)
		}
	}
	k := &checker{c: c, o: o}
	for at, code := range k.mistakes() {
		if code == "" {
			code = "value-invalid"
		}
		add(code, "error", at)
	}
	for at := range c.bare() {
		add("reason-missing", "warning", at)
	}
	for _, r := range c.rowsByFirst(c.unreachable(o)) {
		add("row-unreachable", "warning", r)
	}
	for pairOf := range o.clashes {
		add("position-conflict", "error", pairOf[0].first, pairOf[1].first)
	}
	for a := range c.idle(o) {
		add("accepted-unused", "warning", a.first)
	}
	for _, a := range c.accepts {
		if a.expired {
			add("accepted-expired", "warning", a.first)
		}
	}
	for _, p := range c.parts {
		s := k.standing(p.name)
		severity := map[string]string{"withdrawn": "error", "superseded": "warning"}[p.status]
		if p.status == "current" && !s.named && !k.doubtful(p.name) {
			add("part-unused", "note", p.at["Part"])
		} else if severity != "" && s.named {
			add("part-not-current", severity, p.at["Part"])
			out[len(out)-1].Part = p.name
		}
	}
	for _, at := range k.idleCells() {
		add("cell-redundant", "note", at)
		out[len(out)-1].Position = c.positions[c.spots()[at][0].pos].name
	}
	out = append(out, k.idleNames()...)
	for cells, severity := range c.lookalikes() {
		add("size-near-miss", severity, cells[0], cells[1])
	}
	out = append(out, k.idealLimits()...)
	out = append(out, c.idealDragged(o)...)
	return out
}

func (c *catalogue) rowsByFirst(wanted map[string]bool) []ref {
	var out []ref
	for _, s := range c.sheets {
		for _, r := range s.rows {
			if wanted[r.first.String()] {
				out = append(out, r.first)
			}
		}
	}
	return out
}

func (c *catalogue) idealPlatform(o *outlook, w *world, public bool) (platformCoverage, guide) {
	p := c.platforms[w.platform]
	cover := platformCoverage{p.name, len(w.configs), w.share(count(len(w.configs))), nil}
	g := guide{Platform: p.name, Years: p.spans}
	for pos, at := range c.positions {
		n, road := map[string]int{}, map[string]float64{}
		told := guidePosition{Position: at.name}
		for i, all := range o.verdicts[w] {
			if v := all[pos]; v.exists {
				n[v.outcome]++
				road[v.outcome] += w.road[i]
				told.Cases = append(told.Cases, c.idealCase(o, w, i, pos, public))
			}
		}
		cover.Positions = append(cover.Positions, positionCoverage{at.name, len(told.Cases), n["fitted"],
			n["none"], n["planned"], n["ask"], n["conflict"], n["gap"], road})
		g.Positions = append(g.Positions, told)
	}
	return cover, g
}

func (c *catalogue) idealCase(o *outlook, w *world, i, pos int, public bool) guideCase {
	v := o.verdicts[w][i][pos]
	out := guideCase{Where: c.boxOf(w.configs[i]), Outcome: v.outcome}
	for _, d := range v.cells {
		// What is planned is not for the world.
		if !public || v.outcome != "planned" && v.outcome != "conflict" {
			out.Notes = append(out.Notes, d.fit.note, d.note)
		}
	}
	if (&checker{c: c, o: o}).trouble(w, i, pos) {
		out.Settled = new(bool)
	}
	if v.outcome != "fitted" {
		return out
	}
	st := v.cells[0].st
	if st.kind == "with" {
		out.With = c.positions[st.with].name
		return out
	}
	for _, items := range c.filled(st, v.quantity) {
		var alt []offer
		for _, it := range items {
			alt = append(alt, offer{it.name, it.quantity})
		}
		out.Alternatives = append(out.Alternatives, alt)
	}
	return out
}
