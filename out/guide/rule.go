package guide

import (
	"fmt"
	"strconv"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// rule is a compatibility row: what must not be fitted, what needs company or care.
type rule struct {
	Number int    // of the platform's rules, counted from 1
	Effect string // forbid, require or caution
	Part   *partRef
	Family string
	With   *partRef
	Where  []where // none: all vehicles of the platform
	In     string  // the same for the script; "" for all vehicles
	Reason string
	Places []link // where parts that it is about are offered, to where it stands there
}

// ruling is a rule about a part that a line of a table offers, and that holds for vehicles
// of the line.
type ruling struct {
	Rule  *rule
	Where []where // which of them; none: all vehicles of the line
}

func (s *site) rules(f *finder) []rule {
	var out []rule
	for i, u := range f.guide.Rules {
		r := rule{
			Number: i + 1, Effect: u.Rule.Effect.String(), Part: s.partOrNone(u.Rule.Part), Family: u.Rule.Family,
			With: s.partOrNone(u.Rule.With), Where: f.has.wheres(u.Where), Reason: s.tr(u.Rule.Reason),
		}
		if r.Where != nil {
			r.In = f.boxWords(f.guide.Of(u.Where...))
		}
		out = append(out, r)
	}
	return out
}

// rule says the rules beside a place, and beside each line that offers what one is about:
// there only those that hold for vehicles of the line. Where it takes several boxes to tell
// that one holds for all of them, its condition is said all the same.
func (s *site) rule(f *finder, p *place, cases []decide.Case, rules []rule) {
	lines := make([]decide.Vehicles, len(cases))
	for i := range cases {
		lines[i] = f.exist.Among(cases[i].Where)
	}
	for n := range rules {
		use := f.guide.Rules[n]
		in := f.guide.Of(use.Where...)
		offered, holds := false, false
		for i := range cases {
			here := lines[i].Meet(in)
			holds = holds || here
			if p.Table.Rows[i].Fit.Kind != "fitted" || !concerns(use.Rule, cases[i].Alternatives) {
				continue
			}
			offered = true
			p.Table.Rows[i].about(&rules[n], here, lines[i].Inside(in))
		}
		if offered && holds {
			p.Rules = append(p.Rules, rules[n])
			rules[n].Places = append(rules[n].Places, link{p.Name, fmt.Sprintf("#r%d-rule%d", p.Number, rules[n].Number)})
		}
	}
}

// about notes a rule about what the line offers.
func (r *row) about(of *rule, holds, always bool) {
	if r.About != "" {
		r.About += " "
	}
	r.About += strconv.Itoa(of.Number)
	switch {
	case !holds:
	case always:
		r.Rules = append(r.Rules, ruling{Rule: of})
	default:
		r.Rules = append(r.Rules, ruling{of, of.Where})
	}
}

// concerns tells whether a rule is about a part of some alternatives, be it as the company
// of another.
func concerns(r *model.Rule, as []model.Alternative) bool {
	found := false
	(&model.Fits{Alternatives: as}).Parts(func(p *model.Part) {
		found = found || r.About(p) || r.With == p
	})
	return found
}

func (s *site) partOrNone(p *model.Part) *partRef {
	if p == nil {
		return nil
	}
	r := s.partRef(p)
	return &r
}
