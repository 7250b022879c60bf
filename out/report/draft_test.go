package report

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/accept/draft"
	"ferrule/sheets/cell"
)

// TestLeftOut holds how a finding is told of that no row accepts: by its first cell, and
// by what it is about where no cell can be pointed at.
func TestLeftOut(t *testing.T) {
	about := func(cells ...finding.Cell) draft.Left {
		f := &finding.Finding{Code: "road-partial", Platform: "H7", Position: "Damper", Message: "some rows say nothing", Cells: cells}
		return draft.Left{Finding: f, Why: "it is no error"}
	}
	d := &draft.Draft{Left: []draft.Left{
		about(finding.Cell{Place: at("B4")}),
		about(),
		about(finding.Cell{Place: cell.Place{}}),
		{Finding: &finding.Finding{Code: "road-partial", Message: "some rows say nothing"}, Why: "it is no error"},
	}}
	var b bytes.Buffer
	require.NoError(t, Drafted(&b, d, Options{}))
	assert.Contains(t, b.String(), `
left out: road-partial (fitment.xlsx:Fitment H7!B4): it is no error
left out: road-partial (H7, Damper): it is no error
left out: road-partial (H7, Damper): it is no error
left out: road-partial (some rows say nothing): it is no error
`)
}
