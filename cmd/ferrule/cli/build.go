package cli

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"ferrule/compiler/finding"
	"ferrule/out/site"
)

func buildCommand() *cobra.Command {
	c := compiling{guides: true}
	var dir string
	var p publishing
	cmd := &cobra.Command{
		Use:   "build PATH… -o DIR",
		Short: "Check a catalogue and publish its guides",
		Long: "Checks the catalogue as check does, then writes DIR/public for the world and DIR/staff with\n" +
			"everything. While an error other than coverage-gap stands that nobody has accepted, nothing\n" +
			"is published, unless --draft says that the pages are for trying out.\n" +
			"DIR is replaced as a whole, and only if it is new, empty or an earlier output.",
		Example: "  ferrule build catalogue -o site",
		Args:    atLeast(1, "a folder or a workbook"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if dir == "" {
				return &misuse{cmd, "build needs a folder to publish to: -o DIR"}
			}
			if err := site.Check(dir, args); err != nil {
				return err
			}
			if err := p.read(); err != nil {
				return err
			}
			if c.compared = p.earlier != nil; c.compared {
				c.earlier = &p.earlier.Release
			}
			r, err := c.run(cmd, args)
			if err != nil {
				return err
			}
			stderr := cmd.ErrOrStderr()
			if !r.Whole {
				fmt.Fprintln(stderr, "nothing is published: a workbook could not be read whole, and missing rows would invent gaps")
				return exit(refused)
			}
			if n := blocking(r.Findings); n > 0 && !p.draft {
				notPublished(stderr, n)
				return exit(findings)
			}
			return p.publish(cmd, dir, args, r, &c)
		},
	}
	c.flags(cmd)
	cmd.Flags().StringVarP(&dir, "output", "o", "", "the `folder` to publish to")
	p.flags(cmd)
	return cmd
}

// blocking counts the findings that stop publishing.
func blocking(fs []*finding.Finding) int {
	n := 0
	for _, f := range fs {
		if f.Severity == finding.Error && f.Code.Blocks() && f.Accepted == nil {
			n++
		}
	}
	return n
}

func notPublished(w io.Writer, n int) {
	what, them := "an error other than coverage-gap stands", "it"
	if n > 1 {
		what, them = fmt.Sprintf("%d errors other than coverage-gap stand", n), "them"
	}
	fmt.Fprintf(w, "nothing is published: %s; mend %s, or try the pages out with --draft\n", what, them)
}
