package exist

import (
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
	rows = s.fewest(rows)
	return joined(s.withoutConditions(rows)), true
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
