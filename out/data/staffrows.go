package data

import (
	"encoding/json"

	"ferrule/compiler/model"
)

// vehiclesRow is a Vehicles row; its traits are all named.
type vehiclesRow struct {
	When          when        `json:"when"`
	OnTheRoad     json.Number `json:"on_the_road,omitempty"`
	Note          string      `json:"note,omitempty"`
	Cell          *place      `json:"cell,omitempty"`
	OnTheRoadCell *place      `json:"on_the_road_cell,omitempty"`
}

func vehiclesRowOf(v *model.Vehicles) vehiclesRow {
	return vehiclesRow{whenOf(&v.When), decimal(v.Road.Rat), v.Note, placeOf(v.At), placeOf(v.RoadAt)}
}

type declaredPosition struct {
	positionHead
	Coverage string        `json:"coverage"`
	Picture  string        `json:"picture,omitempty"`
	Rows     []positionRow `json:"rows"`
	Cell     *place        `json:"cell,omitempty"`
}

type positionRow struct {
	When        when   `json:"when"`
	Quantity    int    `json:"quantity"`
	AirLine     string `json:"air_line,omitempty"`
	Cell        *place `json:"cell,omitempty"`
	AirLineCell *place `json:"air_line_cell,omitempty"`
}

func declaredPositionOf(p *model.Position) declaredPosition {
	return declaredPosition{positionOf(p), p.Coverage.String(), p.Picture.Name,
		each(p.Rows, positionRowOf), placeOf(p.At)}
}

func positionRowOf(r *model.PositionRow) positionRow {
	out := positionRow{whenOf(&r.When), r.Quantity, "", placeOf(r.At), placeOf(r.LineAt)}
	if r.AirLine != nil {
		out.AirLine = r.AirLine.Name
	}
	return out
}

type staffPart struct {
	Part           string          `json:"part"`
	Name           string          `json:"name,omitempty"`
	Family         string          `json:"family,omitempty"`
	Status         string          `json:"status"`
	ReplacedBy     *fits           `json:"replaced_by,omitempty"`
	LineSize       string          `json:"line_size,omitempty"`
	Properties     []staffProperty `json:"properties,omitempty"`
	Notes          []note          `json:"cautions,omitempty"`
	Summary        string          `json:"summary,omitempty"`
	Picture        string          `json:"picture,omitempty"`
	Unknown        bool            `json:"unknown,omitempty"` // nothing declares the number
	Cell           *place          `json:"cell,omitempty"`
	StatusCell     *place          `json:"status_cell,omitempty"`
	LineSizeCell   *place          `json:"line_size_cell,omitempty"`
	ReplacedByCell *place          `json:"replaced_by_cell,omitempty"`
	FamilyCell     *place          `json:"family_cell,omitempty"`
}

// staffProperty is a property as the staff may see it. Builds that know of no internal
// ones have published all of them.
type staffProperty struct {
	property
	Internal bool   `json:"internal,omitempty"` // for the staff alone
	Cell     *place `json:"cell,omitempty"`
}

func staffPartOf(p *model.Part) staffPart {
	out := staffPart{
		Part: p.Number, Name: p.Name, Family: p.Family, Status: p.Status.String(),
		ReplacedBy: fitsOf(p.ReplacedBy), Notes: notesOf(p.Cautions),
		Summary: p.Summary, Picture: p.Picture.Name, Unknown: !p.Known,
		Cell: placeOf(p.At), StatusCell: placeOf(p.StatusAt), LineSizeCell: placeOf(p.LineAt),
		ReplacedByCell: placeOf(p.ReplacedAt), FamilyCell: placeOf(p.FamilyAt),
	}
	if p.Line != nil {
		out.LineSize = p.Line.Text
	}
	for _, q := range p.Properties {
		out.Properties = append(out.Properties, staffProperty{propertyOf(&q), !q.Public, placeOf(q.At)})
	}
	return out
}

// note is a text of its own or, with Caution, the key of one from the Cautions sheet.
type note struct {
	Text    string `json:"text,omitempty"`
	Caution string `json:"caution,omitempty"`
}

func notesOf(notes []model.Note) []note {
	return each(notes, func(n model.Note) note {
		if n.Caution != nil {
			return note{Caution: n.Caution.Key}
		}
		return note{Text: n.Text}
	})
}

type fitment struct {
	When       when      `json:"when"`
	Precedence int       `json:"precedence"`
	Notes      []note    `json:"notes,omitempty"`
	Cells      []fitCell `json:"cells"`
	Cell       *place    `json:"cell,omitempty"`
}

// fitCell is what a fitment cell says; quantities stand only where the cell gives
// them.
type fitCell struct {
	Position string `json:"position"`
	fits
	Notes []note `json:"notes,omitempty"`
	Cell  *place `json:"cell,omitempty"`
}

func fitmentOf(f *model.Fitment) fitment {
	return fitment{whenOf(&f.When), f.Precedence, notesOf(f.Notes), each(f.Cells, fitCellOf), placeOf(f.At)}
}

func fitCellOf(c *model.FitCell) fitCell {
	return fitCell{positionName(c.Position), *fitsOf(c.Fits), notesOf(c.Notes), placeOf(c.At)}
}

type compatibility struct {
	Part     string `json:"part,omitempty"`
	Family   string `json:"family,omitempty"`
	With     string `json:"with,omitempty"`
	When     when   `json:"when"`
	Effect   string `json:"effect"`
	Reason   string `json:"reason"`
	Cell     *place `json:"cell,omitempty"`
	PartCell *place `json:"part_cell,omitempty"`
	WithCell *place `json:"with_cell,omitempty"`
}

func compatibilityOf(r *model.Rule) compatibility {
	return compatibility{partNumber(r.Part), r.Family, partNumber(r.With), whenOf(&r.When),
		r.Effect.String(), r.Reason, placeOf(r.At), placeOf(r.PartAt), placeOf(r.WithAt)}
}

type acceptance struct {
	Finding   string `json:"finding"`
	When      when   `json:"when"`
	Position  string `json:"position,omitempty"`
	Part      string `json:"part,omitempty"`
	Reason    string `json:"reason"`
	By        string `json:"by"`
	Until     string `json:"until,omitempty"`
	Cell      *place `json:"cell,omitempty"`
	UntilCell *place `json:"until_cell,omitempty"`
}

func acceptanceOf(a *model.Acceptance) acceptance {
	return acceptance{a.Code, whenOf(&a.When), positionName(a.Position), partNumber(a.Part),
		a.Reason, a.By, a.Until, placeOf(a.At), placeOf(a.UntilAt)}
}
