package release

import (
	"context"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
)

const today = "2027-03-01"

// faulty gives the faulty catalogue as a run compiled it, and the same as a release.
func faulty(t *testing.T) (*compiler.Result, *Release) {
	t.Helper()
	dir := filepath.Join("..", "..", "testdata", "faulty")
	o := compiler.Options{Today: today, Compare: true}
	r, err := compiler.Compile(context.Background(), compiler.Input{Paths: []string{dir}}, o)
	require.NoError(t, err)
	old, err := Open(context.Background(), dir, o)
	require.NoError(t, err)
	return r, old
}

// careless makes a release that had a caution, and a part which was under it.
func careless(old *Release) {
	cat := *old.Catalogue
	care := &model.Caution{Key: "props", Text: "Hold it by stands.", Level: "danger"}
	cat.Cautions = append(cat.Cautions[:len(cat.Cautions):len(cat.Cautions)], care)
	part := *cat.Parts[0]
	part.Cautions = append(part.Cautions[:len(part.Cautions):len(part.Cautions)], model.Note{Caution: care})
	cat.Parts = append([]*model.Part{&part}, cat.Parts[1:]...)
	old.Catalogue = &cat
}

func lost(fs []*finding.Finding) int {
	n := 0
	for _, f := range fs {
		if f.Code == finding.ProtectionLost {
			n++
		}
	}
	return n
}

// Held against itself every finding of a catalogue that is listed whole is known, and what
// protected elsewhere is told beside them.
func TestHold(t *testing.T) {
	r, old := faulty(t)
	before := finding.Summarise(r.Findings)
	require.NotZero(t, before.Errors)
	careless(old)
	require.NoError(t, Hold(context.Background(), r, old, today))
	assert.Equal(t, old.State.Source, r.Since)
	after := finding.Summarise(r.Findings)
	assert.Zero(t, after.Errors)
	assert.Equal(t, before.Errors+before.Warnings+before.Notes, after.Known)
	assert.Equal(t, 1, lost(r.Findings))
	sorted := append([]*finding.Finding(nil), r.Findings...)
	finding.Sort(sorted)
	assert.Equal(t, sorted, r.Findings)
}

// Guarded, a catalogue keeps its findings as they were.
func TestGuard(t *testing.T) {
	r, old := faulty(t)
	before := finding.Summarise(r.Findings)
	careless(old)
	require.NoError(t, Guard(context.Background(), r, old, today))
	after := finding.Summarise(r.Findings)
	assert.Empty(t, r.Since)
	assert.Zero(t, after.Known)
	assert.Equal(t, before.Errors, after.Errors)
	assert.Equal(t, before.Warnings+1, after.Warnings)
	assert.Equal(t, 1, lost(r.Findings))
}

// What could not be read whole is neither held nor guarded: nothing is known of what is
// missing, and there is no catalogue to look at.
func TestHoldWithoutCatalogue(t *testing.T) {
	_, old := faulty(t)
	r := &compiler.Result{Findings: []*finding.Finding{{Code: finding.WorkbookUnreadable}}}
	require.NoError(t, Hold(context.Background(), r, old, today))
	require.NoError(t, Guard(context.Background(), r, old, today))
	assert.Equal(t, &compiler.Result{Findings: []*finding.Finding{{Code: finding.WorkbookUnreadable}}}, r)
}

func TestHoldIsStopped(t *testing.T) {
	r, old := faulty(t)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	assert.ErrorIs(t, Hold(ctx, r, old, today), context.Canceled)
	assert.ErrorIs(t, Guard(ctx, r, old, today), context.Canceled)
	_, err := Changes(ctx, r, old)
	assert.ErrorIs(t, err, context.Canceled)
	assert.Empty(t, r.Since)
}

// Nothing has changed since the same release, and what is wrong is not told as a change.
func TestChanges(t *testing.T) {
	r, old := faulty(t)
	diff, err := Changes(context.Background(), r, old)
	require.NoError(t, err)
	assert.Empty(t, diff.Changes)
	assert.Empty(t, diff.Fleets)
}
