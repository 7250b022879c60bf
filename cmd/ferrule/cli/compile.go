package cli

import (
	"bufio"
	"errors"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/release"
	"ferrule/compiler/release/compare"
	"ferrule/out/report"
)

// compiling holds the flags of the commands that compile.
type compiling struct {
	format   string
	today    string
	verbose  bool
	guides   bool             // the command publishes guides
	compared bool             // what is read will be held against another release
	since    string           // the release to hold findings against, "" for none
	earlier  *compare.Release // what an earlier build was made from: what protected there must not go in silence; nil: none
}

func (c *compiling) flags(cmd *cobra.Command) {
	cmd.Flags().StringVar(&c.format, "format", "text", "the `format` of findings: text, json, jsonl, sarif, junit or github")
	cmd.Flags().StringVar(&c.today, "today", "", "the `date` that acceptances are held against, as 2027-03-01 (default: the clock)")
	cmd.Flags().BoolVarP(&c.verbose, "verbose", "v", false, "tell on standard error what each workbook and stage took")
}

// run compiles the paths and tells the findings. The formatter and the date are
// looked at first, so that wrong usage costs no time.
func (c *compiling) run(cmd *cobra.Command, paths []string) (*compiler.Result, error) {
	out := cmd.OutOrStdout()
	width, _ := columns(out)
	formatter, err := report.New(c.format, report.Options{Width: width, Color: colored(out)})
	if err != nil {
		return nil, &misuse{cmd, "--format: " + err.Error()}
	}
	today, err := date(c.today)
	if err != nil {
		return nil, &misuse{cmd, err.Error()}
	}
	w := newWatch(cmd.ErrOrStderr(), c.verbose)
	defer w.end()
	o := compiler.Options{Today: today, Progress: w.stage, Guides: c.guides, Compare: c.since != "" || c.compared}
	r, err := compiler.Compile(cmd.Context(), compiler.Input{Paths: paths}, o)
	if err == nil && c.since != "" && r.Whole {
		err = c.hold(cmd, w, r, o)
	}
	if err == nil && c.earlier != nil && r.Whole {
		err = c.guard(cmd, w, r, o)
	}
	if err != nil {
		return nil, err
	}
	err = w.step(stageReport, func() error {
		buffered := bufio.NewWriter(out)
		return errors.Join(formatter.Format(buffered, r), buffered.Flush())
	})
	if err != nil {
		return nil, fmt.Errorf("the findings could not be written: %w", err)
	}
	return r, nil
}

// hold marks the findings that an earlier release has as well.
func (c *compiling) hold(cmd *cobra.Command, w *watch, r *compiler.Result, o compiler.Options) error {
	old, err := release.Open(cmd.Context(), c.since, o)
	if err != nil {
		return fmt.Errorf("--since: %w", err)
	}
	return w.step(stageCompare, func() error {
		now := r.Release()
		fs, err := compare.Since(cmd.Context(), &old.Release, now, old.Findings, r.Findings, compare.Options{Today: o.Today})
		if err != nil {
			return err
		}
		r.Findings, r.Since = fs, c.since
		finding.Sort(r.Findings)
		return nil
	})
}

// guard adds what protected in the earlier build and no longer does.
func (c *compiling) guard(cmd *cobra.Command, w *watch, r *compiler.Result, o compiler.Options) error {
	return w.step(stageCompare, func() error {
		now := r.Release()
		lost, err := compare.Guard(cmd.Context(), c.earlier, now, r.Findings, compare.Options{Today: o.Today})
		r.Findings = append(r.Findings, lost...)
		finding.Sort(r.Findings)
		return err
	})
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
