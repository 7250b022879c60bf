package staff

import (
	"encoding/json"

	"ferrule/compiler/model"
	"ferrule/compiler/wire"
)

// vehiclesRow is a Vehicles row; its traits are all named.
type vehiclesRow struct {
	When          wire.When   `json:"when"`
	OnTheRoad     json.Number `json:"on_the_road,omitempty"`
	Note          string      `json:"note,omitempty"`
	Cell          *wire.Place `json:"cell,omitempty"`
	OnTheRoadCell *wire.Place `json:"on_the_road_cell,omitempty"`
}

func vehiclesRowOf(v *model.Vehicles) vehiclesRow {
	return vehiclesRow{wire.WhenOf(&v.When), wire.Decimal(v.Road.Rat), v.Note, wire.PlaceOf(v.At), wire.PlaceOf(v.RoadAt)}
}

// breakRow is a Breaks row. Its value is written like a condition on its trait alone.
type breakRow struct {
	Value  wire.When   `json:"value"`
	When   wire.When   `json:"when"`
	Source string      `json:"source,omitempty"`
	Note   string      `json:"note,omitempty"`
	Cell   *wire.Place `json:"cell,omitempty"`
}

func breakOf(b *model.Break) breakRow {
	return breakRow{wire.WhenOf(&model.When{Traits: []model.TraitSet{b.Value}}), wire.WhenOf(&b.When), b.Source, b.Note, wire.PlaceOf(b.At)}
}

type declaredPosition struct {
	wire.PositionHead
	Coverage string        `json:"coverage"`
	Picture  string        `json:"picture,omitempty"`
	Rows     []positionRow `json:"rows"`
	Cell     *wire.Place   `json:"cell,omitempty"`
}

type positionRow struct {
	When        wire.When   `json:"when"`
	Quantity    int         `json:"quantity"`
	AirLine     string      `json:"air_line,omitempty"`
	Cell        *wire.Place `json:"cell,omitempty"`
	AirLineCell *wire.Place `json:"air_line_cell,omitempty"`
}

func declaredPositionOf(p *model.Position) declaredPosition {
	return declaredPosition{wire.PositionOf(p), p.Coverage.String(), p.Picture.Name,
		wire.Each(p.Rows, positionRowOf), wire.PlaceOf(p.At)}
}

func positionRowOf(r *model.PositionRow) positionRow {
	out := positionRow{wire.WhenOf(&r.When), r.Quantity, "", wire.PlaceOf(r.At), wire.PlaceOf(r.LineAt)}
	if r.AirLine != nil {
		out.AirLine = r.AirLine.Name
	}
	return out
}

type part struct {
	Part           string      `json:"part"`
	Name           string      `json:"name,omitempty"`
	Family         string      `json:"family,omitempty"`
	Status         string      `json:"status"`
	ReplacedBy     *wire.Fits  `json:"replaced_by,omitempty"`
	LineSize       string      `json:"line_size,omitempty"`
	Properties     []property  `json:"properties,omitempty"`
	Notes          []note      `json:"cautions,omitempty"`
	Summary        string      `json:"summary,omitempty"`
	Picture        string      `json:"picture,omitempty"`
	Unknown        bool        `json:"unknown,omitempty"` // nothing declares the number
	Cell           *wire.Place `json:"cell,omitempty"`
	StatusCell     *wire.Place `json:"status_cell,omitempty"`
	LineSizeCell   *wire.Place `json:"line_size_cell,omitempty"`
	ReplacedByCell *wire.Place `json:"replaced_by_cell,omitempty"`
	FamilyCell     *wire.Place `json:"family_cell,omitempty"`
}

// property is a property as the staff may see it. Builds that know of no internal
// ones have published all of them.
type property struct {
	wire.Property
	Internal bool        `json:"internal,omitempty"` // for the staff alone
	Cell     *wire.Place `json:"cell,omitempty"`
}

