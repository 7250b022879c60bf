package exist

import (
	"cmp"
	"math/big"
	"slices"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/space"
)

// fewest leaves out rows that follow from others. Of two ways that come to as many rows that one
// counts which leaves single rows out, those about the most vehicles first: an option that few have
// keeps its row, as people would say it. It runs inside Try.
func (s *search) fewest(rows []decide.Break) []decide.Break {
	single := s.withoutRows(s.withoutTraits(rows, s.onLine))
	whole := s.withoutRows(s.withoutTraits(rows, func(int) bool { return true }))
	if len(whole) < len(single) {
		return whole
	}
	return single
}

// withoutTraits leaves out all rows of a trait, of some, where the others suffice: numbers and dates
// first, since it is the other values of which people ask when they were built, then those with most
// rows. It runs inside Try.
func (s *search) withoutTraits(rows []decide.Break, some func(trait int) bool) []decide.Break {
	of := map[int]int{}
	for _, b := range rows {
		of[b.Trait]++
	}
	var lines, others []int
	for t := range s.Traits() {
		switch {
		case of[t] == 0 || !some(t):
		case s.onLine(t):
			lines = append(lines, t)
		default:
			others = append(others, t)
		}
	}
	slices.SortStableFunc(others, func(a, b int) int { return cmp.Compare(of[b], of[a]) })
	for _, t := range append(lines, others...) {
		fewer := slices.DeleteFunc(slices.Clone(rows), func(b decide.Break) bool { return b.Trait == t })
		if s.exact(fewer) {
			rows = fewer
		}
	}
	return rows
}

func (s *search) onLine(trait int) bool { return trait > 0 && s.Cat.Traits[trait-1].Kind.OnLine() }

// withoutRows leaves out rows where the others suffice, those about the most vehicles first. It runs
// inside Try.
func (s *search) withoutRows(rows []decide.Break) []decide.Break {
	rows = slices.Clone(rows)
	order := slices.Clone(rows)
	slices.SortStableFunc(order, func(a, b decide.Break) int { return s.about(b).Cmp(s.about(a)) })
	for _, o := range order {
		i := slices.IndexFunc(rows, func(b decide.Break) bool {
			return b.Trait == o.Trait && b.Values.Equal(o.Values) && b.Box.Equal(o.Box)
		})
		if fewer := slices.Delete(slices.Clone(rows), i, i+1); s.exact(fewer) {
			rows = fewer
		}
	}
	slices.SortStableFunc(rows, func(a, b decide.Break) int {
		return cmp.Or(cmp.Compare(a.Trait, b.Trait), cmp.Compare(a.Values.Min(), b.Values.Min()))
	})
	return rows
}

// about is how many configurations have one of a row's values.
func (s *search) about(b decide.Break) *big.Int {
	return s.CountIn(s.All, space.Box{}.With(b.Trait, b.Values))
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
