package cli

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"ferrule/compiler"
	"ferrule/compiler/propose"
	"ferrule/compiler/reason"
	"ferrule/out/data"
	"ferrule/out/markup"
	"ferrule/out/proposal"
	"ferrule/out/report"
	"ferrule/sheets"
)

// layouting holds the flags of layout.
type layouting struct {
	asking
	with   []string
	output string
}

func layoutCommand() *cobra.Command {
	var l layouting
	cmd := &cobra.Command{
		Use:   "layout WORKBOOK [--with PATH]… [-o FILE.xlsx]",
		Short: "Propose how a workbook in another shape is read",
		Long: "Looks at a workbook that somebody already keeps (a chart with marks, a list with two rows of headings, a\n" +
			"list for each vehicle) and proposes rows of a Layouts sheet that say how to read it. With -o they are\n" +
			"written to a new workbook, with how sure each is, what could not be read and what to write instead\n" +
			"(Remarks), the rows that would come of it (_Preview), and drafts of the platforms, traits, positions,\n" +
			"vehicles and parts that the sheets name. The drafts do not count until somebody renames them without\n" +
			"the _. No workbook is ever written over.\n\n" +
			"--with names the catalogue that the workbook is to belong to: then headings and texts are known by\n" +
			"its names, and only what it lacks is drafted.\n\n" +
			"The exit status is 1 where nothing can be proposed.",
		Example: "  ferrule layout chart.xlsx -o catalogue/layouts.xlsx\n" +
			"  ferrule layout chart.xlsx --with catalogue --format json",
		Args: both(atLeast(1, "a workbook"), atMost(1, "one workbook")),
		RunE: func(cmd *cobra.Command, args []string) error { return l.run(cmd, args[0]) },
	}
	l.flags(cmd)
	cmd.Flags().StringArrayVar(&l.with, "with", nil, "a `path` of the catalogue that the workbook is to belong to; may be given several times")
	cmd.Flags().StringVarP(&l.output, "output", "o", "", "a new `workbook` to write the proposal to")
	return cmd
}

func (l *layouting) run(cmd *cobra.Command, path string) error {
	if err := l.check(cmd); err != nil {
		return err
	}
	if l.output != "" {
		if err := newWorkbook(cmd, l.output); err != nil {
			return err
		}
	}
	names, err := l.names(cmd)
	if err != nil {
		return err
	}
	p, err := look(path, names)
	if err != nil {
		return err
	}
	if l.output != "" && len(p.Rules) > 0 {
		if err := l.write(cmd, p); err != nil {
			return err
		}
	}
	file := filepath.Base(path)
	err = l.answer(cmd, func(w io.Writer, o report.Options) error { return report.Layout(w, file, p, o) },
		func(w io.Writer) error { return data.Layout(w, file, p) })
	if err == nil && len(p.Rules) == 0 {
		say(cmd.ErrOrStderr(), "nothing is proposed: no sheet of %s says which part and which vehicle its rows are about, in a way that is known", file)
		return exit(findings)
	}
	return err
}

// names gives the names of the catalogue beside the workbook; none where --with is not given.
func (l *layouting) names(cmd *cobra.Command) (*propose.Names, error) {
	if len(l.with) == 0 {
		return propose.NewNames(nil), nil
	}
	r, err := l.catalogue(cmd, l.with)
	if errors.Is(err, compiler.ErrNoSheet) {
		return nil, fmt.Errorf("--with: %w", err)
	}
	if err != nil {
		return nil, err
	}
	return propose.NewNames(r.Catalogue), nil
}

// look opens the workbook and looks at it.
func look(path string, names *propose.Names) (p *propose.Proposal, err error) {
	book, err := sheets.Open(path)
	if err != nil {
		return nil, fmt.Errorf("%s cannot be read: %w", path, reason.Of(err))
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	if p, err = propose.Look(filepath.Base(path), book, names); err != nil {
		return nil, fmt.Errorf("%s cannot be read: %w", path, reason.Of(err))
	}
	return p, nil
}

func (l *layouting) write(cmd *cobra.Command, p *propose.Proposal) error {
	if err := os.MkdirAll(filepath.Dir(l.output), 0o755); err != nil {
		return fmt.Errorf("the folder of %s cannot be made: %w", l.output, err)
	}
	if err := markup.Create(l.output, proposal.Sheets(p)...); err != nil {
		return err
	}
	say(cmd.ErrOrStderr(), "wrote %s; its Layouts sheet counts where it stands beside the workbook, its drafts once they are renamed without _", l.output)
	return nil
}
