package data

import (
	"encoding/json"
	"io"
	"math/big"

	"ferrule/compiler/ask/exist"
	"ferrule/compiler/wire"
)

// vehiclesFile is what exists.
type vehiclesFile struct {
	Platforms []existing `json:"platforms"`
}

type existing struct {
	Platform       string        `json:"platform"`
	Sheets         sheetRows     `json:"sheets"`
	Exact          *bool         `json:"exact,omitempty"`
	Configurations *big.Int      `json:"configurations,omitempty"`
	OnTheRoad      json.Number   `json:"on_the_road,omitempty"`
	Has            wire.Object   `json:"has,omitempty"`
	Rows           []existingRow `json:"rows,omitempty"`
	Proposal       *proposal     `json:"proposal,omitempty"`
	NotProposed    string        `json:"not_proposed,omitempty"`
}

// sheetRows counts rows of both sheets.
type sheetRows struct {
	Vehicles int `json:"vehicles"`
	Breaks   int `json:"breaks"`
}

type existingRow struct {
	Where          wire.Box    `json:"where"`
	Configurations *big.Int    `json:"configurations"`
	OnTheRoad      json.Number `json:"on_the_road"`
}

// proposal is rows that say the same, by column.
type proposal struct {
	Vehicles []exist.Cells `json:"vehicles"`
	Breaks   []exist.Cells `json:"breaks"`
	Even     bool          `json:"on_the_road_as_before"`
}

// Vehicles writes what exists.
func Vehicles(w io.Writer, list []exist.Platform) error {
	return wire.Write(w, vehiclesFile{wire.Each(list, func(p exist.Platform) existing { return existingOf(&p) })})
}

// Proposals writes which fewer rows say the same.
func Proposals(w io.Writer, list []exist.Proposal) error {
	return wire.Write(w, vehiclesFile{wire.Each(list, func(p exist.Proposal) existing {
		out := existingOf(&p.Platform)
		out.NotProposed = p.Why
		if p.Why == "" {
			out.Proposal = &proposal{p.Vehicles, append([]exist.Cells{}, p.Breaks...), p.Even}
		}
		return out
	})})
}

func existingOf(p *exist.Platform) existing {
	out := existing{Platform: p.Platform.Name, Sheets: sheetRows{len(p.Vehicles), len(p.Breaks)}, Exact: wire.No(!p.Exact)}
	if !p.Exact {
		return out
	}
	out.Configurations, out.OnTheRoad, out.Has = p.Configurations, wire.Share(p.OnTheRoad), wire.TraitSets(p.Has)
	for _, r := range p.Rows {
		out.Rows = append(out.Rows, existingRow{wire.BoxOf(r.Where), r.Configurations, wire.Share(r.OnTheRoad)})
	}
	return out
}
