package cli

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"ferrule/compiler/ask/exist"
	"ferrule/compiler/model"
	"ferrule/out/data"
	"ferrule/out/markup"
	"ferrule/out/report"
	"ferrule/schema"
	"ferrule/schema/word"
)

// listing holds the flags of vehicles.
type listing struct {
	asking
	platforms []string
	output    string
	propose   bool
}

func vehiclesCommand() *cobra.Command {
	var l listing
	cmd := &cobra.Command{
		Use:   "vehicles PATH… [--platform P] [--propose] [--format text|json|xlsx -o FILE.xlsx]",
		Short: "Say which vehicles exist, in few rows, and propose fewer rows that say the same",
		Long: "Lists which vehicles exist: what rows of Vehicles hold and rows of Breaks leave, in few rows, which\n" +
			"may share vehicles. With --format xlsx it is a new workbook with a sheet Vehicles that reads back\n" +
			"to the same vehicles, without how many are on the road: rows that are joined had numbers of their\n" +
			"own. No workbook is ever written over.\n\n" +
			"--propose looks for rows that somebody multiplied out: one row of all that occurs on a platform,\n" +
			"and rows of Breaks that say when each value was built. What is proposed is read back and leaves\n" +
			"exactly the same vehicles, in fewer rows; it takes the place of all rows of Vehicles and Breaks\n" +
			"about the platform, whose notes and sources are not carried over. The exit status is 1\n" +
			"where nothing shorter is found for any platform.",
		Example: "  ferrule vehicles catalogue --platform H7\n" +
			"  ferrule vehicles catalogue --propose -o fewer.xlsx",
		Args: atLeast(1, "a folder or a workbook"),
		RunE: func(cmd *cobra.Command, args []string) error { return l.run(cmd, args) },
	}
	f := cmd.Flags()
	f.StringVar(&l.format, "format", "text", "the `format` of the answer: text, json or xlsx")
	f.StringArrayVar(&l.platforms, "platform", nil, "vehicles of this `platform` only; may be given several times")
	f.BoolVar(&l.propose, "propose", false, "propose fewer rows of Vehicles, with rows of Breaks, that say the same")
	f.StringVarP(&l.output, "output", "o", "", "a new `workbook` to write the rows to")
	register(cmd, "format", fixedWords("text", "json", "xlsx"))
	return cmd
}

// check reads --format and -o, one of which follows from the other.
func (l *listing) check(cmd *cobra.Command) error {
	if l.output != "" && !cmd.Flags().Changed("format") {
		l.format = "xlsx"
	}
	known := []string{"text", "json", "xlsx"}
	switch {
	case l.format != "text" && l.format != "json" && l.format != "xlsx":
		return &misuse{cmd, fmt.Sprintf("--format: there is no format %q%s, write text, json or xlsx", l.format, word.DidYouMean(l.format, known))}
	case l.format == "xlsx" && l.output == "":
		return &misuse{cmd, "--format xlsx needs -o and the name of a new workbook"}
	case l.format != "xlsx" && l.output != "":
		return &misuse{cmd, fmt.Sprintf("-o writes a workbook, and --format %s goes to standard output", l.format)}
	case l.output != "":
		return newWorkbook(cmd, l.output)
	}
	return nil
}

func (l *listing) run(cmd *cobra.Command, args []string) error {
	if err := l.check(cmd); err != nil {
		return err
	}
	r, err := l.catalogue(cmd, args)
	if err != nil {
		return err
	}
	lister := exist.NewLister(r.Catalogue)
	platforms, err := platformsOf(lister, l.platforms)
	if err != nil {
		return &misuse{cmd, err.Error()}
	}
	if l.propose {
		return l.proposals(cmd, lister, platforms)
	}
	list, err := lister.List(cmd.Context(), platforms...)
	if err != nil {
		return err
	}
	if l.format == "xlsx" {
		return l.workbook(cmd, list, lister.Vehicles(list))
	}
	return l.answer(cmd, func(w io.Writer, o report.Options) error { return report.Vehicles(w, list, o) },
		func(w io.Writer) error { return data.Vehicles(w, list) })
}

