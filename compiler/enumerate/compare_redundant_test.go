package enumerate

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// spot is a readable fitment cell of a row. Rows under a merged range share
// one address.
type spot struct {
	fit *fit
	pos int
}

func (s spot) at() ref { return s.fit.at[s.fit.columns[s.pos]] }

// spots lists the fitment cells by address.
func (c *catalogue) spots() map[ref][]spot {
	out := map[ref][]spot{}
	for _, f := range c.fits {
		for pos, st := range f.says {
			if !f.gone && !st.unreadable {
				s := spot{f, pos}
				out[s.at()] = append(out[s.at()], s)
			}
		}
	}
	return out
}

// live reports whether one of some cells stands in a row that matches a
// configuration that exists.
func (o *outlook) live(cells []spot) bool { return slices.ContainsFunc(cells, o.alive) }

func (o *outlook) alive(s spot) bool { return s.fit.fault == "" && o.exists(s.fit.conds) }

// whole reports whether one of them stands in such a row of which it is known what it
// matches.
func (k *checker) whole(cells []spot) bool {
	return slices.ContainsFunc(cells, func(s spot) bool { return k.o.alive(s) && !k.c.partial(s.fit.conds) })
}

// without is the catalogue with some fitment cells emptied.
func (c *catalogue) without(emptied map[ref]bool) *catalogue {
	d := *c
	d.fits = nil
	for _, f := range c.fits {
		left := *f
		left.says = maps.Clone(f.says)
		maps.DeleteFunc(left.says, func(pos int, _ *statement) bool { return emptied[spot{f, pos}.at()] })
		d.fits = append(d.fits, &left)
	}
	return &d
}

// answer writes what is decided: the outcome, the precedence that decides, and
// what its cells say, each thing once.
func (v verdict) answer() string {
	if len(v.cells) == 0 {
		return v.outcome
	}
	return fmt.Sprint(v.outcome, " ", v.cells[0].fit.precedence, ": ", strings.Join(v.distinct(func(d deciding) []string { return []string{d.say} }), " / "))
}

// distinct gives what the deciding cells have, each thing once, in order.
func (v verdict) distinct(of func(deciding) []string) []string {
	var out []string
	for _, d := range v.cells {
		out = append(out, of(d)...)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// redundant wants all cells that cell-redundant names to be idle together: with all of
// them emptied, the same precedence says the same everywhere. No further cell may be idle
// then. A merged range is one cell, whatever rows and positions it reaches over.
func (k *checker) redundant() {
	cells := k.c.spots()
	emptied := map[ref]bool{}
	for _, f := range k.out.findings {
		if f.Code != "cell-redundant" {
			continue
		}
		if len(f.Cells) != 1 || f.Severity != "note" || f.Platform != "" || f.Configurations != 0 {
			k.failf(f.Code, "%v: %s, platform %q, %d configurations", f.Cells, f.Severity, f.Platform, f.Configurations)
			continue
		}
		at := f.Cells[0]
		switch {
		case emptied[at]:
			k.failf(f.Code, "%v is told twice", at)
		case !k.whole(cells[at]):
			k.failf(f.Code, "%v is no fitment cell of a row that matches anything", at)
		case !slices.ContainsFunc(cells[at], func(s spot) bool { return k.c.positions[s.pos].name == f.Position }):
			k.failf(f.Code, "%v: position %s", at, f.Position)
		}
		emptied[at] = true
	}
	d := k.c.without(emptied)
	k.sameAnswers("cell-redundant", d, k.spotsOf(emptied, cells))
	for _, at := range d.idleSpots(k.o) {
		if k.whole(cells[at]) {
			k.failf("cell-redundant", "%v could be emptied as well", at)
		}
	}
}

func (k *checker) spotsOf(which map[ref]bool, cells map[ref][]spot) []spot {
	var out []spot
	for at := range which {
		out = append(out, cells[at]...)
	}
	return out
}

// sameAnswers wants another catalogue to answer as this one does wherever some
// of this one's cells match.
func (k *checker) sameAnswers(code string, d *catalogue, where []spot) {
	for _, w := range k.o.worlds {
		for i, g := range w.configs {
			for pos := range k.c.positions {
				v := k.o.verdicts[w][i][pos]
				here := func(s spot) bool { return s.pos == pos && s.fit.meets(w.platform, g) }
				if !v.exists || !slices.ContainsFunc(where, here) {
					continue
				}
				if got := d.judge(w.platform, g, pos); got.answer() != v.answer() {
					k.failf(code, "%s at %s, %s: %s after what is told, %s before", k.c.platforms[w.platform].name, k.c.positions[pos].name, k.c.show(g), got.answer(), v.answer())
					return
				}
			}
		}
	}
}

// idleSpots lists the cells, of rows that match something, that say nowhere
// what no other cell of the precedence that decides says. Each of them can be
// emptied; perhaps not all at once.
func (c *catalogue) idleSpots(o *outlook) []ref {
	needed := map[ref]bool{}
	for _, w := range o.worlds {
		for _, g := range w.configs {
			for pos := range c.positions {
				by := map[string]map[ref]bool{}
				for _, d := range c.judge(w.platform, g, pos).cells {
					if by[d.say] == nil {
						by[d.say] = map[ref]bool{}
					}
					by[d.say][spot{d.fit, pos}.at()] = true
				}
				for _, at := range by {
					if len(at) == 1 {
						maps.Copy(needed, at)
					}
				}
			}
		}
	}
	var out []ref
	for at, cells := range c.spots() {
		if !needed[at] && o.live(cells) {
			out = append(out, at)
		}
	}
	slices.SortFunc(out, func(a, b ref) int { return strings.Compare(a.String(), b.String()) })
	return out
}

// idleCells lists cells that can all be emptied together: of rows of which it is known what
// they match, since the others stay.
func (k *checker) idleCells() []ref {
	if k.o.emptied != nil {
		return k.o.emptied
	}
	k.o.emptied = []ref{}
	emptied, spots := map[ref]bool{}, k.c.spots()
	for {
		idle := slices.DeleteFunc(k.c.without(emptied).idleSpots(k.o), func(at ref) bool { return !k.whole(spots[at]) })
		if len(idle) == 0 {
			return k.o.emptied
		}
		emptied[idle[0]] = true
		k.o.emptied = append(k.o.emptied, idle[0])
	}
}
