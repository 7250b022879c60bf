package space

import (
	"math/big"
	"slices"
)

// Cover lists few boxes whose union, inside care, is exactly goal (goal is a subset
// of care). At most max boxes are listed, fewer where they are too laborious to find
// for the space's budget; rest is what they leave out of goal. Each box holds something
// of goal, and where the budget allows to find out, something that no other one holds.
// A box may reach over configurations outside care, where that makes it shorter. The
// values of trait 0 are one range where that needs no more boxes.
func (s *Space) Cover(goal, care Region, max int) (boxes []Box, rest Region) {
	mark := s.Mark()
	c := coverer{s: s, goal: goal, bad: []Region{s.Minus(care, goal)}, orders: orders(len(s.sizes))}
	c.fenced = c.fence.enclose(s, 0, c.bad...)
	rest = goal
	first := s.walked
	last := first + min(coverWalk*s.budget, (s.end-first)/2) // a purse pays for what comes after it, too
	for range coverRounds {
		for rest != Empty && len(boxes) < max && s.walked < last {
			b := c.best(rest)
			boxes = append(boxes, b)
			rest = s.Minus(rest, s.Box(b))
			if 2*(s.used-mark.used) > s.budget-mark.used {
				s.Release(mark)
				c.bad[0], rest = s.Minus(care, goal), s.Minus(goal, s.UnionBoxes(boxes))
			}
		}
		n := len(boxes)
		boxes = c.each(boxes, c.needed)
		if rest == Empty || len(boxes) == n {
			break
		}
	}
	if rest == Empty {
		boxes = c.each(c.improve(boxes, s.walked-first), c.needed)
	}
	boxes = c.each(boxes, c.joinYears)
	for i, b := range boxes {
		boxes[i] = c.trim(b)
	}
	if rest == Empty {
		s.tidy(mark)
	}
	return boxes, rest
}

// coverRounds bounds how often boxes that proved needless are replaced by more.
const coverRounds = 4

type coverer struct {
	s      *Space
	goal   Region
	bad    []Region // what no box may hold anything of
	orders [][]int
	fence  fence // what is bad
	fenced bool  // false: that is too much
	open   paths
}

// orders gives the orders of traits in which boxes are grown: trait 0 last, the
// reverse, and both from the middle on.
func orders(n int) [][]int {
	var all [][]int
	up := make([]int, 0, n)
	for t := 1; t < n; t++ {
		up = append(up, t)
	}
	if n > 0 {
		up = append(up, 0)
	}
	down := slices.Clone(up)
	slices.Reverse(down)
	for _, o := range [][]int{up, down} {
		all = append(all, o, slices.Concat(o[n/2:], o[:n/2]))
	}
	return all
}

// best gives the largest box it can grow around the first configuration of rest;
// of equals the one with the fewest conditions.
func (c *coverer) best(rest Region) Box {
	at := c.first(rest)
	all := c.s.Count(rest)
	var best Box
	var most *big.Int
	for _, order := range c.orders {
		b := c.grow(at, order)
		n := c.s.CountIn(rest, b)
		if most == nil || n.Cmp(most) > 0 || n.Cmp(most) == 0 && b.Conditions() < best.Conditions() {
			best, most = b, n
		}
		if most.Cmp(all) == 0 {
			break // no other box holds more
		}
	}
	return best
}

// first gives the first configuration of a region, which is not empty.
func (c *coverer) first(r Region) Box {
	if c.fenced && c.open.set(c.s, 0, r) {
		return Point(c.open.first())
	}
	seed, _ := c.s.First(r)
	return Point(seed)
}

// grow widens a box with a set for each trait, its seed, as far as no configuration
// that is bad gets in: first it frees whole traits, then it adds values.
func (c *coverer) grow(seed Box, order []int) Box {
	if c.fenced {
		return c.fence.grow(seed, order)
	}
	b := slices.Clone(seed)
	for _, t := range order {
		b[t] = nil
		if c.spoilt(b) {
			b[t] = seed[t]
		}
	}
	parted := false // the years are some ranges of several
	for _, t := range order {
		if b[t] == nil {
			continue
		}
		b[t] = c.widest(b, t)
		if t == 0 {
			run := runsAt(b[t], seed[t])
			parted = !run.Equal(b[t])
			b[t] = run
		}
	}
	if parted {
		b[0] = c.widest(b, 0)
	}
	return b
}

