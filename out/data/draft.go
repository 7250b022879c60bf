package data

import (
	"encoding/json"
	"io"
	"math/big"

	"ferrule/compiler/judge/accept/draft"
	"ferrule/compiler/release/staff"
	"ferrule/compiler/wire"
)

type draftFile struct {
	Rows           []wire.Object   `json:"rows"`
	Accepted       []staff.Finding `json:"accepted"`
	LeftOut        []leftOut       `json:"left_out"`
	Configurations *big.Int        `json:"configurations"`
	OnTheRoad      json.Number     `json:"on_the_road"`
}

// leftOut is a finding that no row accepts.
type leftOut struct {
	Why     string        `json:"why"`
	Finding staff.Finding `json:"finding"`
}

// Draft writes Accepted rows, with the findings that they accept and those left out.
func Draft(w io.Writer, d *draft.Draft) error {
	file := draftFile{Rows: []wire.Object{}, Accepted: []staff.Finding{}, LeftOut: []leftOut{}}
	for _, r := range d.Rows {
		line := wire.Object{}
		for i, text := range r {
			if text != "" {
				line = append(line, wire.Field{Name: d.Columns[i], Value: text})
			}
		}
		file.Rows = append(file.Rows, line)
	}
	for _, e := range d.Entries {
		file.Accepted = append(file.Accepted, staff.FindingOf(e.Finding))
	}
	for _, l := range d.Left {
		file.LeftOut = append(file.LeftOut, leftOut{l.Why, staff.FindingOf(l.Finding)})
	}
	n, road := d.Configurations()
	file.Configurations, file.OnTheRoad = n, wire.Decimal(road)
	return wire.Write(w, file)
}
