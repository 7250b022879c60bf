package report

import (
	"encoding/json"
	"encoding/xml"
	"os"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v5"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/schema"
)

// held is a run whose findings were held against those of a release: a gap that grew, a
// warning that is known, and one that somebody accepted.
func held() *compiler.Result {
	old, known, accepted := gap(2), several()[2], several()[4]
	old.Known, known.Known = true, true
	accepted.Accepted = &finding.Accepted{Reason: "both fit", By: "N. N.", Cell: at("A2")}
	r := only(gap(1), old, known, accepted)
	r.Since = "main:cat"
	return r
}

func TestKnownInText(t *testing.T) {
	text := render(t, Options{}, held())
	assert.Contains(t, text, "\ncoverage-gap: 1 error\n")
	assert.NotContains(t, text, "row-unreachable:")
	assert.Contains(t, text, "\nknown (main:cat has them too): coverage-gap 1, row-unreachable 1\n")
	assert.Contains(t, text, "\nfitment-conflict: 1 accepted\n")
	assert.Contains(t, text, "\nnew since main:cat: 1 error, 0 warnings, 0 notes, 1 accepted; known: 2\n")
	assert.NotContains(t, render(t, Options{}, only(gap(1))), "known")
}

func TestKnownInJSON(t *testing.T) {
	text := format(t, "json", held())
	require.NoError(t, schema.ValidatePublished("findings.schema.json", []byte(text)))
	var file struct {
		Since    string
		Findings []struct{ Known bool }
		Summary  map[string]int
	}
	require.NoError(t, json.Unmarshal([]byte(text), &file))
	assert.Equal(t, "main:cat", file.Since)
	assert.Equal(t, []struct{ Known bool }{{false}, {true}, {true}, {false}}, file.Findings)
	assert.Equal(t, map[string]int{"error": 1, "warning": 0, "note": 0, "accepted": 1, "known": 2}, file.Summary)
}

func TestKnownInSARIF(t *testing.T) {
	text := format(t, "sarif", held())
	schema, err := os.ReadFile("testdata/sarif-2.1.0.json")
	require.NoError(t, err)
	s, err := jsonschema.CompileString("sarif.json", string(schema))
	require.NoError(t, err)
	var v any
	require.NoError(t, json.Unmarshal([]byte(text), &v))
	assert.NoError(t, s.Validate(v))
	var log sarifLog
	require.NoError(t, json.Unmarshal([]byte(text), &log))
	var states []string
	for _, r := range log.Runs[0].Results {
		states = append(states, r.Baseline)
		assert.NotNil(t, r.Suppressions, "all results of a run have suppressions, or none has")
	}
	assert.Equal(t, []string{"new", "unchanged", "unchanged", "new"}, states)
	assert.NotContains(t, format(t, "sarif", only(gap(1))), "baselineState")
}

func TestKnownInJUnit(t *testing.T) {
	var all suitesRead
	require.NoError(t, xml.Unmarshal([]byte(format(t, "junit", held())), &all))
	assert.Equal(t, 4, all.Tests)
	assert.Equal(t, 1, all.Failures)
	assert.Equal(t, "known: main:cat has it too", all.Suites[0].Cases[1].Skipped.Text)
}

func TestKnownOnGitHub(t *testing.T) {
	text := format(t, "github", held())
	assert.Contains(t, text, "::error ")
	assert.NotContains(t, text, "::warning ", "it is not of this change")
	assert.Contains(t, text, "\nnew since main:cat: 1 error, 0 warnings, 0 notes, 1 accepted; known: 2\n")
}

func TestKnownFailsNothing(t *testing.T) {
	r := held()
	worst, any := finding.Worst(r.Findings)
	assert.True(t, any)
	assert.Equal(t, finding.Error, worst)
	_, any = finding.Worst(r.Findings[1:])
	assert.False(t, any)
}
