package pick

import (
	"errors"
	"fmt"
	"slices"

	"ferrule/compiler/bind"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// Query is which vehicles are asked about.
type Query struct {
	Platform *model.Platform
	When     model.When // of that platform; what is not told is not restricted
}

// Box says what was told.
func (q *Query) Box() model.Box { return model.Box{Years: q.years(), Traits: q.When.Traits} }

// Closed says what was told in values that the platform has: of traits on a line closed ranges.
func (q *Query) Closed() model.Box {
	return model.Box{Years: q.years(), Traits: q.When.Closed(q.When.Platforms).Traits}
}

// years gives the model years that were told.
func (q *Query) years() []model.Span { return yearsOf(q.Platform, q.When.Years) }

// yearsOf gives the model years of a condition: those of the platform, or where it has none of
// them, as they were said.
func yearsOf(p *model.Platform, years *model.Years) []model.Span {
	if years == nil {
		return nil
	}
	if in := p.Spans(p.YearSet(years)); in != nil {
		return in
	}
	out := slices.Clone(years.Spans)
	for i, s := range out {
		switch {
		case s.From == model.FirstYear:
			out[i].From = s.To
		case s.To == model.LastYear:
			out[i].To = s.From
		}
	}
	return out
}

// Name gives a trait's name; nil is the model year.
func Name(t *model.Trait) string {
	if t == nil {
		return "Years"
	}
	return t.Name
}

// Query reads a question: a platform, years as a Years cell has them ("" where they are
// not known), and answers such as `Levelling=Mechanical`, whose values are read as
// condition cells are. Platform and Years may stand among the answers instead. Errors
// are sentences for the user.
func (d *Lookup) Query(platform, years string, answers []string) (*Query, error) {
	r := reading{words: d.words, cat: d.cat, told: map[string]string{}}
	if platform != "" {
		r.told["platform"] = platform
	}
	if years != "" {
		r.told["years"] = years
	}
	for _, a := range answers {
		if err := r.answer(a); err != nil {
			return nil, err
		}
	}
	return r.query()
}

// reading gathers what is told of a vehicle.
type reading struct {
	words *bind.Words
	cat   *model.Catalogue
	told  map[string]string // platform and years, as written
	said  []said            // of traits
}

// said is what is told of one trait, as written.
type said struct {
	trait *model.Trait
	text  string
}

// answer reads `trait=value`.
func (r *reading) answer(text string) error {
	name, value, ok := bind.CutColumn(text, r.isColumn)
	if !ok {
		return fmt.Errorf("%q is no answer; write a trait, =, and its value", text)
	}
	column, t, err := r.words.Column(name)
	switch {
	case err != nil:
		return err
	case column != "":
		if r.told[column] != "" {
			return fmt.Errorf("%s is told twice: %q and %q", column, r.told[column], value)
		}
		r.told[column] = value
		return nil
	}
	if slices.ContainsFunc(r.said, func(s said) bool { return s.trait == t }) {
		return fmt.Errorf("%s is told twice", t.Name)
	}
	r.said = append(r.said, said{t, value})
	return nil
}

func (r *reading) isColumn(name string) bool {
	_, _, err := r.words.Column(name)
	return err == nil
}

// values reads what is told of traits, in the words that are used of the platform.
func (r *reading) values(q *Query) error {
	words := r.words.On(q.Platform)
	for _, s := range r.said {
		set, restricts, err := words.Values(s.trait, s.text)
		switch {
		case err != nil:
			return err
		case !restricts:
			continue
		case set.Values.IsEmpty() && set.Line == nil:
			return fmt.Errorf("%q leaves no value of %s", s.text, s.trait.Name)
		}
		q.When.Traits = append(q.When.Traits, set)
		if err := r.onLine(q, set, s.text); err != nil {
			return err
		}
	}
	return nil
}

// onLine holds an answer about a trait on a line against what it is on the platform.
func (r *reading) onLine(q *Query, t model.TraitSet, text string) error {
	if t.Line == nil {
		return nil
	}
	if err := r.words.Outside(t.Trait, text, q.When.Platforms); err != nil {
		return err
	}
	if t.Values.IsEmpty() && len(t.Line.Within(t.Trait.Extent(q.Platform))) == 0 {
		return fmt.Errorf("%q leaves no value of %s on %s", text, t.Trait.Name, q.Platform.Name)
	}
	return nil
}

// query finds the platform. In a catalogue with one platform it goes without saying.
func (r *reading) query() (*Query, error) {
	q := &Query{}
	name := r.told["platform"]
	switch {
	case name != "":
		p, err := r.words.Platform(name)
		if err != nil {
			return nil, err
		}
		q.Platform = p
	case len(r.cat.Platforms) == 0:
		return nil, errors.New("the catalogue has no platform")
	case len(r.cat.Platforms) == 1:
		q.Platform = r.cat.Platforms[0]
	default:
		return nil, fmt.Errorf("of which platform is the vehicle? There is %s", word.List(platformNames(r.cat), "and"))
	}
	q.When.Platforms = []*model.Platform{q.Platform}
	if err := r.values(q); err != nil {
		return nil, err
	}
	years, err := r.words.Years(r.told["years"])
	if err != nil {
		return nil, err
	}
	if years != nil && years.Not && !slices.ContainsFunc(q.Platform.Years, years.Has) {
		return nil, fmt.Errorf("%q leaves no year of %s", r.told["years"], q.Platform.Name)
	}
	q.When.Years = years
	sortTraits(q.When.Traits)
	return q, nil
}
