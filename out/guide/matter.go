package guide

import (
	"strconv"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/out/offer"
)

// complaint is what a driver says is wrong, with what to check first and the places that it may
// be about, in the order in which they are looked at.
type complaint struct {
	Name, Anchor string
	Check        []check
	Places       []suspect
}

// check is what to look at before anything is fitted.
type check struct {
	Text  string
	Where []where // none: all vehicles of the platform
	In    string  // the same for the script; "" for all vehicles
}

// suspect is a place that a complaint may be about. With a Family it is about parts of that.
type suspect struct {
	Place         link
	Number        int // of the place on the page
	Anchor        string
	Family        string
	Helps, Source string
	Where         []where // none: all vehicles of the platform
	In            string  // the same for the script; "" for all vehicles
}

// inspection is what to look at on the vehicles of the platform before anything is fitted.
type inspection struct {
	Level, Look, Why, Source string
	Place                    link    // "" text: the vehicle as a whole
	Where                    []where // none: all vehicles of the platform
	In                       string  // the same for the script; "" for all vehicles
}

// complaints says the complaints about vehicles of a platform.
func (s *site) complaints(f *finder, places []place) []complaint {
	var out []complaint
	for i, list := range decide.Gathered(f.guide.Complaints) {
		c := complaint{Name: list[0].Row.Name, Anchor: "complaint" + strconv.Itoa(i+1)}
		for _, t := range decide.CheckFirst(list) {
			c.Check = append(c.Check, check{s.tr(t.Text), f.has.wheres(t.Where), f.in(t.Where)})
		}
		for _, u := range list {
			for _, at := range u.Places {
				c.Places = append(c.Places, s.suspect(f, u.Row, at, places))
			}
		}
		out = append(out, c)
	}
	return out
}

func (s *site) suspect(f *finder, row *model.Complaint, at decide.PlaceUse, places []place) suspect {
	out := suspect{Place: s.placeLink(f.guide, at.Position), Anchor: s.places[at.Position], Family: row.Family, Helps: s.tr(row.Helps), Source: row.Source,
		Where: f.has.wheres(at.Where), In: f.in(at.Where)}
	for i := range places {
		if places[i].Anchor == out.Anchor {
			out.Number = places[i].Number
		}
	}
	return out
}

// inspections says what to look at on vehicles of a platform, the gravest first.
func (s *site) inspections(f *finder) []inspection {
	var out []inspection
	for _, u := range f.guide.Inspections {
		n := inspection{Level: u.Row.Level, Look: s.tr(u.Row.Look), Why: s.tr(u.Row.Why), Source: u.Row.Source, Where: f.has.wheres(u.Where), In: f.in(u.Where)}
		if u.Row.Position != nil {
			n.Place = s.placeLink(f.guide, u.Row.Position)
		}
		out = append(out, n)
	}
	return out
}

// in says vehicles as the script reads them; "" for all of the platform.
func (f *finder) in(boxes []model.Box) string {
	if len(boxes) == 0 {
		return ""
	}
	return f.boxWords(f.guide.Of(boxes...))
}

// besides gives the vehicles of which the page speaks beside those of places and rules.
func (f *finder) besides() []model.Box {
	var out []model.Box
	for _, u := range f.guide.Complaints {
		out = append(out, u.Where...)
		for _, p := range u.Places {
			out = append(out, p.Where...)
		}
	}
	for _, u := range f.guide.Inspections {
		out = append(out, u.Where...)
	}
	return out
}

// against is a complaint that a part is offered against, with where.
type against struct {
	Name string
	At   []againstAt
}

// againstAt is a place of one platform at which a part is offered against a complaint.
type againstAt struct {
	Platform, Place link
	Helps           string
}

// fittedAgainst says what a part is offered against: each complaint once, in the order in which they
// first come.
func (s *site) fittedAgainst(list []offer.Against) []against {
	var out []against
	at := map[string]int{}
	for _, a := range list {
		i, known := at[a.Name]
		if !known {
			i, out = len(out), append(out, against{Name: a.Name})
			at[a.Name] = i
		}
		on := s.platformLink(a.Platform)
		out[i].At = append(out[i].At, againstAt{on, link{a.At.Name, on.Href + "#" + s.places[a.At]}, s.tr(a.Helps)})
	}
	return out
}
