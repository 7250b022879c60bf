package cli

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"ferrule/compiler/finding"
	"ferrule/compiler/release"
)

func buildCommand() *cobra.Command {
	var c compiling
	var p publishing
	cmd := &cobra.Command{
		Use:   "build PATH… -o DIR",
		Short: "Check a catalogue and publish its guides",
		Long: "Checks the catalogue as check does, then writes DIR/public for the world and DIR/staff with\n" +
			"everything. While an error other than coverage-gap stands that nobody has accepted, nothing\n" +
			"is published, unless --draft says that the pages are for trying out.\n" +
			"DIR is replaced as a whole, and only if it is new, empty or an earlier output. It keeps its mode and\n" +
			"group. Whoever reads it meanwhile finds the old pages or the new ones, where the file system can\n" +
			"exchange two folders in one step; builds to the same DIR wait for each other; and what a build that\n" +
			"was killed has left beside DIR is cleared up by the next.\n\n" +
			"The exit status is 1 where findings stand in the way, and 129, 130 or 143 where SIGHUP, SIGINT (Ctrl-C)\n" +
			"or SIGTERM stopped it: then nothing is changed and nothing left behind. A second signal ends it at once.\n\n" +
			"With --since OLD, which is read as diff reads it, pages say what has changed, what protected in OLD and\n" +
			"does not any more is a warning, and what had an address keeps it: those that the build in OLD\n" +
			"recorded or, where OLD is workbooks or REV:PATH, those that its catalogue would get.",
		Example: "  ferrule build catalogue -o site\n  ferrule build catalogue -o site --since site",
		Args:    atLeast(1, "a folder or a workbook"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if p.dir == "" {
				return &misuse{cmd, "build needs a folder to publish to: -o DIR"}
			}
			run, err := c.start(cmd)
			if err != nil {
				return err
			}
			defer run.end()
			return p.hold(run, args, func() error { return p.build(run, args, c.since) })
		},
	}
	c.flags(cmd)
	cmd.Flags().StringVarP(&p.dir, "output", "o", "", "the `folder` to publish to")
	p.flags(cmd)
	cmd.Flags().StringVar(&c.since, "since", "", "an earlier `release`, as diff reads it: pages say what has changed, what no longer protects is told, and addresses stay")
	return cmd
}

// build reads what the flags name, so that a mistake costs no time; then it checks the
// catalogue and publishes it.
func (p *publishing) build(run *run, paths []string, since string) error {
	if err := p.read(run, since); err != nil {
		return err
	}
	run.options.Guides = true
	defer run.frugal()()
	r, err := run.compile(paths)
	if err != nil {
		return err
	}
	if p.earlier != nil && r.Whole {
		err = run.step(stageCompare, func() error { return release.Guard(run.cmd.Context(), r, p.earlier, run.options.Today) })
	}
	if err == nil {
		err = run.tell(r)
	}
	if err != nil {
		return err
	}
	stderr := run.cmd.ErrOrStderr()
	if !r.Whole {
		say(stderr, "nothing is published: a workbook could not be read whole, and missing rows would invent gaps")
		return exit(refused)
	}
	if n := finding.Blocking(r.Findings); n > 0 && !p.draft {
		notPublished(stderr, n)
		return exit(findings)
	}
	return p.publish(run, r)
}

func notPublished(w io.Writer, n int) {
	what, them := "an error other than coverage-gap stands", "it"
	if n > 1 {
		what, them = fmt.Sprintf("%d errors other than coverage-gap stand", n), "them"
	}
	say(w, "nothing is published: %s; mend %s, or try the pages out with --draft", what, them)
}
