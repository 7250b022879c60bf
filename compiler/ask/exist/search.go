package exist

import (
	"cmp"
	"slices"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/space"
)

// search looks for Breaks rows that leave of all that occurs exactly what exists.
type search struct {
	*decide.Platform
	wide  space.Box    // by trait of the space, the values that occur
	start space.Region // all that the wide box holds
	most  int          // as many rows as there are now are of no use
}

// newSearch looks for fewer rows than most. It runs inside Try.
func newSearch(p *decide.Platform, most int) *search {
	s := &search{Platform: p, wide: make(space.Box, p.Traits()), most: most}
	for t := range s.wide {
		s.wide[t] = p.Values(p.All, t)
	}
	s.start = p.Box(s.wide)
	return s
}

// run gives few rows; false where none were found that leave what exists. It runs inside Try.
func (s *search) run() ([]decide.Break, bool) {
	if s.All == space.Empty {
		return nil, false
	}
	rows := s.surroundings()
	if !s.exact(rows) {
		if rows = s.refined(rows); rows == nil {
			return nil, false
		}
	}
	rows = s.withoutTraits(rows)
	rows = s.withoutRows(rows)
	rows = s.withoutConditions(rows)
	return joined(rows), true
}

// exact tells whether rows leave what exists. It runs inside Try.
func (s *search) exact(rows []decide.Break) bool {
	mark := s.Mark()
	left := s.Leave(s.start, rows)
	s.Release(mark)
	return left == s.All
}

// surroundings gives, for each value of each trait, the least box that holds the vehicles with it:
// what other rows of Breaks could not say in one row. Values alike share a row.
func (s *search) surroundings() []decide.Break {
	var out []decide.Break
	for t := 1; t < s.Traits(); t++ {
		absent := s.Size(t) - 1
		first := len(out)
		for v := range s.wide[t].Values() {
			box := s.around(t, v)
			if v == absent || box.Conditions() == 0 {
				continue // 'does not apply' is nothing that is built
			}
			i := slices.IndexFunc(out[first:], func(b decide.Break) bool { return b.Box.Equal(box) })
			if i < 0 {
				out = append(out, decide.Break{Trait: t, Values: space.SetOf(v), Box: box})
				continue
			}
			out[first+i].Values = out[first+i].Values.Or(space.SetOf(v))
		}
	}
	return out
}

// around is the least box that holds the vehicles with a value, without what it says of all.
func (s *search) around(trait, value int) space.Box {
	with := space.Box{}.With(trait, space.SetOf(value))
	out := make(space.Box, s.Traits())
	for t := range out {
		if t == trait {
			continue
		}
		if set := s.ValuesIn(s.All, with, t); !set.Equal(s.wide[t]) {
			out[t] = set
		}
	}
	return out
}

// withoutTraits leaves out all rows of a trait where the others suffice: numbers and dates first,
// since it is the other values of which people ask when they were built, then those with most rows.
// It runs inside Try.
func (s *search) withoutTraits(rows []decide.Break) []decide.Break {
	of := map[int]int{}
	for _, b := range rows {
		of[b.Trait]++
	}
	order := make([]int, 0, len(of))
	for t := range s.Traits() {
		if of[t] > 0 {
			order = append(order, t)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(s.ordinary(a), s.ordinary(b)), cmp.Compare(of[b], of[a]), cmp.Compare(b, a))
	})
	for _, t := range order {
		fewer := slices.DeleteFunc(slices.Clone(rows), func(b decide.Break) bool { return b.Trait == t })
		if s.exact(fewer) {
			rows = fewer
		}
	}
	return rows
}

// ordinary is 0 for a trait on a line and 1 for others.
func (s *search) ordinary(trait int) int {
	if s.Cat.Traits[trait-1].Kind.OnLine() {
		return 0
	}
	return 1
}

// withoutRows leaves out rows where the others suffice, the longest first. It runs inside Try.
func (s *search) withoutRows(rows []decide.Break) []decide.Break {
	rows = slices.Clone(rows)
	slices.SortStableFunc(rows, func(a, b decide.Break) int {
		return cmp.Or(cmp.Compare(a.Trait, b.Trait), cmp.Compare(a.Values.Min(), b.Values.Min()))
	})
	order := slices.Clone(rows)
	slices.SortStableFunc(order, func(a, b decide.Break) int { return b.Box.Conditions() - a.Box.Conditions() })
	for _, o := range order {
		i := slices.IndexFunc(rows, func(b decide.Break) bool {
			return b.Trait == o.Trait && b.Values.Equal(o.Values) && b.Box.Equal(o.Box)
		})
		if fewer := slices.Delete(slices.Clone(rows), i, i+1); s.exact(fewer) {
			rows = fewer
		}
	}
	return rows
}

// withoutConditions leaves out conditions that follow from other rows, years last. It runs inside
// Try.
func (s *search) withoutConditions(rows []decide.Break) []decide.Break {
	rows = slices.Clone(rows)
	for i := range rows {
		for t := s.Traits() - 1; t >= 0; t-- {
			if rows[i].Box[t] == nil {
				continue
			}
			was := rows[i].Box
			rows[i].Box = was.With(t, nil)
			if !s.exact(rows) {
				rows[i].Box = was
			}
		}
	}
	return rows
}

// joined gives one row for values of a trait that are built where the same holds.
func joined(rows []decide.Break) []decide.Break {
	var out []decide.Break
	for _, b := range rows {
		i := slices.IndexFunc(out, func(o decide.Break) bool { return o.Trait == b.Trait && o.Box.Equal(b.Box) })
		if i < 0 {
			out = append(out, b)
			continue
		}
		out[i].Values = out[i].Values.Or(b.Values)
	}
	return out
}
