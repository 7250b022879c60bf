package guide

import (
	"slices"

	"ferrule/compiler/decide"
	"ferrule/compiler/model"
)

// question is a trait that differs among the vehicles of a platform.
type question struct {
	Trait, Anchor string
	Question      string
	Tell          []string
	Values        []answer
}

// Hints tells whether any of the values says how it is known.
func (q question) Hints() bool {
	return slices.ContainsFunc(q.Values, func(a answer) bool { return a.Tell != nil })
}

// answer is a value that occurs on the platform.
type answer struct {
	Name   string
	Other  string // a size in the other system, where the name does not say it
	Absent bool   // 'does not apply', which has no name
	Tell   []string
}

// fixed is a trait that all vehicles of a platform share.
type fixed struct {
	Trait, Anchor string
	Value         answer
}

// questions splits the platform's traits into those that must be looked at and those
// that need not be. A trait that no vehicle of the platform has is left out.
func (s *site) questions(g *decide.Guide) (ask []question, same []fixed) {
	for _, u := range g.Traits {
		t := u.Trait
		values := s.answers(u, g.Platform)
		switch {
		case len(values) == 0 || len(values) == 1 && values[0].Absent:
		case len(values) == 1:
			same = append(same, fixed{Trait: t.Name, Anchor: s.traits[t], Value: values[0]})
		default:
			ask = append(ask, question{
				Trait: t.Name, Anchor: s.traits[t], Question: t.Question,
				Tell: tells(t.Tell, g.Platform), Values: values,
			})
		}
	}
	return ask, same
}

func (s *site) answers(u decide.TraitUse, pl *model.Platform) []answer {
	var out []answer
	for i, v := range u.Trait.Values {
		if u.Values.Has(i) {
			out = append(out, answer{Name: v.Name, Other: s.otherSize(v), Tell: tells(v.Tell, pl)})
		}
	}
	if u.Values.Has(u.Trait.Absent()) {
		out = append(out, answer{Absent: true})
	}
	return out
}

// tells gives the texts that hold for a platform. Where some are for that platform
// only, they stand alone: a general text may be wrong there.
func tells(all []model.Tell, pl *model.Platform) []string {
	var own, general []string
	for _, t := range all {
		switch {
		case t.Text == "":
		case t.Platform == pl:
			own = append(own, t.Text)
		case t.Platform == nil:
			general = append(general, t.Text)
		}
	}
	if own != nil {
		return own
	}
	return general
}
