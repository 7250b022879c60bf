package exist

import (
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/space"
)

// maxRefined is how many boxes may say where one value is built.
const maxRefined = 20

// refined says of the values of one trait in several rows each where they are built, since one box
// around each holds more than what exists: of the traits that suffice the one that takes fewest
// rows; nil where none does. It runs inside Try.
func (s *search) refined(rows []decide.Break) []decide.Break {
	left := s.Leave(s.start, rows)
	var best []decide.Break
	for t := 1; t < s.Traits(); t++ {
		some := s.refine(rows, left, t)
		if some != nil && (best == nil || len(some) < len(best)) && s.exact(some) {
			best = some
		}
	}
	return best
}

// refine replaces the rows of a trait for values with which more is left than exists; nil where it
// takes too many rows.
func (s *search) refine(rows []decide.Break, left space.Region, trait int) []decide.Break {
	var out []decide.Break
	var loose space.Set
	more := s.Values(s.Minus(left, s.All), trait).Without(space.SetOf(s.Size(trait) - 1))
	for v := range more.Values() {
		boxes, ok := s.where(left, trait, v)
		if !ok {
			return nil
		}
		loose = loose.Or(space.SetOf(v))
		for _, b := range boxes {
			out = append(out, decide.Break{Trait: trait, Values: space.SetOf(v), Box: b})
		}
		if out = joined(out); len(out) >= s.most {
			return nil // these alone are no fewer
		}
	}
	for _, b := range rows {
		if b.Trait == trait {
			b.Values = b.Values.Without(loose)
		}
		if !b.Values.IsEmpty() {
			out = append(out, b)
		}
	}
	return out
}

// where gives boxes that say where a value is built, as far as other rows leave it.
func (s *search) where(left space.Region, trait, value int) ([]space.Box, bool) {
	of := s.Box(space.Box{}.With(trait, space.SetOf(value)))
	boxes, rest := s.Cover(s.Intersect(s.All, of), s.Intersect(left, of), maxRefined)
	for i, b := range boxes {
		whole := make(space.Box, s.Traits())
		for t := range whole {
			if set := b.At(t); set != nil && t != trait && !s.wide[t].In(set) {
				whole[t] = set.And(s.wide[t])
			}
		}
		boxes[i] = whole
	}
	return boxes, rest == space.Empty
}
