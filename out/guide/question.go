package guide

import (
	"slices"
	"strconv"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// question is a trait that differs among the vehicles of a platform, or the model year.
type question struct {
	Trait      string
	ID, Anchor string // of the whole, which stays from release to release, and of its heading, which is short
	Year       bool
	Line       string // serial or date where one of its values is typed in; else ""
	Number     int    // of what may be known of a vehicle, in the finder's order
	Asked      bool   // by the finder; whatever is asked has smaller numbers than the rest
	Effort     int    // of what is asked
	Question   string
	Tell       []string
	Pictures   []*image
	Values     []answer
	Decides    []link   // the places whose answer depends on it
	Twice      []string // of the year: codes that stand for two of the years
	Coded      bool     // of the year: any year has a code
}

// Hints tells whether any of the values says how it is known.
func (q question) Hints() bool {
	return slices.ContainsFunc(q.Values, func(a answer) bool { return a.Tell != nil || a.Pictures != nil })
}

// answer is a value that occurs on the platform.
type answer struct {
	Name     string
	Key      string // what it is called in an address, in every language
	Other    string // a size in the other system, where the name does not say it
	Absent   bool   // 'does not apply', which has no name
	Instead  *term  // what such vehicles have in place of the trait Of; nil: unknown
	Of       string
	Code     string // of a year: the tenth character of the VIN
	Tell     []string
	Pictures []*image
}

// fixed is a trait that all vehicles of a platform share.
type fixed struct {
	Trait, Anchor string
	Line          string // as that of a question
	Number        int    // the same
	Value         answer
}

// idle is a trait that differs among the vehicles of a platform and that nothing on its
// page depends on.
type idle struct {
	Trait, Anchor string
	Line          string // as that of a question
	Number        int    // the same
	Values        []answer
}

// questions splits what there is to know of the platform's vehicles into what must be
// looked at and what need not be. What is asked comes first, in the order of asking.
func (s *site) questions(f *finder) (ask []question, same []fixed, other []idle) {
	g := f.guide
	for _, trait := range f.order {
		switch u := f.use(trait); {
		case trait == 0:
			ask = append(ask, f.numbered(trait, s.yearQuestion(g)))
		case f.speaksOf(u):
			ask = append(ask, f.numbered(trait, s.question(f, u)))
			f.lacks.answers(u.Trait, ask[len(ask)-1].Values)
		case u.Values.Len() == 1:
			same = append(same, fixed{u.Trait.Name, f.anchors[u.Trait.Declared()], lineWord(u.Trait), f.number[trait], s.answers(f.shown(u), g.Platform)[0]})
		default:
			other = append(other, idle{u.Trait.Name, f.anchors[u.Trait.Declared()], lineWord(u.Trait), f.number[trait], s.answers(f.shown(u), g.Platform)})
			f.lacks.answers(u.Trait, other[len(other)-1].Values)
		}
	}
	return ask, same, other
}

// numbered says of a question where it stands among those that are asked.
func (f *finder) numbered(trait int, q question) question {
	q.Number, q.Asked, q.Decides = f.number[trait], f.asks(trait), f.decides[trait]
	if q.Asked {
		q.Effort = f.guide.Finder.Effort[trait]
	}
	return q
}

func (s *site) question(f *finder, u model.TraitSet) question {
	t, g := u.Trait, f.guide
	return question{
		Trait: t.Name, ID: s.traits[t.Declared()], Anchor: f.anchors[t.Declared()], Line: lineWord(t), Question: s.tr(t.Question),
		Tell: s.tells(t.Tell, g.Platform), Pictures: s.images(t.Tell, g.Platform, s.tr(t.Name)), Values: s.answers(f.shown(u), g.Platform),
	}
}

// lineWord says what stands on the line of a trait whose values do; "" for other traits.
func lineWord(t *model.Trait) string {
	switch t.Kind {
	case model.Serial:
		return "serial"
	case model.Date:
		return "date"
	}
	return ""
}

func (s *site) yearQuestion(g *decide.Guide) question {
	q := question{
		Trait: s.tongue.Say("Model year"), ID: "model-year", Anchor: "years", Year: true,
		Tell: s.tells(s.cat.YearTell, g.Platform), Pictures: s.images(s.cat.YearTell, g.Platform, s.tongue.Say("Model year")),
		Twice: twice(g.Platform.Years),
	}
	for _, y := range g.Platform.Years {
		code := yearCode(y)
		q.Coded = q.Coded || code != ""
		q.Values = append(q.Values, answer{Name: s.yearWords([]int{y}), Key: strconv.Itoa(y), Code: code})
	}
	return q
}

func (s *site) answers(u model.TraitSet, pl *model.Platform) []answer {
	var out []answer
	for i, v := range u.Trait.Values {
		if u.Values.Has(i) {
			out = append(out, answer{Name: s.valueShown(u.Trait, v), Key: v.Name, Other: s.otherSize(v), Tell: s.tells(v.Tell, pl), Pictures: s.images(v.Tell, pl, s.tr(u.Trait.Name)+" "+s.tr(v.Name))})
		}
	}
	if u.Values.Has(u.Trait.Absent()) {
		out = append(out, answer{Absent: true, Key: "n/a"})
	}
	return out
}

// valueShown gives a value as a page shows it, before it is translated: a range on a line in the words
// of the language.
func (e *edition) valueShown(t *model.Trait, v *model.Value) string {
	if t.Kind.OnLine() {
		return e.rangeWords(v.Name)
	}
	return v.Name
}

// tells gives the texts that hold for a platform. Where some are for that platform
// only, they stand alone: a general text may be wrong there.
func (e *edition) tells(all []model.Tell, pl *model.Platform) []string {
	var own, general []string
	for _, t := range all {
		switch {
		case t.Text == "":
		case t.Platform == pl:
			own = append(own, e.tr(t.Text))
		case t.Platform == nil:
			general = append(general, e.tr(t.Text))
		}
	}
	if own != nil {
		return own
	}
	return general
}
