package view

import (
	"ferrule/compiler/ask/pick"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/out/report"
)

// Vehicle is what belongs on the vehicles that were asked about.
type Vehicle struct {
	Asked         string
	Taken         []string // the stretches that numbers and dates are in
	Amount, So    string   // how many there are, and what is certain of them; Amount is "" where none exists
	Unbuilt, Near []string // of vehicles that do not exist: which rows say so, and the nearest that do
	Looks         []Look   // what to look at before anything is fitted, the gravest first
	Positions     []Spot
	Open          []Question // what was not told and decides
	Idle          string     // what was not told and makes no difference
	Order         []Item
	Uncounted     int // positions of which nothing is in Order, since they are open or not settled
}

// Look is what to look at before anything is fitted.
type Look struct {
	Level, Says, Source string
	Where               []string // on which of the vehicles; none: on all
}

// Spot is a position of the vehicles.
type Spot struct {
	Position  string
	Irregular bool
	Depends   string // how many ways there are and what decides; "" where it is certain
	Ways      []Way
	Why       string // a link to why that is said, "" for none
}

// Way is one thing that may be known of a position.
type Way struct {
	Where        []string // which of the vehicles; none: all
	Missing      bool
	Unsettled    bool
	With         string // the position whose item this comes with
	Alternatives [][]Item
	Said         string // where no part is named
	Notes        []Note
}

// Item is a part with how many of it, and what is in a kit.
type Item struct {
	Words string
	Holds []Item
}

// Note is something that is printed with a part: what it is, and what it says.
type Note struct{ Kind, Text string }

// Question is something that was not told.
type Question struct{ Values, Positions, Question, Tell string }

// VehicleOf gives a pick list as it is shown.
func VehicleOf(l *pick.List) *Vehicle {
	v := &Vehicle{Asked: report.Asked(l.Query)}
	for _, t := range l.Taken {
		v.Taken = append(v.Taken, report.Taken(t))
	}
	if l.Configurations.Sign() == 0 {
		v.nearest(l)
		return v
	}
	v.Amount, v.So, v.Idle = report.HowMany(l.Configurations, l.OnTheRoad), report.Follows(l), report.Idle(l)
	for _, u := range l.Inspections {
		look := Look{Level: u.Row.Level, Says: report.Inspection(u), Source: u.Row.Source}
		for _, b := range u.Where {
			look.Where = append(look.Where, b.String())
		}
		v.Looks = append(v.Looks, look)
	}
	for i := range l.Positions {
		p := &l.Positions[i]
		v.Positions = append(v.Positions, spotOf(p))
		if _, certain := p.First(); !certain {
			v.Uncounted++
		}
	}
	for _, o := range l.Open {
		if len(o.Positions) > 0 {
			v.Open = append(v.Open, questionOf(l, o))
		}
	}
	for _, line := range l.Order {
		v.Order = append(v.Order, itemOf(line.Part, line.Quantity, map[*model.Part]bool{}))
	}
	return v
}

func (v *Vehicle) nearest(l *pick.List) {
	for _, u := range l.Unbuilt {
		v.Unbuilt = append(v.Unbuilt, report.Unbuilt(u))
	}
	for _, n := range l.Near {
		v.Near = append(v.Near, report.Nearest(n)+"; for example "+n.Example.String())
	}
}

func questionOf(l *pick.List, o pick.Open) Question {
	q := Question{Values: report.OpenValues(o), Positions: report.OpenPositions(o), Tell: l.HowToTell(o.Trait)}
	if o.Trait != nil {
		q.Question = o.Trait.Question
	}
	return q
}

func spotOf(p *pick.Position) Spot {
	s := Spot{Position: p.Position.Name, Irregular: !p.Exact}
	if p.Exact && p.Certain() == nil {
		s.Depends = report.Ways(p)
	}
	for i := range p.Ways {
		w := wayOf(&p.Ways[i])
		if s.Depends != "" {
			for _, b := range p.Ways[i].Where {
				w.Where = append(w.Where, b.String())
			}
		}
		s.Ways = append(s.Ways, w)
	}
	return s
}

func wayOf(w *pick.Way) Way {
	out := Way{Missing: w.Missing, Unsettled: !w.Missing && !w.Settled()}
	if !out.Missing && !out.Unsettled {
		out.says(&w.Case)
		for _, c := range w.Care {
			out.Notes = append(out.Notes, Note{"care", report.Care(c)})
		}
	}
	for _, f := range w.Findings {
		out.Notes = append(out.Notes, Note{f.Severity.String(), report.Against(f, w.Settled())})
	}
	return out
}

func (w *Way) says(c *decide.Case) {
	if c.Outcome != model.Fitted {
		w.Said = report.Said(c)
	} else if c.With != nil {
		w.With = c.With.Name
	}
	for _, a := range c.Alternatives {
		var items []Item
		for _, i := range a {
			items = append(items, itemOf(i.Part, i.Quantity, map[*model.Part]bool{}))
		}
		w.Alternatives = append(w.Alternatives, items)
	}
	for _, n := range report.Notes(c) {
		w.Notes = append(w.Notes, Note{n[0], n[1]})
	}
}

// itemOf opens a kit, and the kits in it; one that comes up again is not opened again.
func itemOf(p *model.Part, quantity int, seen map[*model.Part]bool) Item {
	out := Item{Words: report.Item(p, quantity)}
	if seen[p] {
		return out
	}
	seen[p] = true
	for _, c := range p.Contents {
		out.Holds = append(out.Holds, itemOf(c.Part, c.Quantity, seen))
	}
	return out
}
