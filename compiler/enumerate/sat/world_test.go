package sat

import (
	"slices"

	"ferrule/compiler/model"
)

// world is a platform as a formula: one existing configuration of it.
type world struct {
	*prover
	cat      *model.Catalogue
	platform *model.Platform
	is       [][]int // by trait, the year first: the variable of each value
}

// newWorld states in a formula that a configuration of the platform exists.
func newWorld(p *prover, cat *model.Catalogue, platform *model.Platform) *world {
	w := &world{prover: p, cat: cat, platform: platform}
	sizes := []int{len(platform.Years)}
	for _, t := range cat.Traits {
		sizes = append(sizes, len(t.Values)+1) // the last: does not apply
	}
	for _, n := range sizes {
		vars := make([]int, n)
		for v := range vars {
			vars[v] = p.fresh()
		}
		w.is = append(w.is, vars)
		p.exactlyOne(vars)
	}
	var rows []int
	for _, v := range cat.Vehicles {
		if w.concerns(&v.When) {
			row := p.fresh()
			for _, c := range w.conditions(&v.When) {
				p.add(append(w.any(c), -row)...)
			}
			rows = append(rows, row)
		}
	}
	p.add(rows...)
	return w
}

// condition says which values of a trait are meant.
type condition struct {
	trait int
	in    []bool
}

func (w *world) concerns(when *model.When) bool {
	return !when.SetAside && (when.Platforms == nil || slices.Contains(when.Platforms, w.platform))
}

// conditions reads a row that concerns the platform.
func (w *world) conditions(when *model.When) []condition {
	return w.restrictions(when.Years, when.Traits)
}

func (w *world) restrictions(years *model.Years, traits []model.TraitSet) []condition {
	var out []condition
	if years != nil {
		c := condition{0, make([]bool, len(w.platform.Years))}
		for i, y := range w.platform.Years {
			in := slices.ContainsFunc(years.Spans, func(s model.Span) bool { return s.From <= y && y <= s.To })
			c.in[i] = in != years.Not
		}
		out = append(out, c)
	}
	for _, t := range traits {
		c := condition{t.Trait.Index + 1, make([]bool, len(t.Trait.Values)+1)}
		for v := range c.in {
			c.in[v] = t.Values.Has(v)
		}
		out = append(out, c)
	}
	return out
}

// any gives the literals of which one holds where the condition does.
func (w *world) any(c condition) []int {
	var out []int
	for v, in := range c.in {
		if in {
			out = append(out, w.is[c.trait][v])
		}
	}
	return out
}

// none gives the literals of which one holds where the condition does not.
func (w *world) none(c condition) []int {
	denied := condition{c.trait, slices.Clone(c.in)}
	for v := range denied.in {
		denied.in[v] = !denied.in[v]
	}
	return w.any(denied)
}

// meets gives a literal that holds exactly where the row's conditions do.
func (w *world) meets(when *model.When) int {
	if !w.concerns(when) {
		return -w.yes
	}
	var all []int
	for _, c := range w.conditions(when) {
		all = append(all, w.or(w.any(c)...))
	}
	return w.and(all...)
}

// boxConditions reads a box of a finding.
func (w *world) boxConditions(b model.Box) []condition {
	var years *model.Years
	if b.Years != nil {
		years = &model.Years{Spans: b.Years}
	}
	return w.restrictions(years, b.Traits)
}

// inside gives what to assume for a configuration in the box.
func (w *world) inside(b model.Box) []int {
	var out []int
	for _, c := range w.boxConditions(b) {
		for _, l := range w.none(c) {
			out = append(out, -l)
		}
	}
	return out
}

// outside gives a literal under which the configuration is not in the box; it says
// nothing where it does not hold.
func (w *world) outside(b model.Box) int {
	out := w.fresh()
	lits := []int{-out}
	for _, c := range w.boxConditions(b) {
		lits = append(lits, w.none(c)...)
	}
	w.add(lits...)
	return out
}
