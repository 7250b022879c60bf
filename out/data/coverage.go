package data

import (
	"encoding/json"
	"io"
	"math/big"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/wire"
)

type platformCoverage struct {
	Platform       string             `json:"platform"`
	Configurations *big.Int           `json:"configurations"`
	OnTheRoad      json.Number        `json:"on_the_road"`
	Positions      []positionCoverage `json:"positions"`
}

// positionCoverage holds the six counts, which add up to Configurations. Where the
// position is too irregular to be counted, Exact is false and they are left out.
type positionCoverage struct {
	Position       string   `json:"position"`
	Exact          *bool    `json:"exact,omitempty"`
	Configurations *big.Int `json:"configurations,omitempty"`
	Fitted         *big.Int `json:"fitted,omitempty"`
	None           *big.Int `json:"none,omitempty"`
	Planned        *big.Int `json:"planned,omitempty"`
	Ask            *big.Int `json:"ask,omitempty"`
	Conflict       *big.Int `json:"conflict,omitempty"`
	Gap            *big.Int `json:"gap,omitempty"`
	OnTheRoad      *roads   `json:"on_the_road,omitempty"`
}

type roads struct {
	Fitted   json.Number `json:"fitted"`
	None     json.Number `json:"none"`
	Planned  json.Number `json:"planned"`
	Ask      json.Number `json:"ask"`
	Conflict json.Number `json:"conflict"`
	Gap      json.Number `json:"gap"`
}

// Coverage writes coverage.json: for every platform and position, how many
// configurations there are of each outcome, and how many are on the road.
func Coverage(w io.Writer, guides []*decide.Packed) error {
	return wire.WriteList(w, wire.ListOf("platforms", guides, func(g *decide.Packed) platformCoverage { return platformCoverageOf(g.Outline()) }))
}

func platformCoverageOf(g *decide.Guide) platformCoverage {
	return platformCoverage{g.Platform.Name, wire.Whole(g.Configurations), wire.Share(g.OnTheRoad), wire.Each(g.Answers, positionCoverageOf)}
}

func positionCoverageOf(a *decide.Answer) positionCoverage {
	out := positionCoverage{Position: a.Position.Name, Exact: wire.No(!a.Exact)}
	if !a.Exact {
		return out
	}
	count := func(o model.Outcome) *big.Int { return wire.Whole(a.Counts[o]) }
	road := func(o model.Outcome) json.Number { return wire.Share(a.Road[o]) }
	out.Configurations = wire.Whole(a.Configurations)
	out.Fitted, out.None, out.Planned = count(model.Fitted), count(model.None), count(model.Planned)
	out.Ask, out.Conflict, out.Gap = count(model.Ask), count(model.Conflict), count(model.Gap)
	out.OnTheRoad = &roads{road(model.Fitted), road(model.None), road(model.Planned),
		road(model.Ask), road(model.Conflict), road(model.Gap)}
	return out
}
