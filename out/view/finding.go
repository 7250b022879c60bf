package view

import (
	"fmt"

	"ferrule/compiler/excerpt"
	"ferrule/compiler/finding"
	"ferrule/sheets/cell"
)

// mostBoxes is how many boxes of a finding's vehicles are shown.
const mostBoxes = 5

// Findings is a list of findings.
type Findings struct {
	Summary finding.Summary
	Since   string // the release that they are held against, "" for none
	List    []Finding
	Left    int // how many more there are that are not shown
}

// Finding is one finding.
type Finding struct {
	ID       string // the same wherever its rows move
	Severity finding.Severity
	Code     finding.Code
	Message  string
	Fix      string
	Follows  string
	Cells    []Cell
	Vehicles string   // how many it is about, "" for none
	Where    []string // which
	More     int      // boxes that are not shown
	Example  string
	Accepted string
	Known    bool
	Excerpt  *excerpt.Excerpt // around its first cell; nil where that cannot be shown
}

// Cell is a cell of a finding.
type Cell struct {
	Address string
	Note    string
}

// FindingOf gives a finding as it is shown.
func FindingOf(f *finding.Finding) Finding {
	out := Finding{ID: f.Fingerprint(), Severity: f.Severity, Code: f.Code, Message: f.Message, Fix: f.Fix, Follows: f.Following(), Known: f.Known}
	for _, c := range f.Cells {
		if c.Sheet != nil {
			out.Cells = append(out.Cells, Cell{c.Place.String(), c.Note})
		}
	}
	if a := f.Accepted; a != nil {
		out.Accepted = fmt.Sprintf("accepted by %s: %s (%s)", a.By, a.Reason, a.Cell)
	}
	if f.Region != nil {
		out.vehicles(f.Region.Open())
	}
	return out
}

func (f *Finding) vehicles(r *finding.Region) {
	f.Vehicles = "too irregular to be counted or listed"
	if r.Exact {
		f.Vehicles = amount(r.Configurations, r.OnTheRoad)
	}
	for _, b := range r.Where[:min(len(r.Where), mostBoxes)] {
		f.Where = append(f.Where, b.String())
	}
	f.More = max(0, len(r.Where)-mostBoxes)
	if r.Example != nil {
		f.Example = r.Example.String()
	}
}

// First gives the first cell of a finding; false where it is about none.
func First(f *finding.Finding) (cell.Place, bool) {
	for _, c := range f.Cells {
		if c.Sheet != nil && c.Pos != (cell.Pos{}) {
			return c.Place, true
		}
	}
	return cell.Place{}, false
}
