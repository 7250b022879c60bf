package cli

import (
	"github.com/spf13/cobra"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/release"
)

func checkCommand() *cobra.Command {
	var c compiling
	var failOn, file string
	cmd := &cobra.Command{
		Use:   "check PATH…",
		Short: "Say what is wrong with a catalogue",
		Long: "Reads a catalogue (folders and workbooks) and tells every finding on standard output.\n" +
			"The exit status is 1 where a finding is at or above --fail-on and nobody has accepted it.\n\n" +
			"With --since OLD, which is read as diff reads it, findings that OLD has too are known and do not\n" +
			"fail. They are compared by what they say, not by their cells, and of a finding about vehicles\n" +
			"that grew only the vehicles that came to it are new. What protected in OLD (a rule, a limit, a caution,\n" +
			"a size of line) and does not any more is a warning.\n\n" +
			"With --report FILE.html the findings beside their rows, the coverage, and of each place that is not settled\n" +
			"what is said year by year are written to a page that needs nothing else, for mail and build servers.",
		Example: "  ferrule check catalogue\n  ferrule check catalogue --format json --fail-on warning\n" +
			"  ferrule check catalogue --since main:catalogue",
		Args: atLeast(1, "a folder or a workbook"),
		RunE: func(cmd *cobra.Command, args []string) error {
			limit, fails, err := threshold(failOn)
			if err != nil {
				return &misuse{cmd, err.Error()}
			}
			if file != "" {
				if err := reportable(cmd, file); err != nil {
					return err
				}
			}
			r, err := c.check(cmd, args)
			if err != nil {
				return err
			}
			if file != "" {
				if err := writeReport(cmd.Context(), file, r); err != nil {
					return err
				}
			}
			return verdict(r, limit, fails)
		},
	}
	c.flags(cmd)
	cmd.Flags().StringVar(&c.since, "since", "", "a `release` whose findings are known: a folder, REV:PATH, or what a build wrote")
	cmd.Flags().StringVar(&file, "report", "", "write what is found as a page to a `file`, FILE.html, as well")
	cmd.Flags().StringVar(&failOn, "fail-on", "error", "the least `severity` that fails: error, warning, note or never")
	return cmd
}

// check compiles the paths, holds them against --since, and tells the findings.
func (c *compiling) check(cmd *cobra.Command, paths []string) (*compiler.Result, error) {
	run, err := c.start(cmd)
	if err != nil {
		return nil, err
	}
	defer run.end()
	r, err := run.compile(paths)
	if err == nil && c.since != "" && r.Whole {
		err = run.hold(r, c.since)
	}
	if err != nil {
		return nil, err
	}
	return r, run.tell(r)
}

// hold marks the findings that an earlier release has as well.
func (r *run) hold(res *compiler.Result, since string) error {
	old, err := r.earlier(since, false)
	if err != nil {
		return err
	}
	return r.step(stageCompare, func() error { return release.Hold(r.cmd.Context(), res, old, r.options.Today) })
}

// verdict gives the status that a checked catalogue earns.
func verdict(r *compiler.Result, limit finding.Severity, fails bool) error {
	if !r.Whole {
		return exit(refused)
	}
	if worst, any := finding.Worst(r.Findings); fails && any && worst >= limit {
		return exit(findings)
	}
	return nil
}