func partOf(p *model.Part) part {
	out := part{
		Part: p.Number, Name: p.Name, Family: p.Family, Status: p.Status.String(),
		ReplacedBy: wire.FitsOf(p.ReplacedBy), Notes: notesOf(p.Cautions),
		Summary: p.Summary, Picture: p.Picture.Name, Unknown: !p.Known,
		Cell: wire.PlaceOf(p.At), StatusCell: wire.PlaceOf(p.StatusAt), LineSizeCell: wire.PlaceOf(p.LineAt),
		ReplacedByCell: wire.PlaceOf(p.ReplacedAt), FamilyCell: wire.PlaceOf(p.FamilyAt),
	}
	if p.Line != nil {
		out.LineSize = p.Line.Text
	}
	for _, q := range p.Properties {
		out.Properties = append(out.Properties, property{wire.PropertyOf(&q), !q.Public, wire.PlaceOf(q.At)})
	}
	return out
}

// note is a text of its own or, with Caution, the key of one from the Cautions sheet.
type note struct {
	Text    string `json:"text,omitempty"`
	Caution string `json:"caution,omitempty"`
}

func notesOf(notes []model.Note) []note {
	return wire.Each(notes, func(n model.Note) note {
		if n.Caution != nil {
			return note{Caution: n.Caution.Key}
		}
		return note{Text: n.Text}
	})
}

type fitment struct {
	When       wire.When   `json:"when"`
	Precedence int         `json:"precedence"`
	Notes      []note      `json:"notes,omitempty"`
	Cells      []fitCell   `json:"cells"`
	Cell       *wire.Place `json:"cell,omitempty"`
}

// fitCell is what a fitment cell says; quantities stand only where the cell gives
// them.
type fitCell struct {
	Position string `json:"position"`
	wire.Fits
	Notes []note      `json:"notes,omitempty"`
	Cell  *wire.Place `json:"cell,omitempty"`
}

func fitmentOf(f *model.Fitment) fitment {
	return fitment{wire.WhenOf(&f.When), f.Precedence, notesOf(f.Notes.All()), wire.Each(f.Cells, fitCellOf), wire.PlaceOf(f.At)}
}

func fitCellOf(c *model.FitCell) fitCell {
	return fitCell{wire.PositionName(c.Position), *wire.FitsOf(c.Fits), notesOf(c.Notes.All()), wire.PlaceOf(c.At)}
}

type compatibility struct {
	Part     string      `json:"part,omitempty"`
	Family   string      `json:"family,omitempty"`
	With     string      `json:"with,omitempty"`
	When     wire.When   `json:"when"`
	Effect   string      `json:"effect"`
	Reason   string      `json:"reason"`
	Cell     *wire.Place `json:"cell,omitempty"`
	PartCell *wire.Place `json:"part_cell,omitempty"`
	WithCell *wire.Place `json:"with_cell,omitempty"`
}

func compatibilityOf(r *model.Rule) compatibility {
	return compatibility{wire.PartNumber(r.Part), r.Family, wire.PartNumber(r.With), wire.WhenOf(&r.When),
		r.Effect.String(), r.Reason, wire.PlaceOf(r.At), wire.PlaceOf(r.PartAt), wire.PlaceOf(r.WithAt)}
}

type acceptance struct {
	Finding   string      `json:"finding"`
	When      wire.When   `json:"when"`
	Position  string      `json:"position,omitempty"`
	Part      string      `json:"part,omitempty"`
	Reason    string      `json:"reason"`
	By        string      `json:"by"`
	Until     string      `json:"until,omitempty"`
	Cell      *wire.Place `json:"cell,omitempty"`
	UntilCell *wire.Place `json:"until_cell,omitempty"`
}

func acceptanceOf(a *model.Acceptance) acceptance {
	return acceptance{a.Code, wire.WhenOf(&a.When), wire.PositionName(a.Position), wire.PartNumber(a.Part),
		a.Reason, a.By, a.Until, wire.PlaceOf(a.At), wire.PlaceOf(a.UntilAt)}
}
