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
	Error    int `json:"error"`
	Warning  int `json:"warning"`
	Note     int `json:"note"`
	Accepted int `json:"accepted"`
	Known    int `json:"known,omitempty"`
}

// Finding is a finding with all that is known of it. Exact is written where it is false: then
// its vehicles are not listed.
type Finding struct {
	Code           string        `json:"code"`
	Severity       string        `json:"severity"`
	Message        string        `json:"message"`
	Gist           string        `json:"gist,omitempty"`
	Platform       string        `json:"platform,omitempty"`
	Position       string        `json:"position,omitempty"`
	Part           string        `json:"part,omitempty"`
	Exact          *bool         `json:"exact,omitempty"`
	Configurations *big.Int      `json:"configurations,omitempty"`
	OnTheRoad      json.Number   `json:"on_the_road,omitempty"`
	Where          []wire.Box    `json:"where,omitempty"`
	Rest           *big.Int      `json:"rest,omitempty"`
	Example        *wire.Example `json:"example,omitempty"`
	Cells          []wire.Place  `json:"cells,omitempty"`
	Fix            string        `json:"fix,omitempty"`
	Follows        []follow      `json:"follows,omitempty"`
	Known          bool          `json:"known,omitempty"`
	Accepted       *Accepted     `json:"accepted,omitempty"`
}

type follow struct {
	Code  string `json:"code"`
	Count int    `json:"count"`
}

// Accepted is who has accepted something and why, with the cell that says so.
type Accepted struct {
	Reason string      `json:"reason"`
	By     string      `json:"by"`
	Until  string      `json:"until,omitempty"`
	Cell   *wire.Place `json:"cell,omitempty"`
}

// Findings writes findings.json: all findings in the order given, with a summary. since
// is the release that they were held against, "" for none.
func Findings(w io.Writer, fs []*finding.Finding, since string) error {
	s := finding.Summarise(fs)
	file := findingsFile{
		Since:    since,
		Findings: make([]Finding, len(fs)),
		Summary:  SummaryOf(s),
	}
	for i, f := range fs {
		file.Findings[i] = FindingOf(f)
	}
	return wire.Write(w, file)
}

// SummaryOf puts counts of findings as JSON.
func SummaryOf(s finding.Summary) Summary {
	return Summary{s.Errors, s.Warnings, s.Notes, s.Accepted, s.Known}
}

// FindingOf puts a finding as JSON.
func FindingOf(f *finding.Finding) Finding {
	out := Finding{
		Code: string(f.Code), Severity: f.Severity.String(), Message: f.Message, Gist: f.Gist,
		Platform: f.Platform, Position: f.Position, Part: f.Part,
		Cells: CellsOf(f.Cells), Fix: f.Fix, Known: f.Known, Accepted: AcceptedOf(f.Accepted),
	}
	for _, x := range f.Follows {
		out.Follows = append(out.Follows, follow{string(x.Code), x.Count})
	}
	if r := f.Region; r != nil {
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
