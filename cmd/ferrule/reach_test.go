package main

import (
	"go/types"
	"maps"
)

// end is what a node reaches that may run one of those that are looked for.
type end struct{}

// reach is, by node, whether it may run one of those that are looked for (end{}), and which
// parameters of its own and of the functions around it runs. What a function is given counts
// for the call that gives it: one that goes through things for others reaches what the
// others do with them.
type reach struct {
	*flow
	of   map[any]map[any]bool
	next map[any]any // the way to the end
}

func reachOf(f *flow, ends map[any]bool) *reach {
	r := &reach{f, map[any]map[any]bool{}, map[any]any{}}
	for n := range ends {
		r.learn(n, end{}, nil)
	}
	for p := range f.own {
		r.learn(p, p, nil)
	}
	for changed := true; changed; {
		changed = false
		for _, from := range f.order {
			for _, e := range f.runs[from] {
				changed = r.through(from, e) || changed
			}
		}
	}
	return r
}

// through learns what a node reaches by running another, and tells whether that is new.
func (r *reach) through(from any, e edge) (changed bool) {
	for what := range maps.Clone(r.of[e.to]) {
		p, isParam := what.(*types.Var)
		v, isVar := from.(*types.Var)
		switch {
		case !isParam:
			changed = r.learn(from, what, e.to) || changed
		case isVar && v != p: // whoever runs it may be far from who was given it
			for _, n := range r.given[p] {
				changed = r.all(from, n) || changed
			}
		case r.own[p] != e.to: // of a function around
			changed = r.learn(from, p, e.to) || changed
		}
		for _, g := range e.gives {
			if isParam && g.to == p {
				changed = r.all(from, g.node) || changed
			}
		}
	}
	return changed
}

// all learns that a node reaches what another does.
func (r *reach) all(from, n any) (changed bool) {
	for what := range maps.Clone(r.of[n]) {
		if p, ok := what.(*types.Var); !ok || r.own[p] != n {
			changed = r.learn(from, what, n) || changed
		}
	}
	return changed
}

func (r *reach) learn(from, what, next any) bool {
	if r.of[from][what] {
		return false
	}
	if r.of[from] == nil {
		r.of[from] = map[any]bool{}
	}
	r.of[from][what] = true
	if what == (end{}) {
		r.next[from] = next
	}
	return true
}

// ways gives, for each top that reaches the end, the nodes on its way.
func (r *reach) ways() (out [][]any) {
	for _, top := range r.tops {
		if !r.of[top][end{}] {
			continue
		}
		var way []any
		for n := top; n != nil; n = r.next[n] {
			way = append(way, n)
		}
		out = append(out, way)
	}
	return out
}
