package view_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/out/view"
)

// A report tells what the run has found, and what it leaves out it counts.
func TestReport(t *testing.T) {
	for _, name := range []string{"demo", "faulty"} {
		res, err := compiler.Compile(t.Context(), compiler.Input{Paths: []string{"../../testdata/" + name}}, compiler.Options{Today: "2026-06-01"})
		require.NoError(t, err)
		var page, again bytes.Buffer
		require.NoError(t, view.Report(t.Context(), &page, res))
		require.NoError(t, view.Report(t.Context(), &again, res))
		assert.Equal(t, page.String(), again.String(), name)
		told := 0
		for _, f := range res.Findings {
			shown := strings.Contains(page.String(), `id="f-`+f.Fingerprint()+`"`)
			assert.Equal(t, f.Accepted == nil, shown, "%s: %s %s", name, f.Code, f.Message)
			told++
		}
		require.NotZero(t, told)
		assert.Contains(t, page.String(), fmt.Sprintf("%d errors", finding.Summarise(res.Findings).Errors))
		assert.NotContains(t, page.String(), "<script")
		assert.Contains(t, page.String(), `href="#place-1"`)
		assert.Contains(t, page.String(), `id="place-1"`)
		if name == "demo" { // on paper a square of the coverage names its place itself
			assert.Equal(t, len(res.Catalogue.Platforms), strings.Count(page.String(), `data-at="Front damper"`))
		}
	}
}

// What a report has no room for is counted.
func TestReportIsBounded(t *testing.T) {
	res := &compiler.Result{Whole: true}
	for i := range 1000 {
		res.Findings = append(res.Findings, &finding.Finding{Code: finding.ValueInvalid, Severity: finding.Error,
			Message: fmt.Sprintf("<script>alert(%d)</script>", i)})
	}
	var page bytes.Buffer
	require.NoError(t, view.Report(t.Context(), &page, res))
	assert.Equal(t, 400, strings.Count(page.String(), `<li class="finding error"`))
	assert.Contains(t, page.String(), "600 findings more are not shown here")
	assert.NotContains(t, page.String(), "<script>alert")
	assert.Less(t, page.Len(), 1<<20)
}
