package space

import (
	"slices"
)

// Improving a cover is a search nearby: a few boxes are taken out, and what only they
// held is covered anew by boxes that reach from one open configuration to others. It
// is bounded: it takes no more effort than the cover took, and improveEffort nodes
// visited, and longer covers than improveAtMost, which nobody reads whole, stay.
const (
	improveAtMost = 64
	improveEffort = 20_000
	improveRounds = 16
	takenOut      = 3
	reaches       = 6 // open configurations that a new box tries to hold
)

// improve gives a cover of goal with fewer boxes than boxes, which is one, where it
// finds one, or else with fewer conditions. Where it runs out of budget boxes stay.
func (c *coverer) improve(boxes []Box, effort int) []Box {
	if len(boxes) < 2 || len(boxes) > improveAtMost {
		return boxes
	}
	best := boxes
	_ = c.s.Try(func() {
		least := c.least(boxes)
		last := c.s.walked + effort + improveEffort
		r := dice(1)
		for now, round := boxes, 0; round < improveRounds && len(best) > least && c.s.walked < last; round++ {
			now = c.exchange(now, &r)
			if shorter(now, best) {
				best = now
			}
		}
	})
	return best
}

// shorter tells whether a has fewer boxes, or as many and fewer conditions.
func shorter(a, b []Box) bool {
	n := 0
	for _, x := range a {
		n += x.Conditions()
	}
	for _, x := range b {
		n -= x.Conditions()
	}
	return len(a) < len(b) || len(a) == len(b) && n < 0
}

// least is a number of boxes below which no cover can be: that of configurations, one
// that only it holds from each of boxes, no two of which fit into one box.
func (c *coverer) least(boxes []Box) int {
	var kept []Box
	_ = c.each(boxes, func(b Box, others Region) (Box, bool) {
		first, ok := c.s.FirstIn(c.s.Minus(c.goal, others), b)
		if ok && !slices.ContainsFunc(kept, func(k Box) bool { return !c.spoilt(hull(k, Point(first))) }) {
			kept = append(kept, Point(first))
		}
		return b, true
	})
	return len(kept)
}

// exchange takes some boxes out and covers what is open then with no more; boxes stay
// where that does not succeed.
func (c *coverer) exchange(boxes []Box, r *dice) []Box {
	n := min(takenOut, len(boxes))
	order := r.shuffled(len(boxes))
	var out []Box
	for i, b := range boxes {
		if !slices.Contains(order[:n], i) {
			out = append(out, b)
		}
	}
	open := c.s.Minus(c.goal, c.s.UnionBoxes(out))
	for range n {
		if open == Empty {
			break
		}
		b := c.reach(open, r)
		out = append(out, b)
		open = c.s.Minus(open, c.s.Box(b))
	}
	if open != Empty {
		return boxes
	}
	return out
}

// reach grows a box that holds several configurations of open.
func (c *coverer) reach(open Region, r *dice) Box {
	pick := func() Box { return c.pick(open, r) }
	if c.fenced && c.open.set(c.s, 0, open) {
		pick = func() Box { return c.open.pick(r) }
	}
	b := pick()
	for range reaches {
		if h := hull(b, pick()); !c.spoilt(h) {
			b = h
		}
	}
	return c.grow(b, r.shuffled(len(c.s.sizes)))
}

// pick gives some configuration of open.
func (c *coverer) pick(open Region, r *dice) Box {
	b := make(Box, len(c.s.sizes))
	for _, t := range r.shuffled(len(b)) {
		values := slices.Collect(c.s.ValuesIn(open, b, t).Values())
		b[t] = SetOf(values[r.roll(len(values))])
	}
	return b
}

// hull is the least box that holds both, for boxes that restrict the same traits.
func hull(a, b Box) Box {
	out := make(Box, len(a))
	for t := range out {
		out[t] = a[t].Or(b[t])
	}
	return out
}

// dice gives numbers that look random, the same ones each time.
type dice uint64

func (d *dice) roll(n int) int {
	*d++
	return int(mix(uint64(*d)*0x9e3779b97f4a7c15) % uint64(n))
}

func (d *dice) shuffled(n int) []int {
	out := make([]int, n)
	for i := range out {
		j := d.roll(i + 1)
		out[i], out[j] = out[j], i
	}
	return out
}
