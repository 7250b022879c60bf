package cli

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/out/address"
	"ferrule/out/guide"
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
			options, err := p.options()
			if err != nil {
				return err
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
			return publish(cmd, dir, args, r, options, c.verbose)
		},
	}
	c.flags(cmd)
	cmd.Flags().StringVarP(&dir, "output", "o", "", "the `folder` to publish to")
	p.flags(cmd)
	return cmd
}

// publishing holds the flags that say how pages are made.
type publishing struct {
	draft, fragment bool
	theme, since    string
}

func (p *publishing) flags(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&p.draft, "draft", false, "publish although errors stand; every page says so")
	cmd.Flags().BoolVar(&p.fragment, "fragment", false, "write pages without their frame, for a frame of your own")
	cmd.Flags().StringVar(&p.theme, "theme", "", "a folder with templates, style sheets and scripts that take the place of the usual ones")
	cmd.Flags().StringVar(&p.since, "since", "", "the staff folder of an earlier build: its addresses stay, and pages say what has changed")
}

// options reads what the flags name, so that a mistake costs no time.
func (p *publishing) options() (site.Options, error) {
	o := site.Options{Draft: p.draft, Fragment: p.fragment}
	var err error
	if p.theme != "" {
		if o.Theme, err = guide.ReadTheme(p.theme); err != nil {
			return o, fmt.Errorf("--theme: %w", err)
		}
	}
	if p.since != "" {
		if o.Earlier, err = address.Read(p.since); err != nil {
			return o, fmt.Errorf("--since: %w", err)
		}
	}
	return o, nil
}

// publish writes the site and says what it wrote.
func publish(cmd *cobra.Command, dir string, sources []string, r *compiler.Result, o site.Options, verbose bool) error {
	w := newWatch(cmd.ErrOrStderr(), verbose)
	defer w.end()
	var counts site.Counts
	err := w.step(stagePublish, func() (err error) {
		counts, err = site.Publish(cmd.Context(), dir, sources, r, o)
		return err
	})
	if err != nil {
		return err
	}
	w.end()
	fmt.Fprintf(cmd.ErrOrStderr(), "published to %s (guides: %d, files: %d, bytes: %d)\n",
		dir, counts.Guides, counts.Files, counts.Bytes)
	return nil
}

// coverageGap is the one error with which a catalogue may be published: a guide then
// says that nothing is listed and whom to ask.
const coverageGap finding.Code = "coverage-gap"

// blocking counts the findings that stop publishing.
func blocking(fs []*finding.Finding) int {
	n := 0
	for _, f := range fs {
		if f.Severity == finding.Error && f.Code != coverageGap && f.Accepted == nil {
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
