package cli

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/schema/word"
)

func explainCommand() *cobra.Command {
	return &cobra.Command{
		Use:     "explain [CODE]",
		Short:   "Say what a finding means, with an example before and after",
		Long:    "Says what a code means and how to mend what it finds. Without a code it lists all codes.",
		Example: "  ferrule explain coverage-gap",
		Args:    atMost(1, "one code"),
		RunE: func(cmd *cobra.Command, args []string) error {
			kinds := compiler.Kinds()
			if len(args) == 0 {
				list(cmd.OutOrStdout(), kinds)
				return nil
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
			explain(cmd.OutOrStdout(), kinds[i])
			return nil
		},
	}
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
