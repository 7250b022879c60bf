package cli

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/sheets/guard"
)

func TestPanicIsAFaultOfTheProgram(t *testing.T) {
	var stderr bytes.Buffer
	root := &cobra.Command{Use: "x", RunE: func(*cobra.Command, []string) error { panic("invariant: a box is never empty") }}
	root.SetArgs(nil)
	assert.Equal(t, fault, execute(context.Background(), root, &stderr))
	assert.Contains(t, stderr.String(), "a fault of the program, not of the workbooks: invariant: a box is never empty\n")
	assert.Contains(t, stderr.String(), "cli_test.go", "the stack says where")
}

func broken() { panic("invariant: a row ends") }

// A panic of a goroutine is told in the same way, with what was being done and with its own
// stack.
func TestPanicInAGoroutine(t *testing.T) {
	var stderr bytes.Buffer
	root := &cobra.Command{Use: "x", RunE: func(*cobra.Command, []string) error {
		g := guard.NewGroup()
		g.Go(func() {
			defer guard.About("reading the workbook a\x1b.xlsx")
			broken()
		})
		g.Wait()
		return nil
	}}
	root.SetArgs(nil)
	assert.Equal(t, fault, execute(context.Background(), root, &stderr))
	assert.Contains(t, stderr.String(), "a fault of the program, not of the workbooks: invariant: a row ends\n"+
		"it happened while reading the workbook a<U+001B>.xlsx\n")
	assert.Contains(t, stderr.String(), "cli.broken", "the stack says where")
}

func TestStatusOfErrors(t *testing.T) {
	cmd := &cobra.Command{Use: "check"}
	for _, c := range []struct {
		err    error
		status int
		says   string
	}{
		{nil, done, ""},
		{exit(findings), findings, ""},
		{fmt.Errorf("wrapped: %w", exit(refused)), refused, ""},
		{context.Canceled, refused, "ferrule: stopped\n"},
		{&misuse{cmd, "no"}, refused, "ferrule: no\nhint: check --help\n"},
		{errors.New("disk full"), refused, "ferrule: disk full\n"},
	} {
		var stderr bytes.Buffer
		assert.Equal(t, c.status, told(context.Background(), &stderr, c.err), "%v", c.err)
		assert.Equal(t, c.says, stderr.String())
	}
}

func TestVerdict(t *testing.T) {
	warning := &finding.Finding{Severity: finding.Warning}
	quiet := &finding.Finding{Severity: finding.Error, Accepted: &finding.Accepted{}}
	for _, c := range []struct {
		failOn string
		found  []*finding.Finding
		whole  bool
		want   error
	}{
		{"error", []*finding.Finding{warning, quiet}, true, nil},
		{"warning", []*finding.Finding{warning, quiet}, true, exit(findings)},
		{"note", []*finding.Finding{warning}, true, exit(findings)},
		{"note", []*finding.Finding{quiet}, true, nil},
		{"never", []*finding.Finding{warning, {Severity: finding.Error}}, true, nil},
		{"error", []*finding.Finding{{Severity: finding.Error}}, true, exit(findings)},
		{"never", nil, false, exit(refused)},
	} {
		limit, fails, err := threshold(c.failOn)
		require.NoError(t, err)
		assert.Equal(t, c.want, verdict(&compiler.Result{Whole: c.whole, Findings: c.found}, limit, fails), "%+v", c)
	}
}

func TestOnlyAcceptedErrorsAndGapsArePublished(t *testing.T) {
	wrong := func(code finding.Code) *finding.Finding {
		return &finding.Finding{Code: code, Severity: finding.Error}
	}
	accepted := wrong("fitment-conflict")
	accepted.Accepted = &finding.Accepted{}
	assert.Zero(t, finding.Blocking([]*finding.Finding{wrong("coverage-gap"), accepted, {Code: "row-unreachable", Severity: finding.Warning}}))
	assert.Equal(t, 2, finding.Blocking([]*finding.Finding{wrong("fitment-conflict"), wrong("part-unknown"), wrong("coverage-gap")}))
}

func TestFilesAreNotColoured(t *testing.T) {
	t.Setenv("NO_COLOR", "")
	t.Setenv("TERM", "xterm")
	f, err := os.Create(t.TempDir() + "/out")
	require.NoError(t, err)
	defer f.Close()
	assert.False(t, colored(f))
	assert.False(t, colored(&bytes.Buffer{}))
}

func TestDate(t *testing.T) {
	given, err := date("2027-03-01")
	require.NoError(t, err)
	assert.Equal(t, "2027-03-01", given)
	for _, bad := range []string{"2027-02-30", "1.3.2027", "2027-3-1", "tomorrow", "2027-03-01T00:00:00Z"} {
		_, err := date(bad)
		assert.ErrorContains(t, err, "is not a date, write it as 2027-03-01", bad)
	}
	today, err := date("")
	require.NoError(t, err)
	assert.Regexp(t, `^\d{4}-\d\d-\d\d$`, today)
}
