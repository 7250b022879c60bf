package cli

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"time"

	"github.com/spf13/cobra"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/release"
	"ferrule/out/report"
)

// compiling holds the flags of the commands that compile.
type compiling struct {
	format  string
	today   string
	since   string // the release to hold the catalogue against, "" for none
	verbose bool
}

func (c *compiling) flags(cmd *cobra.Command) {
	cmd.Flags().StringVar(&c.format, "format", "text", "the `format` of findings: text, json, jsonl, sarif, junit or github")
	cmd.Flags().StringVar(&c.today, "today", "", "the `date` that acceptances are held against and pages are published on, as 2027-03-01 (default: the clock)")
	cmd.Flags().BoolVarP(&c.verbose, "verbose", "v", false, "tell on standard error what each workbook and stage took")
}

// start looks at the format and the date before anything is read, so that wrong usage
// costs no time. Whoever starts a run calls end.
func (c *compiling) start(cmd *cobra.Command) (*run, error) {
	width, _ := columns(cmd.OutOrStdout())
	formatter, err := report.New(c.format, report.Options{Width: width, Color: colored(cmd.OutOrStdout())})
	if err != nil {
		return nil, &misuse{cmd, "--format: " + err.Error()}
	}
	today, err := date(c.today)
	if err != nil {
		return nil, &misuse{cmd, err.Error()}
	}
	w := newWatch(cmd.ErrOrStderr(), c.verbose)
	return &run{cmd, c.format, formatter, w, compiler.Options{Today: today, Progress: w.stage, Compare: c.since != ""}}, nil
}

// run is one run of a command that compiles.
type run struct {
	cmd       *cobra.Command
	format    string
	formatter report.Formatter
	*watch
	options compiler.Options
}

func (r *run) compile(paths []string) (*compiler.Result, error) {
	return compiler.Compile(r.cmd.Context(), compiler.Input{Paths: paths}, r.options)
}

// earlier opens the release that --since names. A brief one has no lists of vehicles in
// its findings.
func (r *run) earlier(name string, brief bool) (*release.Release, error) {
	o := r.options
	o.Brief = brief
	old, err := release.Open(r.cmd.Context(), name, o)
	if err != nil {
		return nil, fmt.Errorf("--since: %w", err)
	}
	return old, nil
}

// tell writes the findings.
func (r *run) tell(res *compiler.Result) error {
	err := r.step(stageReport, func() error {
		buffered := bufio.NewWriter(stopping{r.cmd.Context(), output(r.cmd, r.format)})
		return first(r.formatter.Format(buffered, res), buffered.Flush())
	})
	if err != nil {
		return fmt.Errorf("the findings could not be written: %w", err)
	}
	return nil
}

// stopping writes until its context ends.
type stopping struct {
	ctx context.Context
	out io.Writer
}

func (s stopping) Write(b []byte) (int, error) {
	if err := s.ctx.Err(); err != nil {
		return 0, err
	}
	return s.out.Write(b)
}

// date reads --today; the clock's date where it is not given.
func date(given string) (string, error) {
	if given == "" {
		return time.Now().Format(time.DateOnly), nil
	}
	if _, err := time.Parse(time.DateOnly, given); err != nil {
		return "", fmt.Errorf("--today: %q is not a date, write it as 2027-03-01", given)
	}
	return given, nil
}

// threshold reads --fail-on; false where nothing fails.
func threshold(given string) (finding.Severity, bool, error) {
	for _, s := range []finding.Severity{finding.Note, finding.Warning, finding.Error} {
		if given == s.String() {
			return s, true, nil
		}
	}
	if given == "never" {
		return 0, false, nil
	}
	return 0, false, fmt.Errorf("--fail-on: %q is none of error, warning, note and never", given)
}
