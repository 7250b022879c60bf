package report

import (
	"io"
	"net/url"
	"strconv"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/kinds"
	"ferrule/compiler/wire"
	"ferrule/sheets/cell"
)

// sarif writes the Static Analysis Results Interchange Format, version 2.1.0 (OASIS),
// which code hosts show beside a change. A cell is a logical location; the workbook is
// the physical one, since a workbook has no lines.
type sarif struct{}

type sarifLog struct {
	Schema  string     `json:"$schema"`
	Version string     `json:"version"`
	Runs    []sarifRun `json:"runs"`
}

type sarifRun struct {
	Tool struct {
		Driver sarifDriver `json:"driver"`
	} `json:"tool"`
	Results []sarifResult `json:"results"`
}

type sarifDriver struct {
	Name  string      `json:"name"`
	Rules []sarifRule `json:"rules"`
}

type sarifRule struct {
	ID    string    `json:"id"`
	Short sarifText `json:"shortDescription"`
	Full  sarifText `json:"fullDescription"`
	Help  sarifText `json:"help"`
}

type sarifText struct {
	Text string `json:"text"`
}

type sarifResult struct {
	RuleID       string            `json:"ruleId"`
	RuleIndex    int               `json:"ruleIndex"`
	Level        string            `json:"level"`
	Message      sarifText         `json:"message"`
	Locations    []sarifLocation   `json:"locations,omitempty"`
	Related      []sarifLocation   `json:"relatedLocations,omitempty"`
	Fingerprints map[string]string `json:"partialFingerprints"`
	Baseline     string            `json:"baselineState,omitempty"`
	// Suppressions are never null: either all results of a run have them or none (3.27.23).
	Suppressions []sarifSuppression `json:"suppressions"`
}

type sarifLocation struct {
	Physical struct {
		Artifact struct {
			URI string `json:"uri"`
		} `json:"artifactLocation"`
	} `json:"physicalLocation"`
	Logical []sarifLogical `json:"logicalLocations,omitempty"`
	Message *sarifText     `json:"message,omitempty"`
}

type sarifLogical struct {
	Name string `json:"name"`
	Full string `json:"fullyQualifiedName"`
	Kind string `json:"kind"`
}

type sarifSuppression struct {
	Kind          string `json:"kind"`
	Status        string `json:"status"`
	Justification string `json:"justification"`
}

func (sarif) Format(w io.Writer, r *compiler.Result) error {
	run := sarifRun{Results: []sarifResult{}}
	run.Tool.Driver = sarifDriver{Name: "ferrule", Rules: sarifRules(r.Findings)}
	index := map[string]int{}
	for i, rule := range run.Tool.Driver.Rules {
		index[rule.ID] = i
	}
	seen := map[string]int{}
	results := wire.ListOf("results", r.Findings, func(f *finding.Finding) sarifResult {
		result := sarifResultOf(f)
		result.RuleIndex = index[result.RuleID]
		if r.Since != "" {
			result.Baseline = sarifBaseline(f)
		}
		mark := f.Fingerprint()
		seen[mark]++
		result.Fingerprints = map[string]string{"ferrule/v1": mark + ":" + strconv.Itoa(seen[mark])}
		return result
	})
	return wire.WriteAround(w, sarifLog{"https://json.schemastore.org/sarif-2.1.0.json", "2.1.0", []sarifRun{run}}, results)
}

// sarifRules describes the codes that occur, in alphabetical order.
func sarifRules(fs []*finding.Finding) []sarifRule {
	used := map[finding.Code]bool{}
	for _, f := range fs {
		used[f.Code] = true
	}
	rules := []sarifRule{}
	for _, k := range kinds.All() {
		if used[k.Code] {
			delete(used, k.Code)
			help := "ferrule explain " + string(k.Code)
			rules = append(rules, sarifRule{string(k.Code), sarifText{k.Summary}, sarifText{k.Doc}, sarifText{help}})
		}
	}
	if len(used) > 0 {
		panic("report: every code has a kind")
	}
	return rules
}

func sarifResultOf(f *finding.Finding) sarifResult {
	out := sarifResult{RuleID: string(f.Code), Level: f.Severity.String(), Message: sarifText{sentence(f)},
		Suppressions: []sarifSuppression{}}
	for _, c := range f.Cells {
		if c.Sheet == nil {
			continue
		}
		l := sarifLocationOf(c)
		if len(out.Locations) == 0 {
			out.Locations = []sarifLocation{l}
		} else {
			out.Related = append(out.Related, l)
		}
	}
	if a := f.Accepted; a != nil {
		out.Suppressions = []sarifSuppression{{"external", "accepted", a.Reason + " (" + a.By + ")"}}
	}
	return out
}

// sarifBaseline says whether the release that findings were held against has it too. A
// finding that grew is two results, of which one is new.
func sarifBaseline(f *finding.Finding) string {
	if f.Known {
		return "unchanged"
	}
	return "new"
}

func sarifLocationOf(c finding.Cell) sarifLocation {
	var l sarifLocation
	l.Physical.Artifact.URI = (&url.URL{Path: c.Sheet.File}).String()
	if c.Sheet.Name != "" {
		name, kind := c.Sheet.Name, "module"
		if c.Pos != (cell.Pos{}) {
			name, kind = c.Pos.String(), "member"
		}
		l.Logical = []sarifLogical{{name, c.Place.String(), kind}}
	}
	if c.Note != "" {
		l.Message = &sarifText{c.Note}
	}
	return l
}

// sentence says a finding by itself: with its cell and how many vehicles it is about.
func sentence(f *finding.Finding) string {
	words := f.Message
	if len(f.Cells) > 0 && f.Cells[0].Sheet != nil {
		words = f.Cells[0].Place.String() + ": " + words
	}
	if f.Region != nil && f.Region.Exact {
		words += " (" + howMany(f.Region.Open()) + ")"
	}
	if f.Fix != "" {
		words += "; " + f.Fix
	}
	if follows := f.Following(); follows != "" {
		words += "; " + follows
	}
	return words
}
