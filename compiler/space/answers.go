package space

import (
	"math/big"
	"slices"
)

// answers gives what follows from asking for a level, with values together that leave
// the same to be decided.
func (q *asker) answers(at situation, level int32) []answer {
	s := q.s
	var out []answer
	for _, values := range s.alike(at.f, level) {
		f := s.restrict(at.f, level, values.Min())
		if f == Empty {
			continue
		}
		w := Empty
		for v := range values.Values() {
			w = s.apply(plus, w, s.restrict(at.w, level, v))
		}
		if i := slices.IndexFunc(out, func(a answer) bool { return a.next.f == f }); i >= 0 {
			out[i].values = out[i].values.Or(values)
			out[i].next.w = s.apply(plus, out[i].next.w, w)
		} else {
			out = append(out, answer{values, situation{f, w}})
		}
	}
	if len(out) < 2 {
		return out
	}
	live := s.support(at.f).Without(SetOf(int(level)))
	for i, a := range out {
		out[i].next = q.lean(a.next, live)
	}
	return out
}

// total is the weight of all configurations.
func (q *asker) total(at situation) *big.Int {
	n, ok := q.totals[at]
	if !ok {
		n = q.sum(at.w, q.s.support(at.f))
		q.totals[at] = n
	}
	return n
}

// sum adds all numbers of w, which depends on live levels only.
func (q *asker) sum(w Region, live Set) *big.Int {
	if all := q.s.sum(w, live); all != Empty {
		return q.s.number(all)
	}
	return new(big.Int)
}

// telling gives the question that for its effort separates the most pairs of
// configurations with different ends; the cheapest one where none separates any.
func (q *asker) telling(at situation, all []*choice) *choice {
	whole := q.mixed(at)
	var best *choice
	var most *big.Rat
	for _, c := range all {
		c.answers = q.answers(at, c.level)
		if len(c.answers) < 2 {
			continue
		}
		apart := new(big.Int).Set(whole)
		for _, a := range c.answers {
			apart.Sub(apart, q.mixed(a.next))
		}
		worth := new(big.Rat).SetFrac(apart, big.NewInt(int64(q.effort[q.s.order[c.level]])))
		if best == nil || worth.Cmp(most) > 0 || worth.Cmp(most) == 0 && c.effort.Cmp(best.effort) < 0 {
			best, most = c, worth
		}
	}
	return best
}

// mixed is twice the number of pairs of configurations with different ends.
func (q *asker) mixed(at situation) *big.Int {
	n := q.total(at)
	out := new(big.Int).Mul(n, n)
	live := q.s.support(at.f)
	for label := range q.ends {
		part := q.sum(q.s.apply(times, q.only(at.f, Region(-1-label)), at.w), live)
		out.Sub(out, new(big.Int).Mul(part, part))
	}
	return out
}

// only gives the function that is 1 where f is the label, and Empty elsewhere.
func (q *asker) only(f, label Region) Region {
	s, one := q.s, q.s.numberLabel(big.NewInt(1))
	s.memo.begin(len(s.nodes))
	var pick func(f Region) Region
	pick = func(f Region) Region {
		switch {
		case f == label:
			return one
		case f < 2:
			return Empty
		case s.memo.has(f):
			return s.memo.result[f]
		}
		return s.memo.put(f, s.rebuild(s.nodes[f], pick))
	}
	return pick(f)
}
