package cli

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode"

	"github.com/spf13/cobra"

	"ferrule/compiler"
	"ferrule/compiler/bind"
	"ferrule/compiler/finding"
	"ferrule/compiler/judge/accept/draft"
	"ferrule/compiler/kinds"
	"ferrule/compiler/model"
	"ferrule/out/data"
	"ferrule/out/markup"
	"ferrule/out/report"
	"ferrule/out/visible"
	"ferrule/schema/word"
)

// accepting holds the flags of accept.
type accepting struct {
	asking
	today, output, severity            string
	codes, platforms, positions, parts []string
	terms                              draft.Options
}

func acceptCommand() *cobra.Command {
	var a accepting
	cmd := &cobra.Command{
		Use:   "accept PATH… --code CODE… --reason TEXT --by NAME [-o FILE.xlsx]",
		Short: "Write Accepted rows for findings that stand",
		Long: "Writes rows of an Accepted sheet that quiet findings which stand, for exactly their vehicles: as\n" +
			"text to paste into a sheet, or with -o as a new workbook that counts once it stands beside the\n" +
			"others. No workbook is ever written over. What is accepted is told on standard error.\n\n" +
			"--code all picks every code. --severity, --platform, --position and --part narrow what is picked;\n" +
			"all but the first may be given several times. Findings that a row cannot name alone, since they are about no certain\n" +
			"vehicles, platform, position or part, are left out and told, unless --broad accepts every finding\n" +
			"of their code.\n\n" +
			"The exit status is 1 where something was left out, or where nothing stands that could be accepted.",
		Example: "  ferrule accept catalogue --code coverage-gap --platform H7 --reason \"no brackets before 2009\" --by \"parts desk\" --until 2027-12-31\n" +
			"  ferrule accept catalogue --code all --severity error --reason \"as we found it\" --by \"parts desk\" -o catalogue/baseline.xlsx",
		Args: atLeast(1, "a folder or a workbook"),
		RunE: func(cmd *cobra.Command, args []string) error { return a.run(cmd, args) },
	}
	a.flags(cmd)
	f := cmd.Flags()
	f.StringArrayVar(&a.codes, "code", nil, "the `code` of findings to accept, or all")
	f.StringVar(&a.severity, "severity", "note", "the least `severity` that is picked: error, warning or note")
	f.StringArrayVar(&a.platforms, "platform", nil, "findings on this `platform` only")
	f.StringArrayVar(&a.positions, "position", nil, "findings at this `position` only")
	f.StringArrayVar(&a.parts, "part", nil, "findings about this `part` only")
	f.StringVar(&a.terms.Reason, "reason", "", "why it is accepted, a line of `text`")
	f.StringVar(&a.terms.By, "by", "", "the `name` of who answers for it")
	f.StringVar(&a.terms.Until, "until", "", "the last day on which it is accepted, a `date` as 2027-12-31")
	f.BoolVar(&a.terms.Broad, "broad", false, "also accept findings of which a row can name nothing but the code")
	f.StringVarP(&a.output, "output", "o", "", "a new `workbook` to write the rows to")
	f.StringVar(&a.today, "today", "", "the `date` that acceptances are held against, as 2027-03-01 (default: the clock)")
	register(cmd, "code", fixedWords(append(codeNames(), "all")...))
	return cmd
}

func (a *accepting) run(cmd *cobra.Command, args []string) error {
	if err := a.read(cmd); err != nil {
		return err
	}
	today, err := date(a.today)
	if err != nil {
		return &misuse{cmd, err.Error()}
	}
	if a.terms.Until != "" && a.terms.Until < today {
		return &misuse{cmd, fmt.Sprintf("--until: %s has passed (today is %s), so the rows would accept nothing; write a later date", a.terms.Until, today)}
	}
	w := newWatch(cmd.ErrOrStderr(), false)
	defer w.end()
	r, err := compiler.Compile(cmd.Context(), compiler.Input{Paths: args}, compiler.Options{Today: today, Progress: w.stage})
	if err != nil {
		return err
	}
	w.end()
	if !r.Whole {
		return errors.New("a workbook cannot be read whole, so nothing can be accepted; ferrule check tells what is wrong")
	}
	if err := a.names(r.Catalogue); err != nil {
		return &misuse{cmd, err.Error()}
	}
	d := draft.New(r.Catalogue, r.Findings, a.terms)
	if err := a.write(cmd, d); err != nil {
		return err
	}
	if len(d.Left) > 0 || len(d.Entries) == 0 {
		return exit(findings)
	}
	return nil
}

