package cli

import (
	"context"
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"ferrule/compiler"
	"ferrule/compiler/parallel"
	"ferrule/compiler/release"
	"ferrule/out/address"
	"ferrule/out/folder"
	"ferrule/out/guide"
	"ferrule/out/news"
	"ferrule/out/site"
)

// publishing holds the flags that say where and how pages are made, and what they name.
type publishing struct {
	dir, theme      string
	draft, fragment bool

	options site.Options
	to      *folder.Held
	earlier *release.Release // nil: none is given
}

func (p *publishing) flags(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&p.draft, "draft", false, "publish although errors stand; every page says so")
	cmd.Flags().BoolVar(&p.fragment, "fragment", false, "write pages without their frame, for a frame of your own")
	cmd.Flags().StringVar(&p.theme, "theme", "", "a folder with templates, style sheets and scripts that take the place of the usual ones")
}

// hold has the folder to itself while a build is made, so that two builds come one after the
// other, the later one knows the addresses of the earlier, and what stands in the way is told
// before any work.
func (p *publishing) hold(run *run, sources []string, build func() error) (err error) {
	waiting := func() {
		say(run.cmd.ErrOrStderr(), "another build publishes to %s; waiting until it has ended", p.dir)
	}
	if p.to, err = folder.Hold(run.cmd.Context(), p.dir, sources, waiting); err != nil {
		return err
	}
	defer func() {
		closed := p.to.Close()
		if closed != nil && err != nil { // of what ends a run, a status may be all that is told
			fmt.Fprintf(run.cmd.ErrOrStderr(), "ferrule: %v\n", closed)
			return
		}
		err = errors.Join(err, closed)
	}()
	return build()
}

// read reads the theme and the release that pages are held against, "" for none.
func (p *publishing) read(run *run, since string) (err error) {
	p.options = site.Options{Draft: p.draft, Fragment: p.fragment, Today: run.options.Today}
	if p.theme != "" {
		if err := p.readTheme(run.cmd.Context()); err != nil {
			return err
		}
	}
	if since == "" {
		return nil
	}
	if p.earlier, err = run.earlier(since, true); err != nil {
		return err
	}
	if p.options.Earlier, err = address.Earlier(p.earlier.Folder, p.earlier.Catalogue); err != nil {
		return fmt.Errorf("--since: %w", err)
	}
	return nil
}

// readTheme reads the theme and lays out pages by it once, which its templates can make long.
func (p *publishing) readTheme(ctx context.Context) error {
	var theme *guide.Theme
	var err error
	if stopped := parallel.Until(ctx, func() { theme, err = guide.ReadTheme(p.theme) }); stopped != nil {
		return stopped
	}
	if err != nil {
		return fmt.Errorf("--theme: %w", err)
	}
	p.options.Theme = theme
	return nil
}

// publish writes the site and says what it wrote.
func (p *publishing) publish(run *run, r *compiler.Result) error {
	if p.earlier != nil {
		if err := run.step(stageCompare, func() error { return p.compare(run, r) }); err != nil {
			return err
		}
	}
	var counts site.Counts
	err := run.step(stagePublish, func() (err error) {
		counts, err = site.Fill(run.cmd.Context(), p.to, r, p.options)
		return err
	})
	if err != nil {
		return err
	}
	run.end()
	say(run.cmd.ErrOrStderr(), "published to %s (guides: %d, files: %d, bytes: %d)",
		p.dir, counts.Guides, counts.Files, counts.Bytes)
	return nil
}

// compare works out what has changed since the earlier release.
func (p *publishing) compare(run *run, r *compiler.Result) error {
	diff, err := release.Changes(run.cmd.Context(), r, p.earlier)
	if err != nil {
		return err
	}
	p.options.News = news.Of(diff, p.earlier.State.Label, r.Catalogue)
	p.earlier = nil // it is large, and has been read
	return nil
}
