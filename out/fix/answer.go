package fix

import (
	"io"

	"ferrule/compiler/finding"
	"ferrule/compiler/release/staff"
	"ferrule/compiler/wire"
)

type answer struct {
	Repairs []repairOf `json:"repairs"`
}

type repairOf struct {
	Codes []finding.Code `json:"codes"`
	*staff.Repair
	Dropped string `json:"dropped,omitempty"`
}

// JSON writes repairs, those that are dropped with why.
func JSON(w io.Writer, all []*Proposal) error {
	a := answer{Repairs: []repairOf{}}
	for _, p := range all {
		a.Repairs = append(a.Repairs, repairOf{p.Codes, staff.RepairOf(p.Repair), p.Dropped})
	}
	return wire.Write(w, a)
}
