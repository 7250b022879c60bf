// Package walk asks about a vehicle as a whole in the way of the script on a guide's
// page, so that the way can be measured and the script be held against it.
//
// What is left to find out at a position is its tree without the branches that the
// answers rule out, and without questions whose every answer leads to the same. The
// traits that may be asked are those that come first in what is left of some tree. Of
// these the one is asked that, with what is left to ask after it, takes least: the sum
// of the effort of all traits that what is left names, on average over the answers that
// may be given.
package walk

import (
	"math/big"
	"slices"
	"strconv"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/space"
)

// Guide is what is asked for one platform.
type Guide struct {
	decide.Finder
	vehicles []space.Box    // that exist
	trees    []*decide.Tree // of the positions; nil: not asked about
	values   []space.Set    // of each trait, that occur
}

// Of gives what is asked for a guide.
func Of(g *decide.Guide) *Guide {
	out := &Guide{Finder: g.Finder, values: make([]space.Set, len(g.Finder.Effort))}
	for _, b := range g.Vehicles {
		out.vehicles = append(out.vehicles, g.Box(b))
	}
	for _, a := range g.Answers {
		out.trees = append(out.trees, a.Questions.Tree)
	}
	for t := range out.values {
		out.values[t] = space.Set(g.Occur(t))
	}
	return out
}

// State is what has been answered so far.
type State struct {
	Known  space.Box // one value of each trait that was answered
	Untold space.Set // traits that nobody can tell
}

// Next gives the trait to ask; -1 where nothing is left that makes a difference.
func (g *Guide) Next(s State) int {
	var due space.Set
	w := g.walker(s)
	for _, l := range w.all() {
		due = due.Or(w.due(l))
	}
	next := -1
	var least *big.Rat
	for _, t := range g.Order {
		if !due.Has(t) {
			continue
		}
		if takes := g.ahead(s, t); next < 0 || takes.Cmp(least) < 0 {
			next, least = t, takes
		}
	}
	return next
}

// ahead is the effort of asking t and then all that may still have to be asked, on
// average over the answers.
func (g *Guide) ahead(s State, t int) *big.Rat {
	sum, n := 0, 0
	for v := range g.values[t].Values() {
		w := g.walker(State{s.Known.With(t, space.SetOf(v)), s.Untold})
		if len(w.exist) == 0 {
			continue
		}
		n++
		var asks space.Set
		for _, l := range w.all() {
			asks = asks.Or(l.asks)
		}
		for u := range asks.Without(s.Untold).Values() {
			sum += g.Effort[u]
		}
	}
	return new(big.Rat).Add(big.NewRat(int64(g.Effort[t]), 1), big.NewRat(int64(sum), int64(n)))
}

// left is what is left to be found out by a tree.
type left struct {
	number  int // the same for what is the same in one walk, and for nothing else
	trait   int // asked first; -1: nothing
	next    []*left
	asks    space.Set // all traits that may be asked
	classes space.Set
}

type walker struct {
	*Guide
	State
	exist []space.Box // that hold a vehicle with the answers
	known map[string]*left
}

func (g *Guide) walker(s State) *walker {
	w := &walker{g, s, g.vehicles, map[string]*left{}}
	for t, values := range s.Known {
		if values != nil {
			w.exist = among(w.exist, t, values)
		}
	}
	return w
}

// all gives what is left at each position.
func (w *walker) all() []*left {
	var out []*left
	for _, t := range w.trees {
		if t != nil {
			out = append(out, w.reduce(t, w.exist))
		}
	}
	return out
}

// reduce gives what is left of a tree among the vehicles of some boxes.
func (w *walker) reduce(t *decide.Tree, boxes []space.Box) *left {
	if t.Trait < 0 {
		return w.end(t.Classes)
	}
	out := &left{trait: t.Trait, asks: space.SetOf(t.Trait)}
	key := strconv.AppendInt(nil, int64(t.Trait), 10)
	same := true
	for _, b := range t.Branches {
		values := space.Set(b.Values)
		if known := w.Known.At(t.Trait); known != nil {
			values = values.And(known)
		}
		in := among(boxes, t.Trait, values)
		if values.IsEmpty() || len(in) == 0 {
			continue
		}
		next := w.reduce(b.Next, in)
		same = same && (len(out.next) == 0 || out.next[0] == next)
		out.next = append(out.next, next)
		out.asks, out.classes = out.asks.Or(next.asks), out.classes.Or(next.classes)
		key = strconv.AppendInt(append(appendSet(key, values), ':'), int64(next.number), 10)
	}
	switch {
	case len(out.next) == 0:
		return w.one(nil, &left{trait: -1}) // the answers contradict each other
	case same:
		return out.next[0]
	}
	return w.one(key, out)
}

// end gives an end with some classes.
func (w *walker) end(classes []int) *left {
	key := []byte{'='}
	for _, c := range classes {
		key = append(strconv.AppendInt(key, int64(c), 10), ',')
	}
	return w.one(key, &left{trait: -1, classes: space.SetOf(classes...)})
}

// one gives the same pointer for what has the same key.
func (w *walker) one(key []byte, l *left) *left {
	if old, ok := w.known[string(key)]; ok {
		return old
	}
	l.number = len(w.known)
	w.known[string(key)] = l
	return l
}

// appendSet adds the values of a set to a key.
func appendSet(key []byte, values space.Set) []byte {
	for lo, hi := range values.Runs() {
		key = strconv.AppendInt(append(key, ' '), int64(lo), 10)
		key = strconv.AppendInt(append(key, '-'), int64(hi), 10)
	}
	return key
}

// among gives the boxes that hold vehicles with some values of a trait.
func among(boxes []space.Box, t int, values space.Set) []space.Box {
	out := func(b space.Box) bool { return b.At(t) != nil && !b.At(t).Meets(values) }
	first := slices.IndexFunc(boxes, out)
	if first < 0 {
		return boxes
	}
	in := slices.Grow([]space.Box(nil), len(boxes)-1)
	in = append(in, boxes[:first]...)
	for _, b := range boxes[first+1:] {
		if !out(b) {
			in = append(in, b)
		}
	}
	return in
}

// due gives what may be asked next: the first question, and behind one that nobody can
// answer the first of each way that it may go.
func (w *walker) due(l *left) space.Set {
	var out space.Set
	switch {
	case l.trait < 0:
	case !w.Untold.Has(l.trait):
		out = space.SetOf(l.trait)
	default:
		for _, next := range l.next {
			out = out.Or(w.due(next))
		}
	}
	return out
}
