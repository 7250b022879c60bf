package staff

import (
	"encoding/json"
	"io"
	"math/big"

	"ferrule/compiler/finding"
	"ferrule/compiler/wire"
)

// findingsFile is findings.json.
type findingsFile struct {
	Since    string    `json:"since,omitempty"`
	Findings []Finding `json:"findings"`
	Summary  Summary   `json:"summary"`
}

// Summary counts findings by their severity. Those accepted or known are not among the others.
type Summary struct {
	Error    int `json:"error"`           // that nobody has accepted and no earlier release has
	Warning  int `json:"warning"`         // likewise
	Note     int `json:"note"`            // likewise
	Accepted int `json:"accepted"`        // of any severity
	Known    int `json:"known,omitempty"` // that the earlier release has too
}

// Finding is a finding with all that is known of it. Exact is written where it is false: then
// its vehicles are not listed.
type Finding struct {
	Code           string        `json:"code"`                     // one of the published list
	Severity       string        `json:"severity"`                 // error, warning or note
	Message        string        `json:"message"`                  // a sentence
	Constant       string        `json:"gist,omitempty"`           // the sentence without addresses and counts; left out where it is the same
	Platform       string        `json:"platform,omitempty"`       // by name; "" for none in particular
	Position       string        `json:"position,omitempty"`       // by name; "" for none in particular
	Part           string        `json:"part,omitempty"`           // its number; "" for none in particular
	Exact          *bool         `json:"exact,omitempty"`          // false: its vehicles could not be worked out
	Configurations *big.Int      `json:"configurations,omitempty"` // how many vehicles it is about, one of each kind
	OnTheRoad      json.Number   `json:"on_the_road,omitempty"`    // how many of these are on the road
	Where          []wire.Box    `json:"where,omitempty"`          // these vehicles
	Rest           *big.Int      `json:"rest,omitempty"`           // how many of them Where leaves out
	Example        *wire.Example `json:"example,omitempty"`        // one of them
	Cells          []wire.Place  `json:"cells,omitempty"`          // those that cause it, the most telling first
	Fix            string        `json:"fix,omitempty"`            // what to do about it
	Repair         *Repair       `json:"repair,omitempty"`         // what may be written in place of a cell, where one reading is left
	Follows        []follow      `json:"follows,omitempty"`        // what is only there because of it, counted by code
	Known          bool          `json:"known,omitempty"`          // the earlier release has it too
	Accepted       *Accepted     `json:"accepted,omitempty"`       // who has accepted it; nil: nobody
}

// Repair is a text to write in place of what a cell holds, for a person to take or to leave.
type Repair struct {
	Cell wire.Place `json:"cell"`
	Old  string     `json:"old"` // what it holds
	New  string     `json:"new"` // what would be written
	Why  string     `json:"why"` // why nothing else can be meant
}

// RepairOf gives a repair as files of the staff and answers hold it.
func RepairOf(r *finding.Repair) *Repair {
	return &Repair{CellsOf(finding.At(r.At))[0], r.Old, r.New, r.Why}
}

type follow struct {
	Code  string `json:"code"`
	Count int    `json:"count"`
}

// Accepted is who has accepted something and why, with the cell that says so.
type Accepted struct {
	Reason string      `json:"reason"`          // why
	By     string      `json:"by"`              // who answers for it
	Until  string      `json:"until,omitempty"` // last day, as 2027-12-31; "" for ever
	Cell   *wire.Place `json:"cell,omitempty"`  // of the Accepted row
}

// Findings writes findings.json: all findings in the order given, each as it is come to, with
// a summary. since is the release that they were held against, "" for none.
func Findings(w io.Writer, fs []*finding.Finding, since string) error {
	file := findingsFile{Since: since, Findings: []Finding{}, Summary: SummaryOf(finding.Summarise(fs))}
	return wire.WriteAround(w, file, wire.ListOf("findings", fs, FindingOf))
}

// SummaryOf puts counts of findings as JSON.
func SummaryOf(s finding.Summary) Summary {
	return Summary{s.Errors, s.Warnings, s.Notes, s.Accepted, s.Known}
}

// FindingOf puts a finding as JSON.
func FindingOf(f *finding.Finding) Finding {
	out := Finding{
		Code: string(f.Code), Severity: f.Severity.String(), Message: f.Message, Constant: f.Constant,
		Platform: f.Platform, Position: f.Position, Part: f.Part,
		Cells: CellsOf(f.Cells), Fix: f.Fix, Known: f.Known, Accepted: AcceptedOf(f.Accepted),
	}
	if f.Repair != nil {
		out.Repair = RepairOf(f.Repair)
	}
	for _, x := range f.Follows {
		out.Follows = append(out.Follows, follow{string(x.Code), x.Count})
	}
	if r := f.Region.Open(); r != nil {
		out.Example = wire.ExampleOf(r.Example)
		out.Exact = wire.No(!r.Exact)
		if r.Exact {
			out.Configurations, out.OnTheRoad = r.Configurations, wire.Decimal(r.OnTheRoad)
			out.Where, out.Rest = wire.Boxes(r.Where), r.Rest
		}
	}
	return out
}

// AcceptedOf gives nil for what nobody has accepted.
func AcceptedOf(a *finding.Accepted) *Accepted {
	if a == nil {
		return nil
	}
	return &Accepted{a.Reason, a.By, a.Until, wire.PlaceOf(a.Cell)}
}

// CellsOf gives the cells of a finding with their notes, without places in no file.
func CellsOf(cells []finding.Cell) []wire.Place {
	var out []wire.Place
	for _, c := range cells {
		if p := wire.PlaceOf(c.Place); p != nil {
			p.Note = c.Note
			out = append(out, *p)
		}
	}
	return out
}
