// Package compiler turns workbooks into a catalogue, findings and guides.
//
// Compile is the pipeline and nothing else: workbook bytes become sheets, sheets
// become records, records become the catalogue, the catalogue is decided and checked
// platform by platform. What is wrong with the data is a finding; an error means that
// the program could not run.
package compiler

import (
	"context"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake"
	"ferrule/compiler/intake/layout"
	"ferrule/compiler/intake/written"
	"ferrule/compiler/judge"
	"ferrule/compiler/judge/check"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/picture"
	"ferrule/compiler/release/compare"
)

// Result is all that one run knows.
type Result struct {
	Read     intake.Read
	Findings []*finding.Finding // sorted
	// Whole is false where a workbook could not be read: then Catalogue and Guides
	// are nil, since missing rows would invent gaps.
	Whole     bool
	Catalogue *model.Catalogue
	Guides    []*decide.Packed // one per platform, as declared; nil where no option asks for them
	Sheets    []*written.Sheet // as they were read, for comparing and for who publishes; else nil
	// Since names the release that findings were held against, "" for none: those that it
	// has too are Known.
	Since    string
	Pictures *picture.Set // that can be shown; nil where none is named
	// Fleets are the rows of Layouts sheets that say how sheets of fleets are read.
	Fleets []*layout.Row

	ask judge.Options // what guides are worked out with
}

// Guide works out the guide of a platform of the catalogue with its cases, where Guides were
// not asked for.
func (r *Result) Guide(p *model.Platform) *decide.Guide { return judge.Guide(r.Catalogue, p, r.ask) }

// Path gives where the workbook was read from that messages call so; false where none is.
func (r *Result) Path(name string) (string, bool) {
	for _, f := range r.Read.Files {
		if f.Name == name {
			return f.Path, true
		}
	}
	return "", false
}

// Counts gives a guide of every platform that only counts, for each position, the vehicles of each
// outcome. The error is the context's.
func (r *Result) Counts(ctx context.Context) ([]*decide.Guide, error) {
	o := judge.Options{Ledger: r.ask.Ledger, Owed: r.ask.Owed, Checks: []*check.Check{}, Counts: true}
	return judge.Platforms(ctx, r.Catalogue, o, func(*finding.Finding) {})
}

// Release gives what releases are compared by.
func (r *Result) Release() *compare.Release {
	guides := make([]*decide.Guide, len(r.Guides))
	for i, g := range r.Guides {
		guides[i] = g.Outline()
	}
	return &compare.Release{Catalogue: r.Catalogue, Guides: guides, Sheets: r.Sheets}
}
