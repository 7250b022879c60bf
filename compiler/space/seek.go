package space

import (
	"math/bits"
	"slices"
)

// some are the values on each axis that are still possible; none stands for all, where the
// axis has not been asked. A function looks the same under all values of a set.
type some [gridAxes]uint64

// seeker looks for the best questions on a grid.
type seeker struct {
	*parts
	states int // situations that may still be looked at for the best
	ends   int // situations that may be looked at after that
	cut    bool
	known  map[some]*step
}

// step is the best question that was found in a situation.
type step struct {
	axis   int // -1: nothing to ask
	label  int32
	next   []some
	effort uint128
	sum    uint128 // bound while it is being looked for
}

// seek gives the best question about what is possible, by the least effort and then by
// the order of the axes. Once the states are used up it is the most promising one; nil
// means that they are, and that the caller has another question, or that there would be
// too many ends.
func (k *seeker) seek(at some, must bool) *step {
	if done, ok := k.known[at]; ok {
		return done
	}
	if label := k.label(at); label != mixed {
		k.known[at] = &step{axis: -1, label: label}
		return k.known[at]
	}
	if !k.spend(must) {
		return nil
	}
	var best *step
	for _, c := range k.promising(at) {
		if best != nil && k.worse(c.sum, c.axis, best) {
			continue
		}
		if c.next = k.answers(at, c.axis); len(c.next) < 2 {
			continue // whatever the answer, as much is left to be decided
		}
		if best != nil && k.states <= 0 {
			k.cut = true
			break
		}
		switch done := k.follow(c, best, must && best == nil); {
		case done:
			best = c
		case best == nil:
			return nil
		}
	}
	k.known[at] = best
	return best
}

// spend counts a situation.
func (k *seeker) spend(must bool) bool {
	if k.states > 0 {
		k.states--
		return true
	}
	k.cut = true
	if !must {
		return false
	}
	k.ends--
	return k.ends > 0
}

// worse tells whether a question that takes so much at least is not better than best.
func (k *seeker) worse(sum uint128, axis int, best *step) bool {
	return best.effort.less(sum) || sum == best.effort && axis > best.axis
}

// follow works out what c takes and tells whether it is better than best.
func (k *seeker) follow(c, best *step, must bool) bool {
	for _, in := range c.next {
		next := k.seek(in, must)
		if next == nil {
			return false
		}
		c.sum = c.sum.minus(k.bound(in)).plus(next.effort)
		if best != nil && k.worse(c.sum, c.axis, best) {
			return false
		}
	}
	c.effort = c.sum
	return true
}

// promising lists the questions that are left with what each takes at least, the least
// first.
func (k *seeker) promising(at some) []*step {
	all, below := k.sums(at), []*step(nil)
	for i, a := range k.axes {
		if at[i] != 0 {
			continue
		}
		sum, _ := all.times(a.effort)
		for v := range a.values {
			in := at
			in[i] = 1 << v
			sum = sum.plus(k.bound(in))
		}
		below = append(below, &step{axis: i, sum: sum})
	}
	slices.SortStableFunc(below, func(a, b *step) int {
		switch {
		case a.sum.less(b.sum):
			return -1
		case b.sum.less(a.sum):
			return 1
		}
		return 0
	})
	return below
}

// answers puts the values of an axis together under which the same is to be decided, by
// the least of each.
func (k *seeker) answers(at some, axis int) []some {
	var out []some
	here := k.first(at) // the part with the first value on each axis
	var first []int
next:
	for v := range k.axes[axis].values {
		part := here - (len(k.axes[axis].values)-v)*k.step[axis]
		if k.mark[part] == nowhere {
			continue
		}
		for i, other := range first {
			if k.alike(part, other) {
				out[i][axis] |= 1 << v
				continue next
			}
		}
		in := at
		in[axis] = 1 << v
		out, first = append(out, in), append(first, part)
	}
	return out
}

// each calls f with the parts that are together what is possible.
func (k *seeker) each(at some, axis, part int, f func(part int)) {
	for ; axis < len(k.axes); axis++ {
		set := at[axis]
		if set == 0 {
			part += len(k.axes[axis].values) * k.step[axis]
			continue
		}
		for set&(set-1) != 0 {
			k.each(at, axis+1, part+bits.TrailingZeros64(set)*k.step[axis], f)
			set &= set - 1
		}
		part += bits.TrailingZeros64(set) * k.step[axis]
	}
	f(part)
}

func (k *seeker) label(at some) int32 {
	mark := nowhere
	k.each(at, 0, 0, func(part int) { mark = blend(mark, k.mark[part]) })
	return mark
}

// sums is the weight of what is possible.
func (k *seeker) sums(at some) (sum uint128) {
	k.each(at, 0, 0, func(part int) { sum = sum.plus(k.total[part]) })
	return sum
}

// bound is less than no tree takes.
func (k *seeker) bound(at some) (sum uint128) {
	k.each(at, 0, 0, func(part int) { sum = sum.plus(k.least[part]) })
	return sum
}

// first is the part with the first value of each axis that was asked.
func (k *seeker) first(at some) (part int) {
	for i, set := range at[:len(k.axes)] {
		v := len(k.axes[i].values)
		if set != 0 {
			v = bits.TrailingZeros64(set)
		}
		part += v * k.step[i]
	}
	return part
}

// alike tells whether a function looks the same in two parts that are free alike.
func (k *seeker) alike(a, b int) bool {
	if k.mark[a] != k.mark[b] {
		return false
	}
	if k.mark[a] == nowhere {
		return true
	}
	rest := a
	for i, x := range k.axes {
		n := len(x.values)
		v := rest / k.step[i]
		if rest -= v * k.step[i]; v < n {
			continue
		}
		for j := range n {
			if !k.alike(a-(n-j)*k.step[i], b-(n-j)*k.step[i]) {
				return false
			}
		}
		return true
	}
	return true
}
