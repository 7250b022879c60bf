package wire

import "ferrule/compiler/model"

// When is a condition as a row states it. Where platforms are left out any is meant, and
// an empty list is none; YearsNot turns the
// years round, and TraitsNot the ranges of traits on a line (not whether 'does not apply' is
// meant); an end of a range that is null is open. SetAside marks a row that
// names something unknown and so matches nothing.
type When struct {
	Platforms []string  `json:"platforms,omitzero"`   // by name
	Years     [][2]*int `json:"years,omitempty"`      // closed ranges; null is an open end
	YearsNot  bool      `json:"years_not,omitempty"`  // Years are those that are left out
	Traits    Object    `json:"traits,omitempty"`     // by trait, the values named
	TraitsNot []string  `json:"traits_not,omitempty"` // traits whose ranges are those that are left out
	SetAside  bool      `json:"set_aside,omitempty"`  // the row names something unknown, and matches nothing
}

// WhenOf puts a condition as JSON.
func WhenOf(w *model.When) When {
	out := When{Traits: TraitSets(w.Traits), SetAside: w.SetAside}
	for _, t := range w.Traits {
		if t.Line != nil && t.Line.Not {
			out.TraitsNot = append(out.TraitsNot, t.Trait.Name)
		}
	}
	if w.Platforms != nil {
		out.Platforms = []string{}
	}
	for _, p := range w.Platforms {
		out.Platforms = append(out.Platforms, p.Name)
	}
	if w.Years != nil {
		out.YearsNot = w.Years.Not
		out.Years = Each(w.Years.Spans, func(s model.Span) [2]*int {
			return [2]*int{yearEnd(s.From, model.FirstYear), yearEnd(s.To, model.LastYear)}
		})
	}
	return out
}

func yearEnd(year, open int) *int {
	if year == open {
		return nil
	}
	return &year
}
