package view

import (
	"context"
	"fmt"
	"html/template"
	"io"

	"ferrule/compiler"
	"ferrule/compiler/ask/yearmap"
	"ferrule/compiler/finding"
)

// How much a report holds, so that it can be mailed: what is left out is counted in it.
const (
	mostFindings  = 400
	mostPlaces    = 120
	mostPlatforms = 400 // in the table of coverage
)

// Generator stands in every report, by which one is known.
const Generator = "ferrule check --report"

// paper is findings, coverage and maps in one file that needs nothing else.
type paper struct {
	Generator      string
	Title, Release string
	Style          template.CSS
	Whole          bool // false: a workbook could not be read, and nothing is said of coverage
	Findings       Findings
	Coverage       *Coverage
	PlatformsLeft  int
	Places         []*Place
	PlacesLeft     int
}

// Report writes a report of what a run has found, without a script: the findings that stand, the
// coverage, and of each place that is not settled what is said year by year. The same run gives the same bytes.
func Report(ctx context.Context, w io.Writer, res *compiler.Result) error {
	r := &paper{Generator: Generator, Title: "The catalogue", Style: template.CSS(Style), Whole: res.Whole} //nolint:gosec // our own
	r.findings(res)
	if res.Catalogue != nil {
		if t := res.Catalogue.Settings.Title; t != "" {
			r.Title = t
		}
		r.Release = res.Catalogue.Settings.Release
		if err := r.coverage(ctx, res); err != nil {
			return err
		}
	}
	return Print(w, Templates, "report", r)
}

func (r *paper) findings(res *compiler.Result) {
	var stand []*finding.Finding
	for _, f := range res.Findings {
		if f.Accepted == nil && !f.Known {
			stand = append(stand, f)
		}
	}
	r.Findings = Findings{Summary: finding.Summarise(res.Findings), Since: res.Since}
	r.Findings.Left = max(0, len(stand)-mostFindings)
	r.Findings.List = List(res, stand[:min(len(stand), mostFindings)], func(string) bool { return true })
}

// coverage counts, and lays out the places where something is missing or disagrees.
func (r *paper) coverage(ctx context.Context, res *compiler.Result) error {
	guides, err := res.Counts(ctx)
	if err != nil {
		return err
	}
	r.PlatformsLeft = max(0, len(guides)-mostPlatforms)
	r.Coverage = CoverageOf(res.Catalogue, guides[:len(guides)-r.PlatformsLeft])
	for i := range r.Coverage.Platforms {
		if err := ctx.Err(); err != nil {
			return err
		}
		r.places(res, i)
	}
	return nil
}

// places lays out those of one platform.
func (r *paper) places(res *compiler.Result, platform int) {
	row := &r.Coverage.Platforms[platform]
	var open []int
	for k := range row.Squares {
		if row.Squares[k].unsettled() {
			open = append(open, k)
		}
	}
	if room := mostPlaces - len(r.Places); len(open) > room {
		r.PlacesLeft += len(open) - room
		open = open[:room]
	}
	if len(open) == 0 {
		return
	}
	g := res.Guide(res.Catalogue.Platforms[platform])
	for _, k := range open {
		p := PlaceOf(g, g.Answers[k])
		p.ID = fmt.Sprintf("place-%d", len(r.Places)+1)
		row.Squares[k].Link = "#" + p.ID
		r.Places = append(r.Places, p)
	}
}

// unsettled tells whether something is missing at a place, or disagrees.
func (s *Square) unsettled() bool {
	for _, p := range s.Parts {
		if p.State == yearmap.Conflict || p.State == yearmap.Gap || p.State == yearmap.Ask {
			return true
		}
	}
	return false
}
