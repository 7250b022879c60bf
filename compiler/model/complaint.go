package model

import (
	"cmp"
	"slices"

	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// Complaint is one row of a Complaints sheet: what a driver says is wrong with a vehicle, and one
// place that it may be about. Rows whose names are the same once folded are one complaint.
type Complaint struct {
	Name     string // as a driver says it
	When     When
	Position *Position // nil: any place that a part of Family is offered for
	Family   string    // "": whatever is fitted at Position
	Order    Number    // places with less come first; not Stated is last
	Helps    string    // how what is fitted there helps
	Check    string    // what to look at before anything is fitted; "" for nothing
	Source   string
	At       cell.Place // the Complaint cell
	PlaceAt  cell.Place // the Position cell, or that of Family
	OrderAt  cell.Place
}

// About tells whether a part answers the complaint where it is offered: it is of the row's Family or,
// as a kit, holds one that is.
func (c *Complaint) About(p *Part) bool {
	found := c.Family == "" || word.Fold(p.Family) == word.Fold(c.Family)
	if p.Kit() {
		p.Within(func(held *Part) { found = found || word.Fold(held.Family) == word.Fold(c.Family) })
	}
	return found
}

// Asks tells whether the row is about a position, by itself or because a part of its family is offered there.
func (c *Complaint) Asks(at *Position) bool { return c.Position == nil || c.Position == at }

// Place says the place of the row: a position, a family, or the one at the other.
func (c *Complaint) Place() string {
	switch {
	case c.Position == nil:
		return c.Family
	case c.Family == "":
		return c.Position.Name
	}
	return c.Family + " at " + c.Position.Name
}

// Before orders the rows of a complaint: by Order, those without one last.
func (c *Complaint) Before(o *Complaint) int {
	switch {
	case c.Order.Stated() && o.Order.Stated():
		return c.Order.Rat.Cmp(o.Order.Rat)
	case c.Order.Stated():
		return -1
	case o.Order.Stated():
		return 1
	}
	return 0
}

// Named gives the rows of each complaint in the order in which their places are looked at; complaints
// come in the order of their first rows.
func Named(rows []*Complaint) [][]*Complaint {
	var out [][]*Complaint
	at := map[string]int{}
	for _, c := range rows {
		key := word.Fold(c.Name)
		i, known := at[key]
		if !known {
			i, out = len(out), append(out, nil)
			at[key] = i
		}
		out[i] = append(out[i], c)
	}
	for _, list := range out {
		slices.SortStableFunc(list, (*Complaint).Before)
	}
	return out
}

// Inspection is one row of an Inspections sheet: what to look at on a vehicle before anything is
// fitted. One with a Position is about the vehicles that have it.
type Inspection struct {
	Look     string
	When     When
	Position *Position // nil: the vehicle as a whole
	Level    string    // one of Levels
	Why      string
	Source   string
	At       cell.Place // the cell of what to look at
	PlaceAt  cell.Place // the Position cell
}

// Gravest orders inspections: those first that matter most, otherwise as they stand.
func Gravest(a, b *Inspection) int {
	return cmp.Compare(slices.Index(Levels(), a.Level), slices.Index(Levels(), b.Level))
}
