package cli

import (
	"fmt"
	"runtime/debug"

	"github.com/spf13/cobra"
)

func versionCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "version",
		Short: "Say which version this is",
		Args:  atMost(0, "no argument"),
		RunE: func(cmd *cobra.Command, _ []string) error {
			_, err := fmt.Fprintf(cmd.OutOrStdout(), "ferrule %s\n", version())
			return err
		},
	}
}

// version says what the build information tells: the release or revision, and the Go
// that built it.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "(unknown)"
	}
	v := info.Main.Version
	if v == "" {
		v = "(devel)"
	}
	settings := map[string]string{}
	for _, s := range info.Settings {
		settings[s.Key] = s.Value
	}
	if revision := settings["vcs.revision"]; revision != "" && v == "(devel)" {
		v += " " + revision
		if settings["vcs.modified"] == "true" {
			v += " modified"
		}
	}
	return v + " " + info.GoVersion
}
