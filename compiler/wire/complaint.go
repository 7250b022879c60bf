package wire

import (
	"encoding/json"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// Complaint is what a driver says is wrong, as it leads to places of one platform. Where is left out
// wherever something is about all of the platform.
type Complaint struct {
	Complaint  string      `json:"complaint"`
	CheckFirst []LookFirst `json:"check_first,omitempty"` // before anything is fitted
	Places     []Suspect   `json:"places"`                // in the order in which they are looked at
}

// LookFirst is a text that says what to look at, with the vehicles.
type LookFirst struct {
	Text  string `json:"text"`
	Where []Box  `json:"where,omitempty"` // none: all of the platform
}

// Suspect is a place that a complaint is about on some vehicles. With a Family what is fitted there is of it,
// or nobody knows yet what is.
type Suspect struct {
	Position   string      `json:"position"`
	Family     string      `json:"family,omitempty"`
	Order      json.Number `json:"order,omitempty"` // left out where the row has none
	Where      []Box       `json:"where,omitempty"` // none: all of the platform
	HowItHelps string      `json:"how_it_helps"`
	Source     string      `json:"source,omitempty"`
}

// ComplaintsOf puts the complaints of a platform as JSON.
func ComplaintsOf(uses []decide.ComplaintUse) []Complaint {
	var out []Complaint
	for _, list := range decide.Gathered(uses) {
		c := Complaint{Complaint: list[0].Row.Name, Places: []Suspect{}}
		for _, t := range decide.CheckFirst(list) {
			c.CheckFirst = append(c.CheckFirst, LookFirst{t.Text, Boxes(t.Where)})
		}
		for _, u := range list {
			for _, p := range u.Places {
				c.Places = append(c.Places, Suspect{p.Position.Name, u.Row.Family, OrderOf(u.Row), Boxes(p.Where), u.Row.Helps, u.Row.Source})
			}
		}
		out = append(out, c)
	}
	return out
}

// OrderOf gives which place of a complaint a row is, "" where it does not say.
func OrderOf(c *model.Complaint) json.Number { return Decimal(c.Order.Rat) }

// Inspection is what to look at before anything is fitted. Where is left out where it is
// about all of the platform.
type Inspection struct {
	LookAt   string `json:"what_to_look_at"`
	Position string `json:"position,omitempty"` // none: the vehicle as a whole
	Level    string `json:"level"`
	Where    []Box  `json:"where,omitempty"`
	Why      string `json:"why,omitempty"`
	Source   string `json:"source,omitempty"`
}

// InspectionOf puts an inspection, as it is about one platform, as JSON.
func InspectionOf(u decide.InspectionUse) Inspection {
	return Inspection{u.Row.Look, PositionName(u.Row.Position), u.Row.Level, Boxes(u.Where), u.Row.Why, u.Row.Source}
}
