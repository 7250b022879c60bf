// Package yearmap lays out what is said at one position of a platform as a map: the years
// across, the values of one trait down, the trait that tells most apart.
//
// The map is exact. A square (a year and a value) says all that is said on vehicles that exist
// with both, so that a square of one state is of that state on every such vehicle.
package yearmap

import (
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// State is what is said in a square.
type State uint8

const (
	Fitted State = iota
	None         // nothing belongs there
	Planned
	Ask
	Conflict  // cells disagree
	Unsettled // a check found what is fitted wrong
	Gap       // no cell says anything
	Away      // the vehicles have no such place
	states
)

// Word names a state in a few words.
func (s State) Word() string {
	return [states]string{"fitted", "nothing on purpose", "planned", "ask", "cells disagree", "a check is against it", "no cell", "no such place"}[s]
}

// States are several at once; none of them where no such vehicle exists.
type States uint16

// Has tells whether s is one of them.
func (in States) Has(s State) bool { return in&(1<<s) != 0 }

// List gives them in their order.
func (in States) List() (out []State) {
	for s := range states {
		if in.Has(s) {
			out = append(out, s)
		}
	}
	return out
}

// Mixed tells whether more than one thing is said.
func (in States) Mixed() bool { return in&(in-1) != 0 }

// Map is what is said, value by value.
type Map struct {
	Trait *model.Trait // nil: one row, since no trait tells more apart
	Years []int        // of the platform, ascending
	Rows  []Row
}

// Row is one value of the trait.
type Row struct {
	Value   string // as conditions say it; "" where there is no trait
	Squares []States
	Runs    []Run // the squares as ranges of years that say the same
}

// Run is a range of years of which the same is said.
type Run struct {
	model.Span
	States States
}

// mostRows bounds the values of a trait that a map is drawn by.
const mostRows = 60

// Of lays out a position of a guide that has its cases; nil where it is too irregular to have
// any, or the vehicles are not known.
func Of(g *decide.Guide, a *decide.Answer) *Map {
	if !a.Exact || g.Exist().None() {
		return nil
	}
	d := drawer{guide: g, answer: a, years: g.Platform.Years}
	if a.Configurations.Cmp(g.Configurations) < 0 {
		d.away = g.Exist().Without(boxes(a.Cases)...)
	}
	best := d.draw(0)
	least := best.mixed()
	for _, trait := range g.Finder.Order {
		if least == 0 {
			break
		}
		if trait == 0 || g.Occur(trait).Len() > mostRows || g.Occur(trait).Len() < 2 {
			continue
		}
		if m := d.draw(trait); m.share(least, best) {
			best, least = m, m.mixed()
		}
	}
	return best
}

type drawer struct {
	guide  *decide.Guide
	answer *decide.Answer
	years  []int
	away   decide.Vehicles // that have no such place
}

func boxes(cases []decide.Case) []model.Box {
	out := make([]model.Box, len(cases))
	for i := range cases {
		out[i] = cases[i].Where
	}
	return out
}

// draw draws the map by a trait, 0 for none.
func (d *drawer) draw(trait int) *Map {
	m := &Map{Years: d.years}
	exist := d.guide.Exist()
	if trait == 0 {
		m.Rows = []Row{d.row("", exist, d.away)}
		return m
	}
	for _, set := range d.guide.Traits {
		if set.Trait.Index == trait-1 {
			m.Trait = set.Trait
		}
	}
	for from, to := range d.guide.Occur(trait).Runs() {
		for v := from; v <= to; v++ {
			one := decide.ValuesOf(v)
			away := d.away
			if !away.None() {
				away = away.With(trait, one)
			}
			m.Rows = append(m.Rows, d.row(m.Trait.Is(v).String(), exist.With(trait, one), away))
		}
	}
	return m
}

// row works out the squares of some vehicles, of which some have no such place.
func (d *drawer) row(value string, of, away decide.Vehicles) Row {
	r := Row{Value: value, Squares: make([]States, len(d.years))}
	for i := range d.answer.Cases {
		c := &d.answer.Cases[i]
		s := StateOf(c)
		each(of.Among(c.Where), func(i int) { r.Squares[i] |= 1 << s })
	}
	each(away, func(i int) { r.Squares[i] |= 1 << Away })
	r.Runs = runs(d.years, r.Squares)
	return r
}

// each goes through the years, by number, in which there are some of the vehicles.
func each(v decide.Vehicles, do func(year int)) {
	if v.None() {
		return
	}
	for from, to := range v.Possible(0).Runs() {
		for y := from; y <= to; y++ {
			do(y)
		}
	}
}

// StateOf tells what is said on a case.
func StateOf(c *decide.Case) State {
	switch {
	case c.Outcome == model.Conflict:
		return Conflict
	case c.Unsettled:
		return Unsettled
	}
	return [...]State{model.Fitted: Fitted, model.None: None, model.Planned: Planned, model.Ask: Ask, model.Conflict: Conflict, model.Gap: Gap}[c.Outcome]
}

func runs(years []int, squares []States) (out []Run) {
	for i, s := range squares {
		last := len(out) - 1
		if last >= 0 && out[last].States == s && out[last].To == years[i]-1 {
			out[last].To = years[i]
			continue
		}
		out = append(out, Run{model.Span{From: years[i], To: years[i]}, s})
	}
	return out
}

// mixed counts the squares of which more than one thing is said.
func (m *Map) mixed() (n int) {
	for _, r := range m.Rows {
		for _, s := range r.Squares {
			if s.Mixed() {
				n++
			}
		}
	}
	return n
}

// squares counts those with vehicles.
func (m *Map) squares() (n int) {
	for _, r := range m.Rows {
		for _, s := range r.Squares {
			if s != 0 {
				n++
			}
		}
	}
	return n
}

// share tells whether a smaller share of the squares of m is mixed than of another map, of
// which `mixed` are.
func (m *Map) share(mixed int, than *Map) bool {
	return m.mixed()*than.squares() < mixed*m.squares()
}
