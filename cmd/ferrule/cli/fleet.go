package cli

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"ferrule/compiler/ask/fleet"
	"ferrule/out/data"
	sheets "ferrule/out/fleet"
	"ferrule/out/markup"
	"ferrule/out/report"
	"ferrule/schema/word"
)

// fleeting holds the flags of fleet.
type fleeting struct {
	asking
	output, sheet string
}

// fleetFormats are the formats of the answer.
func fleetFormats() []string { return []string{"text", "json", "csv"} }

func fleetCommand() *cobra.Command {
	var l fleeting
	cmd := &cobra.Command{
		Use:   "fleet PATH… FLEET.xlsx [-o OUT.xlsx]",
		Short: "List the parts for many vehicles, and one order for all",
		Long: "Reads vehicles as a customer lists them, one a row: Platform, Year, any trait, and Quantity where a row\n" +
			"stands for several; other columns are carried along. Names are taken as Also called has them. A blank\n" +
			"cell, or ?, is what nobody has looked at yet. A Layouts sheet of the catalogue or of the fleet may say how\n" +
			"a list in another shape is read.\n\n" +
			"With -o the answer is a new workbook: Cautions, Parts by vehicle, To order (kits once, and not what they\n" +
			"hold), To ask (what is open, what takes the least to see first) and Not read. Where something is open\n" +
			"both the least and the most quantity are told. Nothing is ordered for a vehicle that does not exist, or\n" +
			"for a place that is not settled. --format csv prints one of these sheets (--sheet), --format json all.\n\n" +
			"The exit status is 1 where a row is not taken: what to write instead stands in Not read.",
		Example: "  ferrule fleet catalogue customer.xlsx -o order.xlsx\n" +
			"  ferrule fleet catalogue customer.csv --format csv --sheet \"To order\"",
		Args: atLeast(2, "the catalogue and the workbook of the fleet"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return l.run(cmd, args[:len(args)-1], args[len(args)-1])
		},
	}
	cmd.Flags().StringVar(&l.format, "format", "text", "the `format` of the answer: text, json or csv")
	cmd.Flags().StringVarP(&l.output, "output", "o", "", "a new `workbook` to write the answer to")
	cmd.Flags().StringVar(&l.sheet, "sheet", sheets.Parts, "the `sheet` that --format csv prints")
	register(cmd, "format", fixedWords(fleetFormats()...))
	register(cmd, "sheet", fixedWords(sheets.Names()...))
	return cmd
}

func (l *fleeting) run(cmd *cobra.Command, paths []string, path string) error {
	if err := l.allowed(cmd); err != nil {
		return err
	}
	info, err := os.Stat(path)
	if err == nil && info.IsDir() {
		return &misuse{cmd, fmt.Sprintf("%s is a folder; the last path is the workbook of the fleet", path)}
	}
	r, err := l.catalogue(cmd, paths)
	if err != nil {
		return err
	}
	f := fleet.New(r.Catalogue)
	if err := f.Read(path, r.Fleets); err != nil {
		return err
	}
	if err := f.Answer(cmd.Context()); err != nil {
		return err
	}
	if l.output != "" {
		if err := l.write(cmd, f); err != nil {
			return err
		}
	}
	if err := l.print(cmd, f); err != nil {
		return err
	}
	if len(f.Refused) > 0 {
		return exit(findings)
	}
	return nil
}

// allowed reads the flags.
func (l *fleeting) allowed(cmd *cobra.Command) error {
	if !slices.Contains(fleetFormats(), l.format) {
		return &misuse{cmd, fmt.Sprintf("--format: there is no format %q%s, write text, json or csv", l.format, word.DidYouMean(l.format, fleetFormats()))}
	}
	i := slices.IndexFunc(sheets.Names(), func(n string) bool { return word.Fold(n) == word.Fold(l.sheet) })
	if i < 0 {
		return &misuse{cmd, fmt.Sprintf("--sheet: there is no sheet %q%s, write %s", l.sheet, word.DidYouMean(l.sheet, sheets.Names()), word.List(sheets.Names(), "or"))}
	}
	l.sheet = sheets.Names()[i]
	if cmd.Flags().Changed("sheet") && l.format != "csv" {
		return &misuse{cmd, "--sheet is for --format csv alone"}
	}
	if l.output == "" {
		return nil
	}
	return newWorkbook(cmd, l.output)
}

func (l *fleeting) write(cmd *cobra.Command, f *fleet.Fleet) error {
	if err := os.MkdirAll(filepath.Dir(l.output), 0o755); err != nil {
		return fmt.Errorf("the folder of %s cannot be made: %w", l.output, err)
	}
	if err := markup.CreateLong(l.output, sheets.Tables(f)); err != nil {
		return err
	}
	say(cmd.ErrOrStderr(), "wrote %s", l.output)
	return nil
}

// print writes to standard output in the format asked for.
func (l *fleeting) print(cmd *cobra.Command, f *fleet.Fleet) error {
	if l.format != "csv" {
		return l.answer(cmd, func(w io.Writer, o report.Options) error { return report.Fleet(w, f, o) },
			func(w io.Writer) error { return data.Fleet(w, f) })
	}
	buffered := bufio.NewWriter(output(cmd, l.format))
	tables := sheets.Tables(f)
	i := slices.IndexFunc(tables, func(t markup.Long) bool { return t.Name == l.sheet })
	if err := first(sheets.CSV(buffered, tables[i]), buffered.Flush()); err != nil {
		return fmt.Errorf("the answer could not be written: %w", err)
	}
	l.besides(cmd, f)
	return nil
}

// besides tells what stands in sheets that are not printed.
func (l *fleeting) besides(cmd *cobra.Command, f *fleet.Fleet) {
	var words []string
	if n := len(f.Refused) + len(f.Remarks); n > 0 && l.sheet != sheets.NotRead {
		words = append(words, fmt.Sprintf("%d in %q", n, sheets.NotRead))
	}
	if n := len(f.Cautions); n > 0 && l.sheet != sheets.Cautions {
		words = append(words, fmt.Sprintf("%d in %q", n, sheets.Cautions))
	}
	if words != nil {
		say(cmd.ErrOrStderr(), "%s", "rows that are not printed here: "+strings.Join(words, ", "))
	}
}
