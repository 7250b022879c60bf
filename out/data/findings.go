package data

import (
	"encoding/json"
	"io"
	"math/big"

	"ferrule/compiler/finding"
)

type findingsFile struct {
	Since    string  `json:"since,omitempty"`
	Findings []found `json:"findings"`
	Summary  summary `json:"summary"`
}

type summary struct {
	Error    int `json:"error"`
	Warning  int `json:"warning"`
	Note     int `json:"note"`
	Accepted int `json:"accepted"`
	Known    int `json:"known,omitempty"`
}

type found struct {
	Code           string      `json:"code"`
	Severity       string      `json:"severity"`
	Message        string      `json:"message"`
	Gist           string      `json:"gist,omitempty"`
	Platform       string      `json:"platform,omitempty"`
	Position       string      `json:"position,omitempty"`
	Part           string      `json:"part,omitempty"`
	Exact          *bool       `json:"exact,omitempty"`
	Configurations *big.Int    `json:"configurations,omitempty"`
	OnTheRoad      json.Number `json:"on_the_road,omitempty"`
	Where          []box       `json:"where,omitempty"`
	Rest           *big.Int    `json:"rest,omitempty"`
	Example        *example    `json:"example,omitempty"`
	Cells          []place     `json:"cells,omitempty"`
	Fix            string      `json:"fix,omitempty"`
	Follows        []follow    `json:"follows,omitempty"`
	Known          bool        `json:"known,omitempty"`
	Accepted       *accepted   `json:"accepted,omitempty"`
}

type follow struct {
	Code  string `json:"code"`
	Count int    `json:"count"`
}

type accepted struct {
	Reason string `json:"reason"`
	By     string `json:"by"`
	Until  string `json:"until,omitempty"`
	Cell   *place `json:"cell,omitempty"`
}

// Findings writes findings.json: all findings in the order given, with a summary. since
// is the release that they were held against, "" for none.
func Findings(w io.Writer, fs []*finding.Finding, since string) error {
	s := finding.Summarise(fs)
	file := findingsFile{
		Since:    since,
		Findings: make([]found, len(fs)),
		Summary:  summaryOf(s),
	}
	for i, f := range fs {
		file.Findings[i] = foundOf(f)
	}
	return write(w, file)
}

func summaryOf(s finding.Summary) summary {
	return summary{s.Errors, s.Warnings, s.Notes, s.Accepted, s.Known}
}

// FindingLines writes one finding a line, as Findings has it.
func FindingLines(w io.Writer, fs []*finding.Finding) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	for _, f := range fs {
		if err := e.Encode(foundOf(f)); err != nil {
			return err
		}
	}
	return nil
}

func foundOf(f *finding.Finding) found {
	out := found{
		Code: string(f.Code), Severity: f.Severity.String(), Message: f.Message, Gist: f.Gist,
		Platform: f.Platform, Position: f.Position, Part: f.Part,
		Cells: foundCells(f.Cells), Fix: f.Fix, Known: f.Known,
	}
	for _, x := range f.Follows {
		out.Follows = append(out.Follows, follow{string(x.Code), x.Count})
	}
	if a := f.Accepted; a != nil {
		out.Accepted = &accepted{a.Reason, a.By, a.Until, placeOf(a.Cell)}
	}
	if r := f.Region; r != nil {
		out.Example = exampleOf(r.Example)
		out.Exact = no(!r.Exact)
		if r.Exact {
			out.Configurations, out.OnTheRoad = r.Configurations, decimal(r.OnTheRoad)
			out.Where, out.Rest = boxes(r.Where), r.Rest
		}
	}
	return out
}

// foundCells leaves out places in no file.
func foundCells(cells []finding.Cell) []place {
	var out []place
	for _, c := range cells {
		if p := placeOf(c.Place); p != nil {
			p.Note = c.Note
			out = append(out, *p)
		}
	}
	return out
}
