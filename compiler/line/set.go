package line

import "slices"

// Set is a set of points in normal form: ascending ranges that neither meet nor touch. The zero
// value holds none. A Set is never changed.
type Set []Range

// SetOf gives the points of the ranges.
func SetOf(ranges ...Range) Set {
	ranges = slices.Clone(ranges)
	slices.SortFunc(ranges, compareRanges)
	var out Set
	for _, r := range ranges {
		if r.To < r.From {
			continue
		}
		if n := len(out); n > 0 && out[n-1].Letters == r.Letters && r.From <= out[n-1].To+1 {
			out[n-1].To = max(out[n-1].To, r.To)
			continue
		}
		out = append(out, r)
	}
	return out
}

// Or gives the points in either.
func (s Set) Or(t Set) Set { return SetOf(slices.Concat(s, t)...) }

// And gives the points in both.
func (s Set) And(t Set) Set {
	var out Set
	for i, j := 0, 0; i < len(s) && j < len(t); {
		a, b := s[i], t[j]
		if a.Meets(b) {
			out = append(out, Range{a.Letters, max(a.From, b.From), min(a.To, b.To)})
		}
		if Compare(a.End(), b.End()) < 0 {
			i++
		} else {
			j++
		}
	}
	return out
}

// Without gives the points of s that are not in t.
func (s Set) Without(t Set) Set {
	var out Set
	j := 0
	for _, a := range s {
		for j < len(t) && Compare(t[j].End(), a.First()) < 0 {
			j++
		}
		for k := j; k < len(t) && Compare(t[k].First(), a.End()) <= 0; k++ {
			if t[k].From > a.From {
				out = append(out, Range{a.Letters, a.From, t[k].From - 1})
			}
			a.From = t[k].To + 1
		}
		if a.From <= a.To {
			out = append(out, a)
		}
	}
	return out
}

// Equal tells whether both hold the same points.
func (s Set) Equal(t Set) bool { return slices.Equal(s, t) }

// Has tells whether a point is in the set.
func (s Set) Has(p Point) bool {
	_, ok := s.Find(p)
	return ok
}

// Find gives the index of the range that holds a point.
func (s Set) Find(p Point) (int, bool) {
	return slices.BinarySearchFunc(s, p, func(r Range, p Point) int {
		if r.Has(p) {
			return 0
		}
		return Compare(r.First(), p)
	})
}

// Meets tells whether a point is in both.
func (s Set) Meets(t Set) bool { return len(s.And(t)) > 0 }

// Cut gives the ranges of s, cut wherever one of the sets begins or ends: all points of a range
// are then in the same of the sets. They are the longest such ranges, in ascending order.
func (s Set) Cut(sets ...Set) []Range {
	var begins []Point
	for _, t := range sets {
		for _, r := range t {
			begins = append(begins, r.First(), Point{r.Letters, r.To + 1})
		}
	}
	slices.SortFunc(begins, Compare)
	var out []Range
	i := 0
	for _, r := range s {
		for i < len(begins) && Compare(begins[i], r.First()) <= 0 {
			i++
		}
		for ; i < len(begins) && r.Has(begins[i]); i++ {
			if at := begins[i].N; at > r.From {
				out = append(out, Range{r.Letters, r.From, at - 1})
				r.From = at
			}
		}
		out = append(out, r)
	}
	return out
}
