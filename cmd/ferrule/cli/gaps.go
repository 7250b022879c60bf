package cli

import (
	"io"

	"github.com/spf13/cobra"

	"ferrule/compiler/ask/gaps"
	"ferrule/compiler/model"
	"ferrule/out/data"
	"ferrule/out/report"
)

func gapsCommand() *cobra.Command {
	var a asking
	var o gaps.Options
	var platform, position, today string
	var rows []string
	var top int
	cmd := &cobra.Command{
		Use:   "gaps PATH…",
		Short: "Rank what is not listed yet, and try what a new part would cover",
		Long: "Lists where no fitment cell says anything, the position and the platform first for which most\n" +
			"vehicles on the road wait (then most configurations), in boxes of which each counts what those\n" +
			"before it do not hold. Gaps that someone accepted are counted apart.\n\n" +
			"--if tries fitment rows that no sheet has: what they would newly cover, where they would\n" +
			"disagree with other cells, take their place or be overruled, and what checks would find. A row\n" +
			"is written as PART in POSITION where CONDITIONS. PART is what a fitment cell may say, also of a\n" +
			"number that is not declared yet; CONDITIONS are columns with what would stand under them, with\n" +
			"commas between. Precedence may be among them and, for a number that is not declared, Line size\n" +
			"and Family. Given several times, the rows are tried together.",
		Example: "  ferrule gaps catalogue\n" +
			"  ferrule gaps catalogue --if \"HD-24 in Front damper where Platform = H7, Front suspension = Air beam, Years = 2009+\"\n" +
			"  ferrule gaps catalogue --if \"FR-12 in Front restrictor where Front air line = 1/2 in, Line size = 1/2 in\"",
		Args: atLeast(1, "a folder or a workbook"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := a.check(cmd); err != nil {
				return err
			}
			if top < 0 {
				return &misuse{cmd, "--top is a number of boxes, or 0 for all"}
			}
			var err error
			if o.Today, err = date(today); err != nil {
				return &misuse{cmd, err.Error()}
			}
			r, err := a.catalogue(cmd, args)
			if err != nil {
				return err
			}
			reader := gaps.NewReader(r.Catalogue)
			if len(rows) > 0 {
				return try(cmd, &a, r.Catalogue, reader, rows)
			}
			if o.Platform, o.Position, err = places(reader, platform, position); err != nil {
				return &misuse{cmd, err.Error()}
			}
			ranking, err := gaps.Rank(cmd.Context(), r.Catalogue, o)
			if err != nil {
				return err
			}
			return a.answer(cmd, func(w io.Writer, o report.Options) error { return report.Gaps(w, ranking, top, o) },
				func(w io.Writer) error { return data.Gaps(w, ranking) })
		},
	}
	a.flags(cmd)
	cmd.Flags().StringVar(&platform, "platform", "", "gaps of this `platform` only")
	cmd.Flags().StringVar(&position, "position", "", "gaps at this `position` only")
	cmd.Flags().BoolVar(&o.Optional, "optional", false, "positions whose Coverage is optional as well")
	cmd.Flags().IntVar(&top, "top", 5, "how many boxes of each gap are written as text, a `number`; 0 for all")
	cmd.Flags().StringArrayVar(&rows, "if", nil, "try a `row`: PART in POSITION where CONDITIONS")
	cmd.Flags().StringVar(&today, "today", "", "the `date` that acceptances are held against, as 2027-03-01 (default: the clock)")
	return cmd
}

// places reads the names of a platform and a position, "" for all.
func places(r *gaps.Reader, platform, position string) (p *model.Platform, pos *model.Position, err error) {
	if platform != "" {
		if p, err = r.Platform(platform); err != nil {
			return nil, nil, err
		}
	}
	if position != "" {
		pos, err = r.Position(position)
	}
	return p, pos, err
}

// try tells what rows would change.
func try(cmd *cobra.Command, a *asking, cat *model.Catalogue, reader *gaps.Reader, texts []string) error {
	var rows []*gaps.Row
	for _, text := range texts {
		row, err := reader.Row(text)
		if err != nil {
			return &misuse{cmd, "--if: " + err.Error()}
		}
		rows = append(rows, row)
	}
	e, err := gaps.If(cmd.Context(), cat, rows)
	if err != nil {
		return err
	}
	return a.answer(cmd, func(w io.Writer, o report.Options) error { return report.Effect(w, e, o) },
		func(w io.Writer) error { return data.Effect(w, e) })
}
