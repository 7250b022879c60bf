package report

import (
	"fmt"

	"ferrule/compiler/ask/pick"
	"ferrule/compiler/judge/decide"
)

// inspections says what to look at before anything is fitted.
func (p *pickPage) inspections(list []decide.InspectionUse) {
	if len(list) == 0 {
		return
	}
	p.line("")
	p.line("look at this before anything is fitted:")
	for _, u := range list {
		p.wrap("  "+u.Row.Level+": ", 4, Inspection(u))
		p.where(u.Where)
		p.source(u.Row.Source)
	}
}

// Inspection says what to look at, where and why.
func Inspection(u decide.InspectionUse) string {
	words := u.Row.Look
	if u.Row.Position != nil {
		words += " (" + u.Row.Position.Name + ")"
	}
	if u.Row.Why != "" {
		words += ": " + u.Row.Why
	}
	return words
}

func (p *pickPage) source(text string) {
	if text != "" {
		p.aside("source", text)
	}
}

// complaint says what to check first and, place by place, what is known of it.
func (p *pickPage) complaint(c *pick.Complaint) {
	p.line("")
	p.painted("the driver says: " + p.paint(bold, clean(c.Name)))
	if first := decide.CheckFirst(c.Uses); len(first) > 0 {
		p.line("check first:")
		for _, t := range first {
			p.wrap("  ", 4, t.Text)
			p.where(t.Where)
		}
	}
	if len(c.Places) == 0 {
		p.wrap("", 2, "no place of these vehicles is named for it: stop and ask")
		return
	}
	p.line("then these places, in this order:")
	for i := range c.Places {
		at := &c.Places[i]
		p.line("")
		p.suspect(i+1, at)
		p.place(at.Position)
	}
	p.line("")
	p.wrap("", 2, "order nothing before it is known which of these places it is; if it is none of them, stop and ask")
}

// suspect says why a place is looked at.
func (p *pickPage) suspect(number int, at *pick.Place) {
	p.wrap("", 3, fmt.Sprintf("%d. %s: %s", number, placeWords(at), at.Use.Row.Helps))
	p.where(at.Where)
	p.source(at.Use.Row.Source)
}

// placeWords names a place, with the family that is looked for there.
func placeWords(at *pick.Place) string {
	if at.Use.Row.Family == "" {
		return at.PlaceUse.Position.Name
	}
	return fmt.Sprintf("%s (%s)", at.PlaceUse.Position.Name, at.Use.Row.Family)
}
