package limits

import (
	"slices"

	"ferrule/compiler/formula"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/space"
)

// Walker looks for values of facts under which a limit may be broken on vehicles in a
// box. It goes through the cells of the facts as boxes and makes no region; what is
// sure to hold for all that a fact can be is passed over at once.
type Walker struct {
	*decide.Platform
	*Subject
	ground *Facts
	values []formula.Value
	chosen []int       // the value of each fact, as an index into its Values
	boxes  []space.Box // that of the fitment cell, and those of the cells that state them
	found  [][]int
}

// Suspects gives the values of the limit's facts, in their order, under which it does
// not hold. Not all need occur together on a vehicle. It runs inside Try.
func (w *Walker) Suspects(p *decide.Platform, g *Facts, s *Subject, box space.Box) [][]int {
	w.Platform, w.Subject, w.ground, w.found = p, s, g, nil
	w.values = append(w.values[:0], s.values...)
	w.chosen = w.chosen[:0]
	for _, u := range s.Facts {
		if len(p.Facts[u.Fact].Levels) == 0 {
			return nil // nobody states it
		}
		w.values[u.Slot], w.chosen = g.hulls[u.Fact], append(w.chosen, 0)
	}
	if w.Rule.Certain(w.values) {
		return nil
	}
	w.boxes = append(w.boxes[:0], box)
	w.walk(0)
	return w.found
}

func (w *Walker) walk(i int) {
	if i == len(w.Subject.Facts) {
		w.leaf()
		return
	}
	u := w.Subject.Facts[i]
	fact := &w.Platform.Facts[u.Fact]
	for _, l := range fact.Levels {
		for _, c := range l.Cells {
			if !w.meets(c.Box) {
				continue
			}
			w.Spend(1)
			w.values[u.Slot], w.chosen[i] = fact.Values[c.Value], c.Value
			if w.Rule.Certain(w.values) {
				continue
			}
			w.boxes = append(w.boxes, c.Box)
			w.walk(i + 1)
			w.boxes = w.boxes[:len(w.boxes)-1]
		}
	}
	w.values[u.Slot] = w.ground.hulls[u.Fact]
}

// meets tells whether a box meets each of those at hand: not all need share a vehicle.
func (w *Walker) meets(b space.Box) bool {
	for _, o := range w.boxes {
		if !b.Meets(o) {
			return false
		}
	}
	return true
}

// leaf judges the values at hand with rationals.
func (w *Walker) leaf() {
	if slices.ContainsFunc(w.found, func(f []int) bool { return slices.Equal(f, w.chosen) }) {
		return
	}
	if v, err := w.Rule.Judge(w.values); err != nil || !v.Holds {
		w.found = append(w.found, slices.Clone(w.chosen))
	}
}
