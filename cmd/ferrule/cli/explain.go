package cli

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"ferrule/compiler/finding"
	"ferrule/compiler/kinds"
	"ferrule/out/data"
	"ferrule/out/report"
	"ferrule/schema/word"
)

func explainCommand() *cobra.Command {
	var a asking
	cmd := &cobra.Command{
		Use:     "explain [CODE]",
		Short:   "Say what a finding means, with an example before and after",
		Long:    "Says what a code means and how to mend what it finds. Without a code it lists all codes.",
		Example: "  ferrule explain coverage-gap",
		Args:    atMost(1, "one code"),

		ValidArgsFunction: completeCode,
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := a.check(cmd); err != nil {
				return err
			}
			kinds := kinds.All()
			tell := func(kinds []finding.Kind, text func(io.Writer)) error {
				return a.answer(cmd, func(w io.Writer, _ report.Options) error { text(w); return nil },
					func(w io.Writer) error { return data.Codes(w, kinds) })
			}
			if len(args) == 0 {
				return tell(kinds, func(w io.Writer) { list(w, kinds) })
			}
			code := word.Fold(args[0])
			i := slices.IndexFunc(kinds, func(k finding.Kind) bool { return string(k.Code) == code })
			if i < 0 {
				var names []string
				for _, k := range kinds {
					names = append(names, string(k.Code))
				}
				return &misuse{cmd, fmt.Sprintf("there is no finding %q%s; %s lists them all",
					args[0], word.DidYouMean(args[0], names), cmd.CommandPath())}
			}
			return tell(kinds[i:i+1], func(w io.Writer) { explain(w, kinds[i]) })
		},
	}
	a.flags(cmd)
	return cmd
}

// list gives every code with its severity and a line of what it means.
func list(w io.Writer, kinds []finding.Kind) {
	wide := 0
	for _, k := range kinds {
		wide = max(wide, len(k.Code))
	}
	for _, k := range kinds {
		fmt.Fprintf(w, "%-*s  %s: %s\n", wide, k.Code, k.Severity, k.Summary)
	}
}

func explain(w io.Writer, k finding.Kind) {
	fmt.Fprintf(w, "%s (%s)\n\n%s\n", k.Code, k.Severity, k.Summary)
	for _, part := range []struct{ title, text, indent string }{
		{"", k.Doc, ""}, {"before:\n", k.Before, "    "}, {"after:\n", k.After, "    "},
	} {
		if text := strings.Trim(part.text, "\n"); text != "" {
			fmt.Fprintf(w, "\n%s%s%s\n", part.title, part.indent, strings.ReplaceAll(text, "\n", "\n"+part.indent))
		}
	}
}