func platformsOf(lister *exist.Lister, names []string) ([]*model.Platform, error) {
	var out []*model.Platform
	for _, name := range names {
		p, err := lister.Platform(name)
		if err != nil {
			return nil, err
		}
		out = append(out, p)
	}
	return out, nil
}

// workbook writes what exists as a sheet. A platform that is too irregular would be missing from it,
// and so would say that it has no vehicles.
func (l *listing) workbook(cmd *cobra.Command, list []exist.Platform, rows exist.Table) error {
	for _, p := range list {
		if !p.Exact {
			return fmt.Errorf("the vehicles of %s are too irregular to be worked out, so no workbook is written; name the others with --platform", p.Platform.Name)
		}
	}
	if len(rows.Rows) == 0 {
		say(cmd.ErrOrStderr(), "nothing is written: no vehicle exists")
		return exit(findings)
	}
	if slices.ContainsFunc(list, func(p exist.Platform) bool { return p.OnTheRoad.Sign() > 0 }) {
		say(cmd.ErrOrStderr(), "how many are on the road is left out: these rows are not the ones that had the numbers")
	}
	return l.create(cmd, sheetOf(schema.Title(schema.Vehicles), rows))
}

func (l *listing) create(cmd *cobra.Command, sheets ...markup.Sheet) error {
	if err := os.MkdirAll(filepath.Dir(l.output), 0o755); err != nil {
		return fmt.Errorf("the folder of %s cannot be made: %w", l.output, err)
	}
	if err := markup.Create(l.output, sheets...); err != nil {
		return err
	}
	say(cmd.ErrOrStderr(), "wrote %s; its rows say all about these platforms, and take the place of those that do so now", l.output)
	return nil
}

// sheetOf makes a sheet of rows: text, as it would be typed, but for how many are on the road.
func sheetOf(name string, rows exist.Table) markup.Sheet {
	s := markup.Table(name, rows.Columns, rows.Rows)
	for _, row := range s.Rows[1:] {
		for i := range row {
			switch {
			case row[i].Kind == markup.Blank:
			case rows.Columns[i] == exist.RoadColumn:
				row[i].Kind = markup.Number
			default:
				row[i].Kind = markup.Text
			}
		}
	}
	return s
}

// proposals answers --propose.
func (l *listing) proposals(cmd *cobra.Command, lister *exist.Lister, platforms []*model.Platform) error {
	list, err := lister.Propose(cmd.Context(), platforms...)
	if err != nil {
		return err
	}
	var vehicles, breaks []exist.Cells
	for _, p := range list {
		vehicles, breaks = append(vehicles, p.Vehicles...), append(breaks, p.Breaks...)
	}
	v, b := lister.VehiclesTable(vehicles), lister.BreaksTable(breaks)
	var status error
	if len(vehicles) == 0 {
		status = exit(findings)
	}
	if l.format != "xlsx" {
		err = l.answer(cmd, func(w io.Writer, o report.Options) error { return report.Proposals(w, list, v, b, o) },
			func(w io.Writer) error { return data.Proposals(w, list) })
		return errors.Join(err, status)
	}
	width, _ := columns(cmd.ErrOrStderr())
	err = report.Proposals(cmd.ErrOrStderr(), list, exist.Table{}, exist.Table{}, report.Options{Width: width})
	if err != nil || status != nil {
		return errors.Join(err, status)
	}
	sheets := []markup.Sheet{sheetOf(schema.Title(schema.Vehicles), v)}
	if len(b.Rows) > 0 {
		sheets = append(sheets, sheetOf(schema.Title(schema.Breaks), b))
	}
	return l.create(cmd, sheets...)
}

// newWorkbook holds the name of a workbook that is to be written.
func newWorkbook(cmd *cobra.Command, name string) error {
	if ext := strings.ToLower(filepath.Ext(name)); ext != ".xlsx" {
		return &misuse{cmd, fmt.Sprintf("-o: %s must end in .xlsx", name)}
	}
	if _, err := os.Lstat(name); err == nil {
		return fmt.Errorf("%s is there already, and no workbook is ever written over; name a new file", name)
	}
	return nil
}
