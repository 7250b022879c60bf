package cli

import (
	"io"

	"github.com/spf13/cobra"

	"ferrule/compiler/ask/pick"
	"ferrule/out/data"
	"ferrule/out/report"
)

func whyCommand() *cobra.Command {
	var a asking
	var v vehicle
	var position, part string
	cmd := &cobra.Command{
		Use:   "why PATH… --platform P --year Y [TRAIT=VALUE…]",
		Short: "Say why a vehicle gets the parts that it gets",
		Long: "Tells for each position which cells decide, which others match and are overruled, and why the\n" +
			"parts that other rows offer there are not offered: the columns that the vehicle does not meet,\n" +
			"and what would be found if they were offered all the same (a Compatibility row that forbids\n" +
			"them, another size of line, company that is missing). --part looks at one part, on the rows of\n" +
			"all platforms.\n\n" + vehicleHelp,
		Example: "  ferrule why catalogue --platform H7 --year 2009 --position \"Front damper\"\n" +
			"  ferrule why catalogue --platform H7 --year 2009 --part HPR-1104",
		Args:              atLeast(1, "a folder or a workbook"),
		ValidArgsFunction: completeAnswer,
		RunE: func(cmd *cobra.Command, args []string) error {
			desk, q, err := v.ask(cmd, &a, args)
			if err != nil {
				return err
			}
			focus, err := desk.Focus(position, part)
			if err != nil {
				return &misuse{cmd, err.Error()}
			}
			meant(cmd, focus)
			y, err := desk.Why(cmd.Context(), q, focus)
			if err != nil {
				return err
			}
			err = a.answer(cmd, func(w io.Writer, o report.Options) error { return report.Why(w, y, o) },
				func(w io.Writer) error { return data.Why(w, y) })
			if err == nil && y.Configurations.Sign() == 0 {
				return exit(findings)
			}
			return err
		},
	}
	a.flags(cmd)
	v.flags(cmd)
	cmd.Flags().StringVar(&position, "position", "", "explain this `position` only")
	cmd.Flags().StringVar(&part, "part", "", "explain why this `part` is offered, or not; another number of it will do")
	return cmd
}

// meant says which part another number stands for.
func meant(cmd *cobra.Command, f pick.Focus) {
	if r := f.Reference; r != nil {
		kind := ""
		if r.Source != "" {
			kind = " of " + r.Source
		}
		say(cmd.ErrOrStderr(), "%s is a number%s for %s (%s)", r.Number, kind, f.Part.Number, r.At.String())
	}
}
