package cli

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"ferrule/compiler"
	"ferrule/out/fix"
	"ferrule/out/report"
	"ferrule/out/visible"
)

// tell prints the repairs that are made, and on standard error those that are not. JSON has both.
func (x *fixing) tell(cmd *cobra.Command, all []*fix.Proposal) error {
	for _, p := range all {
		if p.Dropped != "" {
			say(cmd.ErrOrStderr(), "%s is not repaired (%q in place of %q): %s", p.At.String(), p.New, p.Old, p.Dropped)
		}
	}
	return x.answer(cmd, func(w io.Writer, _ report.Options) error { return repairsText(w, all) },
		func(w io.Writer) error { return fix.JSON(w, all) })
}

func repairsText(w io.Writer, all []*fix.Proposal) error {
	for _, p := range all {
		if p.Dropped != "" {
			continue
		}
		_, err := fmt.Fprintf(w, "%s  %s\n  holds   %s\n  becomes %s\n  why     %s\n",
			visible.Text(p.At.String()), p.Codes[0], visible.Text(p.Old), visible.Text(p.New), visible.Text(p.Why))
		if err != nil {
			return err
		}
	}
	return nil
}

// inSheet names the cell of a repair without its workbook.
func inSheet(p *fix.Proposal) string { return p.At.Sheet.Name + "!" + p.At.Pos.String() }

// completeRepair completes the cells of the catalogue on the line, or in the current folder, that have a
// repair; with their workbooks where that is begun.
func completeRepair(cmd *cobra.Command, args []string, begun string) ([]string, cobra.ShellCompDirective) {
	if len(args) == 0 {
		args = []string{"."}
	}
	r, err := compiler.Compile(cmd.Context(), compiler.Input{Paths: args}, compiler.Options{Unchecked: true})
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	var short, long []string
	for _, p := range fix.Proposals(r.Findings) {
		short, long = append(short, inSheet(p)), append(long, p.At.String())
	}
	out := beginning(short, begun)
	if len(out) == 0 {
		out = beginning(long, begun)
	}
	return out, cobra.ShellCompDirectiveNoFileComp
}
