package cli

import (
	"bufio"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"ferrule/compiler"
	"ferrule/compiler/release"
	"ferrule/compiler/release/compare"
	"ferrule/out/data"
	"ferrule/out/report"
	"ferrule/schema/word"
)

// differing holds the flags of diff.
type differing struct {
	format  string
	today   string
	failOn  string
	verbose bool
}

func diffCommand() *cobra.Command {
	var d differing
	cmd := &cobra.Command{
		Use:   "diff OLD NEW",
		Short: "Say which vehicles gained, lost or changed a part between two releases",
		Long: "Compares two releases of a catalogue. Each is a folder with workbooks, a workbook, a folder in a\n" +
			"git revision (REV:PATH, for example main:catalogue), or the folder that an earlier build wrote.\n" +
			"Of a revision files are read as git keeps them: no filter or textconv of the repository is run, so\n" +
			"what a filter encrypts or keeps elsewhere cannot be read, but for files of Git LFS that are here.\n\n" +
			"Kinds of differences, as --fail-on takes them:\n" +
			"  lost         there was a fit and there is none any more\n" +
			"  conflict     cells disagree where they did not\n" +
			"  unsettled    a check finds a fit wrong where it did not\n" +
			"  unprotected  a rule, limit, caution or size of line is gone, or weaker\n" +
			"  changed      another fit, or another outcome without one\n" +
			"  settled      a fit where cells disagreed or a check found it wrong\n" +
			"  gained       a fit where there was none\n" +
			"  vanished     vehicles that only OLD has\n" +
			"  appeared     vehicles that only NEW has\n\n" +
			"The exit status is 1 where a difference of a kind in --fail-on stands that nobody has accepted,\n" +
			"or where something is too irregular to be compared. With --fail-on never nothing fails.",
		Example: "  ferrule diff main:catalogue catalogue\n  ferrule diff main:catalogue catalogue --fail-on lost,conflict,changed\n" +
			"  ferrule diff site catalogue --format markdown",
		Args: both(atLeast(2, "two releases"), atMost(2, "two releases")),
		RunE: func(cmd *cobra.Command, args []string) error { return d.run(cmd, args[0], args[1]) },
	}
	cmd.Flags().StringVar(&d.format, "format", "text", "the `format` of differences: text, json or markdown")
	cmd.Flags().StringVar(&d.today, "today", "", "the `date` that acceptances are held against, as 2027-03-01 (default: the clock)")
	cmd.Flags().StringVar(&d.failOn, "fail-on", usualFailures, "the `kinds` that fail, separated by commas, or never")
	cmd.Flags().BoolVarP(&d.verbose, "verbose", "v", false, "tell on standard error what each workbook and stage took")
	register(cmd, "format", fixedWords(report.DiffFormats()...))
	register(cmd, "fail-on", listOf(append(kindNames(), "never")...))
	return cmd
}

func kindNames() []string {
	out := make([]string, compare.Kinds)
	for k := range compare.Kinds {
		out[k] = k.String()
	}
	return out
}

func (d *differing) run(cmd *cobra.Command, old, new string) error {
	out := output(cmd, d.format)
	width, _ := columns(out)
	write, err := report.NewDiff(d.format, report.Options{Width: width, Color: colored(out)})
	if err != nil {
		return &misuse{cmd, "--format: " + err.Error()}
	}
	fails, err := d.fails()
	if err != nil {
		return &misuse{cmd, "--fail-on: " + err.Error()}
	}
	today, err := date(d.today)
	if err != nil {
		return &misuse{cmd, err.Error()}
	}
	c, err := d.compare(cmd, old, new, today)
	if err != nil {
		return err
	}
	if err := buffered(stopping{cmd.Context(), out}, func(w io.Writer) error { return write(w, c) }); err != nil {
		return fmt.Errorf("the differences could not be written: %w", err)
	}
	if c.Any(fails) || len(fails) > 0 && len(c.Irregular) > 0 {
		return exit(findings)
	}
	return nil
}

// usualFailures are the kinds after which a vehicle may be left without its part, or
// without what keeps a wrong one from it.
const usualFailures = "lost,conflict,unsettled,unprotected"

// fails reads --fail-on.
func (d *differing) fails() ([]compare.Kind, error) {
	if word.Fold(d.failOn) == "never" {
		return nil, nil
	}
	return compare.ParseKinds(d.failOn)
}

// compare reads both releases and compares them.
func (d *differing) compare(cmd *cobra.Command, old, new, today string) (*data.Compared, error) {
	w := newWatch(cmd.ErrOrStderr(), d.verbose)
	defer w.end()
	o := compiler.Options{Today: today, Progress: w.stage, Brief: true}
	a, err := release.Open(cmd.Context(), old, o)
	if err != nil {
		return nil, err
	}
	b, err := release.Open(cmd.Context(), new, o)
	if err != nil {
		return nil, err
	}
	out := &data.Compared{Old: a.State, New: b.State}
	return out, w.step(stageCompare, func() (err error) {
		out.Diff, err = compare.Between(cmd.Context(), &a.Release, &b.Release, compare.Options{Today: today})
		return err
	})
}

// buffered writes through a buffer.
func buffered(w io.Writer, write func(io.Writer) error) error {
	b := bufio.NewWriter(w)
	return first(write(b), b.Flush())
}
