package main

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/out/aid"
	"ferrule/out/markup"
)

// today is a day on which no acceptance of the samples has ended but the one that is
// meant to.
const today = "2027-03-01"

func compile(t *testing.T, dir string) *compiler.Result {
	r, err := compiler.Compile(t.Context(), compiler.Input{Paths: []string{dir}}, compiler.Options{Today: today, Guides: true})
	require.NoError(t, err)
	require.True(t, r.Whole)
	return r
}

func TestStarterCompilesClean(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, aid.Write(dir, markup.Starter()))
	r := compile(t, dir)
	for _, f := range r.Findings {
		assert.True(t, f.Severity == finding.Note || f.Accepted != nil, "%s: %s", f.Code, f.Message)
	}
	assert.Equal(t, 1, finding.Summarise(r.Findings).Accepted, "the example of an acceptance matches")
	assert.Len(t, r.Catalogue.Platforms, 2)
}

// The demo is the catalogue of a careful supplier: a gap or two, each thing that the
// format can say at least once, and nothing else to complain of.
func TestDemoIsCareful(t *testing.T) {
	r := compile(t, filepath.Join(testdata, "demo"))
	gaps := 0
	for _, f := range r.Findings {
		switch {
		case f.Accepted != nil:
		case f.Code == "coverage-gap":
			gaps++
		default:
			assert.Equal(t, finding.Note, f.Severity, "%s: %s", f.Code, f.Message)
		}
	}
	assert.Contains(t, []int{1, 2}, gaps)
	assert.Equal(t, 2, finding.Summarise(r.Findings).Accepted)

	c := r.Catalogue
	assert.GreaterOrEqual(t, len(c.Platforms), 3)
	assert.GreaterOrEqual(t, len(c.Traits), 8)
	assert.GreaterOrEqual(t, len(c.Positions), 12)
	assert.GreaterOrEqual(t, len(c.Parts), 60)
	for _, trait := range c.Traits {
		for _, v := range trait.Values {
			assert.NotEmpty(t, v.Tell, "how to tell %s %s", trait.Name, v.Name)
		}
	}
	assert.NotEmpty(t, c.SizeRows)
	outcomes, with, exceptions, oneSide := map[model.Outcome]bool{}, false, false, false
	for _, f := range c.Fitments {
		exceptions = exceptions || f.Precedence > 0
		for _, cell := range f.Cells {
			outcomes[cell.Fits.Outcome] = true
			with = with || cell.Fits.With != nil
			oneSide = oneSide || cell.Fits.With != nil && cell.Fits.With == cell.Position.Pair
		}
	}
	for _, o := range []model.Outcome{model.Fitted, model.None, model.Planned, model.Ask} {
		assert.True(t, outcomes[o], o)
	}
	assert.True(t, with, "a kit serves two positions")
	assert.True(t, exceptions, "a row has a precedence")
	assert.True(t, oneSide, "one item serves both sides")
	status, effect := map[model.Status]bool{}, map[model.Effect]bool{}
	for _, p := range c.Parts {
		status[p.Status] = true
	}
	for _, rule := range c.Rules {
		effect[rule.Effect] = true
	}
	assert.Len(t, status, 3)
	assert.Len(t, effect, 3)
}

// faults are the findings that the faulty catalogue is there to show.
var faults = []finding.Code{
	"coverage-gap", "coverage-planned", "coverage-ask", "fitment-conflict", "part-forbidden",
	"line-size-mismatch", "row-unreachable", "part-unused", "part-not-current", "part-unknown",
	"reference-unknown", "kit-cycle", "replacement-cycle", "declared-twice", "position-conflict",
	"value-invalid", "size-unitless", "size-mixed-units", "size-unusual", "cell-date-mangled",
	"cell-number-mangled", "cell-lookalike", "cell-formula-stale", "cell-error", "cell-display", "cell-boolean", "cell-struck", "header-duplicate",
	"sheet-ignored", "sheet-hidden", "vehicles-blank", "accepted-expired", "accepted-unused",
	"size-near-miss", "size-contradiction", "pair-conflict", "side-missing", "side-quantity",
}

func TestFaultyShowsEveryFault(t *testing.T) {
	seen := map[finding.Code]int{}
	for _, f := range compile(t, filepath.Join(testdata, "faulty")).Findings {
		if f.Accepted == nil {
			seen[f.Code]++
		}
	}
	for _, code := range faults {
		assert.Positive(t, seen[code], code)
	}
}
