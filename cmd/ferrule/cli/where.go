package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"ferrule/compiler/model"
	"ferrule/out/data"
	"ferrule/out/offer"
	"ferrule/out/report"
)

func whereCommand() *cobra.Command {
	var a asking
	cmd := &cobra.Command{
		Use:   "where PATH… NUMBER…",
		Short: "Say where a part goes, by any of its numbers",
		Long: "Says what each number stands for: a part, a kit, or a number that others use for one. Of each part:\n" +
			"which vehicles take it, at which position, as which choice and in which kit, what replaces it and\n" +
			"what it replaces, and which Compatibility rows speak of it. What replaces a part that was asked\n" +
			"about follows behind. A number is found as it is written or, where nothing is written so, by its\n" +
			"letters and digits; where several parts share one, all are told.\n\n" +
			"What is there on the disk is a PATH, and paths come first; write -- before a number that is called like a\n" +
			"file. The exit status is 1 where a number stands for nothing.",
		Example: "  ferrule where catalogue HPR-1103\n" +
			"  ferrule where catalogue 'TH 320 126 03' 'BRN-600381' --format json",
		Args: atLeast(1, "a folder or a workbook, and a number"),
		ValidArgsFunction: func(cmd *cobra.Command, args []string, begun string) ([]string, cobra.ShellCompDirective) {
			if len(args) == 0 {
				return nil, cobra.ShellCompDirectiveDefault
			}
			return fromCatalogue(allNumbers)(cmd, args[:1], begun)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := a.check(cmd); err != nil {
				return err
			}
			paths, numbers, err := numbersIn(cmd, args)
			if err != nil {
				return err
			}
			r, err := a.catalogue(cmd, paths)
			if err != nil {
				return err
			}
			return a.where(cmd, r.Catalogue, numbers)
		},
	}
	a.flags(cmd)
	return cmd
}

// where answers what numbers stand for and where the parts go.
func (a *asking) where(cmd *cobra.Command, cat *model.Catalogue, numbers []string) error {
	known := offer.NewNumbers(cat)
	var asked []offer.Asked
	var parts []*model.Part
	lost := false
	for _, n := range numbers {
		one := known.Find(n)
		asked, lost = append(asked, one), lost || one.None()
		parts = append(parts, one.All()...)
	}
	found, err := offer.Find(cmd.Context(), cat, inTheirPlace(parts))
	if err != nil {
		return err
	}
	rel := model.NewRelations(cat)
	err = a.answer(cmd, func(w io.Writer, o report.Options) error { return report.Where(w, asked, found, rel, o) },
		func(w io.Writer) error { return data.Where(w, asked, found, rel) })
	if err == nil && lost {
		return exit(findings)
	}
	return err
}

// inTheirPlace gives parts, each once, and behind them those at the ends of what replaces them.
func inTheirPlace(parts []*model.Part) []*model.Part {
	var out []*model.Part
	add := func(all []*model.Part) {
		for _, p := range all {
			if !slices.Contains(out, p) {
				out = append(out, p)
			}
		}
	}
	add(parts)
	for _, p := range parts {
		_, ends := p.Replaced()
		add(ends)
	}
	return out
}

// numbersIn parts paths from the numbers behind them.
func numbersIn(cmd *cobra.Command, args []string) (paths, numbers []string, err error) {
	n := slices.IndexFunc(args, func(a string) bool { _, err := os.Stat(a); return err != nil && !errors.Is(err, fs.ErrPermission) })
	if dash := cmd.ArgsLenAtDash(); dash >= 0 {
		n = dash
	}
	switch {
	case n == 0:
		return nil, nil, &misuse{cmd, fmt.Sprintf("there is no folder and no workbook %q; paths come before numbers", args[0])}
	case n < 0 || n == len(args):
		return nil, nil, &misuse{cmd, "where needs a number behind the folder or the workbook"}
	}
	if slices.ContainsFunc(args[n:], func(a string) bool { return strings.TrimSpace(a) == "" }) {
		return nil, nil, &misuse{cmd, "a number is blank; write the number of a part"}
	}
	return args[:n], args[n:], nil
}

// allNumbers lists the numbers of parts, then those that others use.
func allNumbers(c *model.Catalogue) []string {
	out := names(c.Parts, func(p *model.Part) string { return p.Number })
	return append(out, names(c.References, func(r *model.Reference) string { return r.Number })...)
}
