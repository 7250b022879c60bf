package data

import (
	"ferrule/compiler/release/compare"
	"ferrule/compiler/release/staff"
	"ferrule/compiler/wire"
	"ferrule/sheets/cell"
)

// diffLoss is something that protects no more, or less.
type diffLoss struct {
	Sheet    string          `json:"sheet"`
	Was      string          `json:"was"`
	Now      string          `json:"now,omitempty"`
	Rows     []string        `json:"rows,omitempty"`
	Parts    []string        `json:"parts,omitempty"`
	Part     string          `json:"part,omitempty"`
	Position string          `json:"position,omitempty"`
	Vehicles []diffBare      `json:"vehicles,omitempty"`
	Old      []wire.Place    `json:"old,omitempty"`
	New      []wire.Place    `json:"new,omitempty"`
	Accepted *staff.Accepted `json:"accepted,omitempty"`
}

// diffBare is vehicles of a platform; without a region, too irregular to be compared.
type diffBare struct {
	Platform string `json:"platform"`
	*diffRegion
}

func diffLossOf(l compare.Loss) diffLoss {
	same := func(p cell.Place) cell.Place { return p }
	out := diffLoss{Sheet: l.Sheet, Was: l.Was, Now: l.Now, Rows: l.Rows, Parts: l.Parts, Part: l.Part, Position: l.Position,
		Old: wire.Places(l.Old, same), New: wire.Places(l.New, same), Accepted: staff.AcceptedOf(l.Accepted)}
	for _, b := range l.Where {
		bare := diffBare{Platform: b.Platform}
		if b.Region != nil {
			r := diffRegionOf(b.Region)
			bare.diffRegion = &r
		}
		out.Vehicles = append(out.Vehicles, bare)
	}
	return out
}
