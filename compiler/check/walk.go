package check

import (
	"slices"

	"ferrule/compiler/decide"
	"ferrule/compiler/formula"
	"ferrule/compiler/space"
)

// walker looks for values of facts under which a limit may be broken on vehicles in a
// box. It goes through the cells of the facts as boxes and makes no region; what is
// sure to hold for all that a fact can be is passed over at once.
type walker struct {
	*decide.Platform
	*subject
	ground *factGround
	values []formula.Value
	chosen []int // the value of each fact, as an index into its Values
	found  [][]int
}

// suspects gives the values of the limit's facts, in their order, under which it does
// not hold. Not all need occur together on a vehicle. It runs inside Try.
func suspects(p *decide.Platform, g *factGround, s *subject, box space.Box) [][]int {
	w := walker{p, s, g, slices.Clone(s.values), make([]int, len(s.facts)), nil}
	for _, u := range s.facts {
		w.values[u.slot] = g.hulls[u.fact]
		if len(p.Facts[u.fact].Levels) == 0 {
			return nil // nobody states it
		}
	}
	w.walk(0, box)
	return w.found
}

func (w *walker) walk(i int, box space.Box) {
	if w.Rule.Certain(w.values) {
		return
	}
	if i == len(w.facts) {
		w.leaf()
		return
	}
	u := w.facts[i]
	fact := &w.Facts[u.fact]
	for _, l := range fact.Levels {
		for _, c := range l.Cells {
			if !c.Box.Meets(box) {
				continue
			}
			w.Spend(1)
			w.values[u.slot], w.chosen[i] = fact.Values[c.Value].Value, c.Value
			both, _ := c.Box.Intersect(box)
			w.walk(i+1, both)
		}
	}
	w.values[u.slot] = w.ground.hulls[u.fact]
}

// leaf judges the values at hand with rationals.
func (w *walker) leaf() {
	if slices.ContainsFunc(w.found, func(f []int) bool { return slices.Equal(f, w.chosen) }) {
		return
	}
	if v, err := w.Rule.Judge(w.values); err != nil || !v.Holds {
		w.found = append(w.found, slices.Clone(w.chosen))
	}
}