// spoilt tells whether b holds something bad.
func (c *coverer) spoilt(b Box) bool {
	if c.fenced {
		return c.fence.meets(b)
	}
	return slices.ContainsFunc(c.bad, func(r Region) bool { return c.s.Meets(r, b) })
}

// widest gives the values of a trait with which b stays out of bad.
func (c *coverer) widest(b Box, t int) Set {
	set := b[t]
	b[t] = nil
	out := c.s.ValuesIn(c.bad[0], b, t)
	for _, bad := range c.bad[1:] {
		c.s.addValues(bad, b, t, out)
	}
	b[t] = set
	for i, w := range c.s.whole[c.s.level[t]] {
		out[i] = w &^ out[i]
	}
	return out
}

// runsAt gives the ranges of successive values of set that hold one of seed.
func runsAt(set, seed Set) Set {
	out := Set{}
	for lo, hi := range set.Runs() {
		if run := Range(lo, hi); run.Meets(seed) {
			out = out.Or(run)
		}
	}
	return out
}

// each replaces every box by what f gives for it and what the others hold of goal;
// boxes that f answers with false are left out. Where there is no budget for that, all
// stay as they are.
func (c *coverer) each(boxes []Box, f func(b Box, others Region) (Box, bool)) []Box {
	var out []Box
	if c.s.Try(func() { out = c.change(boxes, f) }) != nil {
		return boxes
	}
	return out
}

func (c *coverer) change(boxes []Box, f func(b Box, others Region) (Box, bool)) []Box {
	s := c.s
	after := make([]Region, len(boxes)+1)
	for i := len(boxes) - 1; i > 0; i-- {
		after[i] = s.Union(s.Intersect(c.goal, s.Box(boxes[i])), after[i+1])
	}
	before := Empty
	var out []Box
	for i, b := range boxes {
		if b, ok := f(b, s.Union(before, after[i+1])); ok {
			out = append(out, b)
			if i < len(boxes)-1 {
				before = s.Union(before, s.Intersect(c.goal, s.Box(b)))
			}
		}
	}
	return out
}

// needed tells whether b holds something of goal that the others do not.
func (c *coverer) needed(b Box, others Region) (Box, bool) {
	return b, c.s.Meets(c.s.Minus(c.goal, others), b)
}

// joinYears leaves out ranges of trait 0 that the others cover, the shortest first.
func (c *coverer) joinYears(b Box, others Region) (Box, bool) {
	if len(b) == 0 || b[0] == nil {
		return b, true
	}
	var runs []Set
	for lo, hi := range b[0].Runs() {
		runs = append(runs, Range(lo, hi))
	}
	if len(runs) == 1 {
		return b, true
	}
	slices.SortStableFunc(runs, func(x, y Set) int { return x.Len() - y.Len() })
	open := c.s.Minus(c.goal, others)
	kept := Set{}
	for _, run := range runs {
		if c.s.Meets(open, b.With(0, run)) {
			kept = kept.Or(run)
		}
	}
	return b.With(0, kept), true
}

// trim leaves out values that occur in goal nowhere in the box, unless it is shorter
// to name the values that are not in the set; values of trait 0 only at the ends of
// ranges.
func (c *coverer) trim(b Box) Box {
	out := slices.Clone(b)
	for t, set := range b {
		if set == nil {
			continue
		}
		occur := c.s.ValuesIn(c.goal, b, t)
		if t == 0 {
			out[t] = clip(set, occur)
		} else if occur.Len() <= c.s.sizes[t]-set.Len() {
			out[t] = occur
		}
	}
	return out
}

// clip shortens the ranges of set to those that begin and end with a value of ends.
func clip(set, ends Set) Set {
	out := Set{}
	for lo, hi := range set.Runs() {
		if in := Range(lo, hi).And(ends); !in.IsEmpty() {
			out = out.Or(Range(in.Min(), in.Max()))
		}
	}
	return out
}
