package space

import (
	"cmp"
	"slices"
)

// Outside looks for a configuration of care that is in none of the rows, without
// making regions: an example where the gap itself is over the budget. It is sure where
// it found one (c is not nil) or knows that there is none (c is nil); else it gave up.
// The same question always has the same answer, though not the first configuration in
// declared order.
//
// Values are chosen level by level, first those with which the rows that are still
// possible are expected to hold the fewest of the configurations below; with less than
// one expected, there is one outside. (That is the method of conditional expectations,
// P. Erdős and J. L. Selfridge, "On a combinatorial game", 1973.)
func (s *Space) Outside(care Region, rows []Box) (c []int, sure bool) {
	o := outsider{s: s, rows: rows, last: make([]int, len(rows)), c: make([]int, len(s.sizes)), effort: outsideEffort}
	var in []share
	for i, b := range rows {
		last, ok := s.load(b)
		if o.last[i] = last; !ok {
			continue
		}
		if last < 0 {
			return nil, true
		}
		in = append(in, share{i, o.part(b)})
	}
	if o.search(care, 0, in) {
		return o.c, true
	}
	return nil, o.effort > 0
}

// outsideEffort bounds the search of Outside: how often a row is looked at.
const outsideEffort = 4_000_000

type outsider struct {
	s      *Space
	rows   []Box
	last   []int // level below which each row holds everything
	c      []int // the choices so far
	effort int   // left
}

// share is a row that the choices so far are in, with the part that it holds of the
// configurations below.
type share struct {
	row  int
	part float64
}

// part is the part of all configurations that a box, loaded, holds.
func (o *outsider) part(b Box) float64 {
	part := 1.0
	o.s.widths()
	for l, n := range o.s.wide {
		part *= float64(n) / float64(o.s.sizes[o.s.order[l]])
	}
	return part
}

// search chooses from a level on, with r below the choices so far and in the rows that
// they are in; false where there is nothing outside, or no effort left.
func (o *outsider) search(r Region, level int, in []share) bool {
	if r == Empty {
		return false
	}
	if level == len(o.s.order) {
		return len(in) == 0
	}
	for _, v := range o.values(r, level, in) {
		if o.effort <= 0 {
			return false
		}
		o.c[o.s.order[level]] = v
		kid := r
		if int(o.s.at(r)) == level {
			kid = o.s.under(r, v)
		}
		if o.search(kid, level+1, o.with(in, level, v)) {
			return true
		}
	}
	return false
}

// values gives the values of a level that leave something outside, as far as can be
// seen, the most promising first.
func (o *outsider) values(r Region, level int, in []share) []int {
	t := o.s.order[level]
	held := make([]float64, o.s.sizes[t]) // expected, by value
	shut := make(Set, o.s.words[level])   // values with which a row holds all
	for _, x := range in {
		set := o.rows[x.row].At(t)
		if set == nil {
			continue // the same for all values
		}
		set = set.And(o.s.whole[level])
		part := x.part * float64(len(held)) / float64(set.Len())
		for v := range set.Values() {
			held[v] += part
		}
		if o.last[x.row] <= level {
			shut = shut.Or(set)
		}
	}
	o.effort -= 1 + len(in)
	var out []int
	for v := range held {
		if !shut.Has(v) && (int(o.s.at(r)) != level || o.s.under(r, v) != Empty) {
			out = append(out, v)
		}
	}
	slices.SortStableFunc(out, func(v, w int) int { return cmp.Compare(held[v], held[w]) })
	return out
}

// with gives the rows that the choice of v is in.
func (o *outsider) with(in []share, level, v int) []share {
	out := make([]share, 0, len(in))
	t := o.s.order[level]
	for _, x := range in {
		set := o.rows[x.row].At(t)
		if set == nil {
			out = append(out, x)
		} else if set.Has(v) {
			n := set.And(o.s.whole[level]).Len()
			out = append(out, share{x.row, x.part * float64(o.s.sizes[t]) / float64(n)})
		}
	}
	return out
}