// read holds the flags against each other and finds the codes.
func (a *accepting) read(cmd *cobra.Command) error {
	if err := a.check(cmd); err != nil {
		return err
	}
	for _, f := range []struct{ name, text string }{{"reason", a.terms.Reason}, {"by", a.terms.By}} {
		if strings.TrimSpace(f.text) == "" {
			return &misuse{cmd, fmt.Sprintf("accept needs --%s: whoever reads the row later asks for it", f.name)}
		}
		if strings.ContainsFunc(f.text, unicode.IsControl) {
			return &misuse{cmd, fmt.Sprintf("--%s is one line of text", f.name)}
		}
	}
	least, some, err := threshold(a.severity)
	if err != nil || !some {
		return &misuse{cmd, fmt.Sprintf("--severity: %q is none of error, warning and note", a.severity)}
	}
	a.terms.Select.Severity = least
	if a.terms.Until != "" {
		if _, err := date(a.terms.Until); err != nil {
			return &misuse{cmd, fmt.Sprintf("--until: %q is not a date, write it as 2027-12-31", a.terms.Until)}
		}
	}
	if a.output != "" {
		if err := newWorkbook(cmd, a.output); err != nil {
			return err
		}
	}
	return a.findCodes(cmd)
}

func (a *accepting) findCodes(cmd *cobra.Command) error {
	if len(a.codes) == 0 {
		return &misuse{cmd, "accept needs --code: which findings are meant, or all"}
	}
	var known []string
	for _, k := range kinds.All() {
		known = append(known, string(k.Code))
	}
	for _, c := range a.codes {
		code := word.Fold(c)
		switch {
		case code == "all":
			a.terms.Select.Codes = nil
			return nil
		case !slices.Contains(known, code):
			return &misuse{cmd, fmt.Sprintf("there is no finding %q%s; ferrule explain lists them all", c, word.DidYouMean(c, known))}
		}
		a.terms.Select.Codes = append(a.terms.Select.Codes, finding.Code(code))
	}
	return nil
}

// names finds what --platform, --position and --part name.
func (a *accepting) names(cat *model.Catalogue) (err error) {
	words, s := bind.Outside(cat), &a.terms.Select
	if s.Platforms, err = each(a.platforms, words.Platform, func(p *model.Platform) string { return p.Name }); err != nil {
		return err
	}
	if s.Positions, err = each(a.positions, words.Position, func(p *model.Position) string { return p.Name }); err != nil {
		return err
	}
	s.Parts, err = each(a.parts, words.Part, func(p *model.Part) string { return p.Number })
	return err
}

func each[T any](names []string, find func(string) (T, error), name func(T) string) ([]string, error) {
	var out []string
	for _, n := range names {
		v, err := find(n)
		if err != nil {
			return nil, err
		}
		out = append(out, name(v))
	}
	return out, nil
}

// write gives the rows, and tells what they accept.
func (a *accepting) write(cmd *cobra.Command, d *draft.Draft) error {
	stderr := cmd.ErrOrStderr()
	width, _ := columns(stderr)
	if len(d.Entries) > 0 && a.output != "" {
		if err := os.MkdirAll(filepath.Dir(a.output), 0o755); err != nil {
			return fmt.Errorf("the folder of %s cannot be made: %w", a.output, err)
		}
		if err := markup.Create(a.output, markup.Table("Accepted", d.Columns, d.Rows)); err != nil {
			return err
		}
	}
	visibly := output(cmd, a.format)
	out := bufio.NewWriter(visibly)
	var err error
	switch {
	case a.format == "json":
		err = data.Draft(out, d)
	case a.output == "" && len(d.Entries) > 0:
		err = report.Rows(out, d)
	}
	if err = first(err, out.Flush()); err != nil {
		return fmt.Errorf("the rows could not be written: %w", err)
	}
	if v, ok := visibly.(*visible.Writer); ok && a.format == "text" && v.Escaped() > 0 {
		say(stderr, "signs in these rows that cannot be seen are written as <U+202E> is, and so the rows name nothing: write a workbook with -o, which keeps them, or mend the names")
	}
	if len(d.Entries) == 0 {
		say(stderr, "nothing is written: no finding stands that fits and that a row can accept")
	}
	err = a.tell(stderr, d, report.Options{Width: width})
	if len(d.Entries) > 0 && a.output != "" {
		say(stderr, "wrote %s; it counts once it stands beside the catalogue's workbooks", a.output)
	}
	return err
}

func (a *accepting) tell(w io.Writer, d *draft.Draft, o report.Options) error {
	if len(d.Entries) == 0 && len(d.Left) == 0 {
		return nil
	}
	return report.Drafted(w, d, o)
}
