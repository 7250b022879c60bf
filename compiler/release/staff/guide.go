package staff

import (
	"encoding/json"
	"io"
	"math/big"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/wire"
	"ferrule/sheets/cell"
)

// guideFile is the guide of one platform with everything.
type guideFile struct {
	wire.Head
	Configurations *big.Int          `json:"configurations"`
	OnTheRoad      json.Number       `json:"on_the_road"`
	Cell           *wire.Place       `json:"cell,omitempty"`
	Vehicles       []vehiclesBox     `json:"vehicles"`
	Positions      []guidePosition   `json:"positions"`
	Compatibility  []guideRule       `json:"compatibility"`
	Complaints     []wire.Complaint  `json:"complaints,omitempty"`
	Inspections    []wire.Inspection `json:"inspections,omitempty"`
}

// vehiclesBox is what a Vehicles row says of one platform. Its traits are all named;
// configurations count the box alone, and rows may overlap. OnTheRoad is the part of
// the row's number that falls to this platform.
type vehiclesBox struct {
	wire.Box
	Configurations *big.Int    `json:"configurations"`
	OnTheRoad      json.Number `json:"on_the_road,omitempty"`
	Note           string      `json:"note,omitempty"`
	Cell           *wire.Place `json:"cell,omitempty"`
}

type guidePosition struct {
	wire.PositionHead
	Coverage       string      `json:"coverage"`
	Exact          *bool       `json:"exact,omitempty"`
	Configurations *big.Int    `json:"configurations,omitempty"`
	Cases          []guideCase `json:"cases"`
	Against        []faulted   `json:"against,omitempty"`
	Cell           *wire.Place `json:"cell,omitempty"`
}

type guideCase struct {
	wire.Case
	Configurations *big.Int     `json:"configurations"`
	Cells          []wire.Place `json:"cells,omitempty"`
}

// faulted is the findings of a code about a part that keep a fit from being settled,
// with the vehicles; Position is left out for those about the platform as a whole.
type faulted struct {
	Code     string     `json:"code"`
	Position string     `json:"position,omitempty"`
	Part     string     `json:"part,omitempty"`
	Where    []wire.Box `json:"where"`
}

type guideRule struct {
	wire.Rule
	Cell *wire.Place `json:"cell,omitempty"`
}

// Guide writes guides/<platform>.json: what is known of one platform, with everything.
func Guide(w io.Writer, c *model.Catalogue, g *decide.Guide) error {
	file := guideFile{
		Head: wire.HeadOf(c, g), Configurations: wire.Whole(g.Configurations), OnTheRoad: wire.Share(g.OnTheRoad),
		Cell:      wire.PlaceOf(g.Platform.At),
		Vehicles:  []vehiclesBox{},
		Positions: wire.Each(g.Answers, guidePositionOf),
		Compatibility: wire.Each(g.Rules, func(r decide.RuleUse) guideRule {
			return guideRule{wire.RuleOf(r), wire.PlaceOf(r.Rule.At)}
		}),
		Complaints: wire.ComplaintsOf(g.Complaints), Inspections: wire.Each(g.Inspections, wire.InspectionOf),
	}
	for _, r := range g.Rows {
		file.Vehicles = append(file.Vehicles, vehiclesBoxOf(r))
	}
	return wire.Write(w, file)
}

func guidePositionOf(a *decide.Answer) guidePosition {
	out := guidePosition{
		PositionHead: wire.PositionOf(a.Position), Coverage: a.Position.Coverage.String(),
		Exact: wire.No(!a.Exact), Cases: make([]guideCase, len(a.Cases)), Cell: wire.PlaceOf(a.Position.At),
	}
	for _, s := range a.Against {
		out.Against = append(out.Against, faulted{string(s.Code), s.Position, s.Part, wire.Boxes(s.Where)})
	}
	if a.Exact {
		out.Configurations = wire.Whole(a.Configurations)
	}
	for i := range a.Cases {
		c := &a.Cases[i]
		out.Cases[i] = guideCase{wire.CaseOf(c), wire.Whole(c.Configurations),
			wire.Places(c.Cells, func(f *model.FitCell) cell.Place { return f.At })}
	}
	return out
}

func vehiclesBoxOf(r decide.RowUse) vehiclesBox {
	out := vehiclesBox{Box: wire.BoxOf(r.Where), Configurations: r.Configurations, Note: r.Row.Note, Cell: wire.PlaceOf(r.Row.At)}
	if r.Road != nil {
		out.OnTheRoad = wire.Decimal(r.Road)
	}
	return out
}
