package data

import (
	"encoding/json"
	"io"
	"math/big"

	"ferrule/compiler/judge/accept/draft"
)

type draftFile struct {
	Rows           []object    `json:"rows"`
	Accepted       []found     `json:"accepted"`
	LeftOut        []leftOut   `json:"left_out"`
	Configurations *big.Int    `json:"configurations"`
	OnTheRoad      json.Number `json:"on_the_road"`
}

// leftOut is a finding that no row accepts.
type leftOut struct {
	Why     string `json:"why"`
	Finding found  `json:"finding"`
}

// Draft writes Accepted rows, with the findings that they accept and those left out.
func Draft(w io.Writer, d *draft.Draft) error {
	file := draftFile{Rows: []object{}, Accepted: []found{}, LeftOut: []leftOut{}}
	for _, r := range d.Rows {
		line := object{}
		for i, text := range r {
			if text != "" {
				line = append(line, field{d.Columns[i], text})
			}
		}
		file.Rows = append(file.Rows, line)
	}
	for _, e := range d.Entries {
		file.Accepted = append(file.Accepted, foundOf(e.Finding))
	}
	for _, l := range d.Left {
		file.LeftOut = append(file.LeftOut, leftOut{l.Why, foundOf(l.Finding)})
	}
	n, road := d.Configurations()
	file.Configurations, file.OnTheRoad = n, decimal(road)
	return write(w, file)
}
