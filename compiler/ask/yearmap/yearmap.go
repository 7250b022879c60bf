// Package yearmap lays out what is said at one position of a platform as a map: the years
// across, the values of one trait down, the trait that tells most apart of those that cells
// decide by.
//
// The map is exact. A square (a year and a value) says all that is said on vehicles that exist
// with both, so that a square of one state is of that state on every such vehicle. A Chart says it
// by cases, for pages, which have words of their own; a Map by states, for the staff.
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
	Value   string // its name alone, or `does not apply`; "" where there is no trait
	Squares []States
	Runs    []Run // the squares as ranges of years that say the same
}

// Run is a range of years of which the same is said.
type Run struct {
	model.Span
	States States
}

// Of lays out a position of a guide that has its cases; nil where it is too irregular, or the
// vehicles are not known.
func Of(g *decide.Guide, a *decide.Answer) *Map {
	ground := GroundOf(g, a)
	if ground == nil {
		return nil
	}
	c := ground.Chart(func(c int) int { return int(StateOf(&a.Cases[c])) })
	m := &Map{Trait: c.Trait, Years: c.Years}
	for _, l := range c.Rows {
		m.Rows = append(m.Rows, c.row(l, a))
	}
	return m
}

// row says a lane by the states of its cases.
func (c *Chart) row(l Lane, a *decide.Answer) Row {
	r := Row{Squares: make([]States, len(l.Squares))}
	if c.Trait != nil {
		r.Value = valueName(c.Trait, l.Value)
	}
	for i, s := range l.Squares {
		for _, k := range s.Cases {
			r.Squares[i] |= 1 << StateOf(&a.Cases[k])
		}
		if s.Away {
			r.Squares[i] |= 1 << Away
		}
	}
	for _, run := range RunsOf(c.Years, r.Squares, func(a, b States) bool { return a == b }) {
		r.Runs = append(r.Runs, Run{run.Span, r.Squares[run.First]})
	}
	return r
}

// valueName names a value without its trait, which stands above all of them.
func valueName(t *model.Trait, v int) string {
	if names, absent := t.Is(v).Names(); !absent {
		return names[0]
	}
	return "does not apply"
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
