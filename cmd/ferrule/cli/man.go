package cli

import (
	"path/filepath"

	"github.com/spf13/cobra"

	"ferrule/cmd/ferrule/man"
)

func manCommand() *cobra.Command {
	return &cobra.Command{
		Use:     "man DIR",
		Short:   "Write the manual pages",
		Long:    "Writes a manual page for each command into DIR, for whoever packages the program.",
		Example: "  ferrule man /usr/local/share/man/man1",
		Hidden:  true,
		Args:    both(atLeast(1, "a folder to write to"), atMost(1, "one folder")),
		RunE: func(cmd *cobra.Command, args []string) error {
			names, err := man.Write(args[0], cmd.Root())
			for _, n := range names {
				say(cmd.ErrOrStderr(), "wrote %s", filepath.Join(args[0], n))
			}
			return err
		},
	}
}
