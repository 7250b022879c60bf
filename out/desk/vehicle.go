package desk

import (
	"net/http"
	"net/url"
	"strings"

	"ferrule/compiler/ask/pick"
	"ferrule/compiler/model"
	"ferrule/out/view"
)

// vehiclePage asks about one vehicle.
type vehiclePage struct {
	Platforms      []string
	Platform, Year string
	Traits         []traitField
	Wrong          string
	Answer         *view.Vehicle // nil: nothing was asked
	Position       string
	Why            []view.Why // why that is said at the position
}

// traitField is a trait of the platform that may be told.
type traitField struct {
	Name, Value string
	Values      []string // to choose from; nil: it is written
}

func (d *Desk) vehicle(s *state, r *http.Request) (any, error) {
	q := r.URL.Query()
	p := &vehiclePage{Platform: q.Get("platform"), Year: strings.TrimSpace(q.Get("year")), Position: q.Get("position")}
	for _, m := range s.res.Catalogue.Platforms {
		p.Platforms = append(p.Platforms, m.Name)
	}
	m := s.platform(p.Platform)
	if m == nil {
		return p, nil
	}
	answers := p.fields(s, m, q)
	lookup := pick.NewLookup(s.res.Catalogue)
	query, err := lookup.Query(m.Name, p.Year, answers)
	if err != nil {
		p.Wrong = err.Error()
		return p, nil
	}
	list, err := lookup.List(r.Context(), query)
	if err != nil {
		return nil, err
	}
	p.Answer = view.VehicleOf(list)
	for i := range p.Answer.Positions {
		at := &p.Answer.Positions[i]
		link := url.Values{}
		for key, values := range q {
			link[key] = values
		}
		link.Set("position", at.Position)
		at.Why = "vehicle?" + link.Encode() + "#why"
	}
	return p, p.why(r, lookup, query)
}

// fields gives the traits of the platform, and what was told of them.
func (p *vehiclePage) fields(s *state, m *model.Platform, q url.Values) (answers []string) {
	for _, set := range s.guide(m).Traits {
		f := traitField{Name: set.Trait.Name, Value: strings.TrimSpace(q.Get("t." + set.Trait.Name))}
		if !set.Trait.Kind.OnLine() {
			names, absent := set.Names()
			if f.Values = names; absent {
				f.Values = append(f.Values, "n/a")
			}
		}
		if f.Value != "" {
			answers = append(answers, f.Name+"="+f.Value)
		}
		p.Traits = append(p.Traits, f)
	}
	return answers
}

// why says why that is said at a position, where one was asked for.
func (p *vehiclePage) why(r *http.Request, lookup *pick.Lookup, query *pick.Query) error {
	if p.Position == "" {
		return nil
	}
	focus, err := lookup.Focus(p.Position, "")
	if err != nil {
		p.Wrong = err.Error()
		return nil
	}
	why, err := lookup.Why(r.Context(), query, focus)
	if err != nil {
		return err
	}
	p.Why = view.WhyOf(why)
	return nil
}
