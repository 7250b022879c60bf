package staff

import (
	"encoding/json"
	"math/big"
	"slices"

	"ferrule/compiler/model"
	"ferrule/compiler/wire"
)

// complaintRow is a Complaints row.
type complaintRow struct {
	Complaint  string      `json:"complaint"`
	When       wire.When   `json:"when"`
	Position   string      `json:"position,omitempty"`
	Family     string      `json:"family,omitempty"`
	Order      json.Number `json:"order,omitempty"`
	HowItHelps string      `json:"how_it_helps"`
	CheckFirst string      `json:"check_first,omitempty"`
	Source     string      `json:"source,omitempty"`
	Cell       *wire.Place `json:"cell,omitempty"`
	PlaceCell  *wire.Place `json:"place_cell,omitempty"`
	OrderCell  *wire.Place `json:"order_cell,omitempty"`
}

func complaintOf(c *model.Complaint) complaintRow {
	return complaintRow{c.Name, wire.WhenOf(&c.When), wire.PositionName(c.Position), c.Family, wire.OrderOf(c),
		c.Helps, c.Check, c.Source, wire.PlaceOf(c.At), wire.PlaceOf(c.PlaceAt), wire.PlaceOf(c.OrderAt)}
}

// inspectionRow is an Inspections row.
type inspectionRow struct {
	LookAt    string      `json:"what_to_look_at"`
	When      wire.When   `json:"when"`
	Position  string      `json:"position,omitempty"`
	Level     string      `json:"level"`
	Why       string      `json:"why,omitempty"`
	Source    string      `json:"source,omitempty"`
	Cell      *wire.Place `json:"cell,omitempty"`
	PlaceCell *wire.Place `json:"place_cell,omitempty"`
}

func inspectionOf(n *model.Inspection) inspectionRow {
	return inspectionRow{n.Look, wire.WhenOf(&n.When), wire.PositionName(n.Position), n.Level, n.Why, n.Source, wire.PlaceOf(n.At), wire.PlaceOf(n.PlaceAt)}
}

func (r *reader) complaint(in *complaintRow) *model.Complaint {
	out := &model.Complaint{Name: in.Complaint, When: r.when(in.When), Family: in.Family, Helps: in.HowItHelps, Check: in.CheckFirst, Source: in.Source,
		At: r.place(in.Cell), PlaceAt: r.place(in.PlaceCell), OrderAt: r.place(in.OrderCell)}
	if in.Position != "" {
		out.Position = r.position(in.Position)
	}
	if in.Order != "" {
		order, ok := new(big.Rat).SetString(in.Order.String())
		if !ok {
			r.fail("%s is no order of a complaint", in.Order)
		}
		out.Order = model.Number{Rat: order}
	}
	return out
}

func (r *reader) inspection(in *inspectionRow) *model.Inspection {
	out := &model.Inspection{Look: in.LookAt, When: r.when(in.When), Level: in.Level, Why: in.Why, Source: in.Source, At: r.place(in.Cell), PlaceAt: r.place(in.PlaceCell)}
	if in.Position != "" {
		out.Position = r.position(in.Position)
	}
	if !slices.Contains(model.Levels(), in.Level) {
		r.fail("there is no level %q", in.Level)
	}
	return out
}
