package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"ferrule/compiler/ask/pick"
	"ferrule/out/data"
	"ferrule/out/report"
)

// vehicle holds the flags that say which vehicle is asked about.
type vehicle struct {
	platform, year string
}

func (v *vehicle) flags(cmd *cobra.Command) {
	cmd.Flags().StringVar(&v.platform, "platform", "", "the vehicle's `platform`")
	cmd.Flags().StringVar(&v.year, "year", "", "its chassis model `year`, or several as in a Years cell")
}

// vehicleHelp says how a vehicle is told.
const vehicleHelp = "The vehicle is told by --platform, --year and answers such as \"Levelling=Mechanical\". Names and\n" +
	"values are read as condition cells are: in any case, sizes by magnitude, \"A or B\" where one of two\n" +
	"is meant, n/a where a trait does not apply, a serial number or a date as it stands on the plate.\n" +
	"What is left out is no mistake: the answer says what is certain without it, and what it would change.\n" +
	"Of a vehicle that does not exist it says which rows of Breaks say so."

func pickCommand() *cobra.Command {
	var a asking
	var v vehicle
	var part, complaint string
	var read bool
	cmd := &cobra.Command{
		Use:   "pick PATH… --platform P --year Y [TRAIT=VALUE…]",
		Short: "List the parts for one vehicle",
		Long: "Lists what belongs at each position of a vehicle: parts with their quantities, what is in kits,\n" +
			"alternatives in order of preference, notes and cautions, or why there is none. Where cells\n" +
			"disagree, or a part is forbidden or for another line, no part is named.\n\n" + vehicleHelp + "\n\n" +
			"What was not told comes with its question and how to tell, what takes the least to see first.\n" +
			"--part lists only the positions where a part is offered, by any of its numbers.\n" +
			"--complaint takes what the driver says, as a Complaints sheet has it, and lists what to check first and\n" +
			"the places that it may be about, in the order in which they are looked at. --read says the same in\n" +
			"sentences to read aloud on the phone, with what to ask next.\n\n" +
			"The exit status is 1 where no such vehicle exists, and the nearest that do are told; or where\n" +
			"it does not get the part, or the complaint is not about it.",
		Example: "  ferrule pick catalogue --platform H7 --year 2009 \"Rear suspension=Two air springs\"\n" +
			"  ferrule pick catalogue --platform H7 --format json\n" +
			"  ferrule pick catalogue --platform H7 --complaint \"rocks from side to side\"",
		Args:              atLeast(1, "a folder or a workbook"),
		ValidArgsFunction: completeAnswer,
		RunE: func(cmd *cobra.Command, args []string) error {
			if read && a.format != "text" {
				return &misuse{cmd, "--read is text, and --format asks for something else"}
			}
			if cmd.Flags().Changed("complaint") && strings.TrimSpace(complaint) == "" {
				return &misuse{cmd, "--complaint is blank; write what the driver says is wrong"}
			}
			desk, q, err := v.ask(cmd, &a, args)
			if err != nil {
				return err
			}
			focus, err := desk.Focus("", part)
			if err != nil {
				return &misuse{cmd, err.Error()}
			}
			meant(cmd, focus)
			says, err := desk.Complaint(complaint)
			if err != nil {
				return &misuse{cmd, err.Error()}
			}
			l, err := desk.List(cmd.Context(), q)
			if err != nil {
				return err
			}
			if part != "" && l.Configurations.Sign() > 0 && !l.Only(focus.Part) {
				say(cmd.ErrOrStderr(), "%s is offered at no position of this vehicle; ferrule why --part tells why not", focus.Part.Number)
				return exit(findings)
			}
			if says != "" && l.Configurations.Sign() > 0 && !l.Against(says) {
				say(cmd.ErrOrStderr(), "no row of Complaints says what %q is about on this vehicle: stop and ask", says)
				return exit(findings)
			}
			text := report.Pick
			if read {
				text = report.Read
			}
			err = a.answer(cmd, func(w io.Writer, o report.Options) error { return text(w, l, o) },
				func(w io.Writer) error { return data.Pick(w, l) })
			if err == nil && l.Configurations.Sign() == 0 {
				return exit(findings)
			}
			return err
		},
	}
	a.flags(cmd)
	v.flags(cmd)
	cmd.Flags().StringVar(&part, "part", "", "only where this `part` is offered; another number of it will do")
	cmd.Flags().StringVar(&complaint, "complaint", "", "what the driver `says` is wrong, as a Complaints sheet has it")
	cmd.Flags().BoolVar(&read, "read", false, "sentences to read aloud, with what to ask next")
	return cmd
}

// ask reads the catalogue, and which vehicle is meant.
func (v *vehicle) ask(cmd *cobra.Command, a *asking, args []string) (*pick.Lookup, *pick.Query, error) {
	if err := a.check(cmd); err != nil {
		return nil, nil, err
	}
	paths, answers := split(args)
	if len(paths) == 0 {
		return nil, nil, &misuse{cmd, cmd.Name() + " needs a folder or a workbook"}
	}
	for _, p := range paths[1:] {
		if _, err := os.Stat(p); errors.Is(err, fs.ErrNotExist) {
			return nil, nil, &misuse{cmd, fmt.Sprintf("there is no folder and no workbook %q; what is told of the vehicle is written TRAIT=VALUE", p)}
		}
	}
	r, err := a.catalogue(cmd, paths)
	if err != nil {
		return nil, nil, err
	}
	desk := pick.NewLookup(r.Catalogue)
	q, err := desk.Query(v.platform, v.year, answers)
	if err != nil {
		return nil, nil, &misuse{cmd, err.Error()}
	}
	return desk, q, nil
}
