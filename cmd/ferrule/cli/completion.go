package cli

import (
	_ "embed"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"ferrule/schema/word"
)

// bashCompletion is our own script: the library's evaluates what stands on the line, and
// inserts what several names have in common without quotation marks.
//
//go:embed completion.bash
var bashCompletion string

// shells that scripts can be written for.
var shells = []string{"bash", "zsh", "fish", "powershell"}

func completionCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "completion SHELL",
		Short: "Print what makes a shell complete commands, platforms, parts and codes",
		Long: "Prints a script for bash, zsh, fish or powershell. Once the shell has read it, the tabulator key\n" +
			"completes commands and flags and, from the catalogue named on the line or the one in the current\n" +
			"folder, platforms, positions, parts, traits and their values.",
		Example: "  source <(ferrule completion bash)\n" +
			"  ferrule completion zsh > \"${fpath[1]}/_ferrule\"\n" +
			"  ferrule completion fish > ~/.config/fish/completions/ferrule.fish",
		ValidArgs: shells,
		Args:      both(atLeast(1, "the name of a shell"), atMost(1, "one shell")),
		RunE: func(cmd *cobra.Command, args []string) error {
			root, out := cmd.Root(), cmd.OutOrStdout()
			switch word.Fold(args[0]) {
			case "bash":
				_, err := io.WriteString(out, bashCompletion)
				return err
			case "zsh":
				return root.GenZshCompletion(out)
			case "fish":
				return root.GenFishCompletion(out, true)
			case "powershell":
				return root.GenPowerShellCompletionWithDesc(out)
			}
			return &misuse{cmd, fmt.Sprintf("there is no script for %q%s, write bash, zsh, fish or powershell",
				args[0], word.DidYouMean(args[0], shells))}
		},
	}
}
