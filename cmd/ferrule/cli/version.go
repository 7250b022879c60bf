package cli

import (
	"fmt"
	"io"
	"runtime/debug"

	"github.com/spf13/cobra"

	"ferrule/out/data"
	"ferrule/out/report"
)

func versionCommand() *cobra.Command {
	var a asking
	cmd := &cobra.Command{
		Use:   "version",
		Short: "Say which version this is",
		Long:  "Says the release or revision that this program was built from, and the Go that built it.",
		Args:  atMost(0, "no argument"),
		RunE: func(cmd *cobra.Command, _ []string) error {
			if err := a.check(cmd); err != nil {
				return err
			}
			return a.answer(cmd, func(w io.Writer, _ report.Options) error {
				_, err := fmt.Fprintf(w, "ferrule %s\n", version())
				return err
			}, func(w io.Writer) error { return data.Version(w, version()) })
		},
	}
	a.flags(cmd)
	return cmd
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
