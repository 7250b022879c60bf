package pick

import (
	"slices"

	"ferrule/compiler/judge/decide"
	"ferrule/schema/word"
)

// Complaint is what a driver says is wrong with the vehicles asked about.
type Complaint struct {
	Name   string
	Uses   []decide.ComplaintUse // its rows that are about some of these vehicles; none: it is about none
	Places []Place               // in the order in which they are looked at
}

// Place is a place of a complaint, and what is known of it.
type Place struct {
	decide.PlaceUse
	Use      *decide.ComplaintUse
	Position *Position
}

// Complaint finds what a driver says by its name. Errors are sentences for the user.
func (d *Lookup) Complaint(name string) (string, error) {
	if name == "" {
		return "", nil
	}
	rows, err := d.words.Complaint(name)
	if err != nil {
		return "", err
	}
	return rows[0].Name, nil
}

// Against leaves the positions that a complaint is about, in the order in which they are looked
// at, and what decides there. Nothing is ordered: which of the places it is has to be found first. It is
// false where the complaint is about none of the vehicles.
func (l *List) Against(name string) bool {
	c := &Complaint{Name: name}
	for _, u := range l.complaints {
		if word.Fold(u.Row.Name) == word.Fold(name) {
			c.Uses = append(c.Uses, u)
		}
	}
	var stay []Position
	for i := range c.Uses {
		for _, at := range c.Uses[i].Places {
			k := slices.IndexFunc(l.Positions, func(p Position) bool { return p.Position == at.Position })
			if k < 0 {
				continue
			}
			if !slices.ContainsFunc(stay, func(p Position) bool { return p.Position == at.Position }) {
				stay = append(stay, l.Positions[k])
			}
			c.Places = append(c.Places, Place{at, &c.Uses[i], &l.Positions[k]})
		}
	}
	l.Complaint, l.Positions = c, stay
	l.depend()
	l.Order = nil
	return len(c.Uses) > 0
}

// depend leaves of what is open that which the positions depend on.
func (l *List) depend() {
	for i := range l.Open {
		l.Open[i].Positions = slices.DeleteFunc(slices.Clone(l.Open[i].Positions), func(d Dependent) bool {
			return !slices.ContainsFunc(l.Positions, func(p Position) bool { return p.Position == d.Position })
		})
	}
}
