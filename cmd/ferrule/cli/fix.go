package cli

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"

	"github.com/spf13/cobra"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/kinds"
	"ferrule/out/fix"
	"ferrule/out/original"
	"ferrule/schema/word"
)

// fixing holds the flags of fix.
type fixing struct {
	asking
	dir, today   string
	list         bool
	codes, cells []string
}

func fixCommand() *cobra.Command {
	var x fixing
	cmd := &cobra.Command{
		Use:   "fix PATH… (--list | -o DIR)",
		Short: "Write copies of workbooks in which what can only be meant one way is mended",
		Long: "Lists with --list what can be repaired: the cell, what it holds, what would be written, and why\n" +
			"nothing else can be meant. With -o it writes a copy of each workbook with the repairs made, and all\n" +
			"else as it was, whatever program wrote it. Most findings have no repair, since only a person knows what was\n" +
			"meant: look through the list before you take it.\n\n" +
			"--code and --cell narrow what is repaired; both may be given several times. A repair after which its finding\n" +
			"is still there, or after which another finding comes, is not made, and told; --list tries them as well.\n\n" +
			"The workbooks are only read. DIR must not hold them, and is replaced as a whole, and only if it is new,\n" +
			"empty or an earlier output.\n\n" +
			"The exit status is 1 where a repair was dropped, or where there is none.",
		Example: "  ferrule fix catalogue --list\n  ferrule fix catalogue -o mended --code cell-lookalike --cell \"Fitment H7!F12\"",
		Args:    atLeast(1, "a folder or a workbook"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if x.list == (x.dir != "") {
				return &misuse{cmd, "fix either lists what it would write, with --list, or writes it, with -o DIR"}
			}
			return x.run(cmd, args)
		},
	}
	x.flags(cmd)
	f := cmd.Flags()
	f.BoolVar(&x.list, "list", false, "list what would be repaired, and write nothing")
	f.StringVarP(&x.dir, "output", "o", "", "the `folder` to write copies to")
	f.StringArrayVar(&x.codes, "code", nil, "repair findings of this `code` only")
	f.StringArrayVar(&x.cells, "cell", nil, "repair this `cell` only, as findings name it: Sheet!B7, or workbook.xlsx:Sheet!B7")
	f.StringVar(&x.today, "today", "", "the `date` that acceptances are held against, as 2027-03-01 (default: the clock)")
	register(cmd, "cell", completeRepair)
	return cmd
}

func (x *fixing) run(cmd *cobra.Command, paths []string) error {
	if err := x.check(cmd); err != nil {
		return err
	}
	today, err := date(x.today)
	if err != nil {
		return &misuse{cmd, err.Error()}
	}
	if err := x.known(cmd); err != nil {
		return err
	}
	books, err := original.Note(paths)
	if err != nil {
		return err
	}
	w := newWatch(cmd.ErrOrStderr(), false)
	defer w.end()
	r, err := compiler.Compile(cmd.Context(), compiler.Input{Paths: paths}, compiler.Options{Today: today, Progress: w.stage, Compare: true})
	if err != nil {
		return err
	}
	w.end()
	if !r.Whole {
		return errors.New("a workbook cannot be read whole, so nothing can be repaired; ferrule check tells what is wrong")
	}
	all, err := x.picked(cmd, fix.Proposals(r.Findings))
	if err != nil {
		return err
	}
	c := &fix.Catalogue{Paths: paths, Before: r, Bytes: compiled(books), Today: today}
	made, err := c.Copies(cmd.Context(), all)
	if err != nil {
		return err
	}
	if err := x.tell(cmd, all); err != nil {
		return err
	}
	if !x.list && len(made) > 0 {
		var copies []copied
		for _, name := range books.Names {
			if c := made[name]; c != nil {
				copies = append(copies, copied{books.File(name), c.Bytes})
			}
		}
		if err := place(cmd.Context(), cmd, x.dir, paths, copies); err != nil {
			return err
		}
		for _, name := range books.Names {
			if c := made[name]; c != nil && c.Signed {
				say(cmd.ErrOrStderr(), "%s is signed, and the signature does not hold for the copy", name)
			}
		}
		say(cmd.ErrOrStderr(), "wrote %s to %s", count(len(copies), "repaired copy", "repaired copies"), filepath.Clean(x.dir))
	}
	if len(all) == 0 {
		say(cmd.ErrOrStderr(), "nothing can be repaired: no finding can be meant in one way only")
	}
	if len(made) == 0 || slices.ContainsFunc(all, func(p *fix.Proposal) bool { return p.Dropped != "" }) {
		return exit(findings)
	}
	return nil
}

// known holds --code against the codes that there are.
func (x *fixing) known(cmd *cobra.Command) error {
	var codes []string
	for _, k := range kinds.All() {
		codes = append(codes, string(k.Code))
	}
	for i, c := range x.codes {
		x.codes[i] = word.Fold(c)
		if !slices.Contains(codes, x.codes[i]) {
			return &misuse{cmd, fmt.Sprintf("there is no finding %q%s; ferrule explain lists them all", c, word.DidYouMean(c, codes))}
		}
	}
	return nil
}

// picked narrows what is repaired. A cell that has no repair is told, since somebody asked for it.
func (x *fixing) picked(cmd *cobra.Command, all []*fix.Proposal) ([]*fix.Proposal, error) {
	used := map[string]bool{}
	var out []*fix.Proposal
	for _, p := range all {
		names := []string{p.At.String(), inSheet(p)}
		at := slices.IndexFunc(x.cells, func(c string) bool { return slices.Contains(names, c) })
		if at >= 0 {
			used[x.cells[at]] = true
		}
		of := len(x.codes) == 0 || slices.ContainsFunc(p.Codes, func(c finding.Code) bool { return slices.Contains(x.codes, string(c)) })
		if of && (len(x.cells) == 0 || at >= 0) {
			out = append(out, p)
		}
	}
	for _, c := range x.cells {
		if !used[c] {
			return nil, &misuse{cmd, fmt.Sprintf("--cell: there is no repair of %q; ferrule fix --list lists them all", c)}
		}
	}
	return out, nil
}
