package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"ferrule/compiler"
	"ferrule/compiler/release"
	"ferrule/out/address"
	"ferrule/out/guide"
	"ferrule/out/news"
	"ferrule/out/site"
)

// publishing holds the flags that say where and how pages are made, and what they name.
type publishing struct {
	dir, theme      string
	draft, fragment bool

	options site.Options
	earlier *release.Release // nil: none is given
}

func (p *publishing) flags(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&p.draft, "draft", false, "publish although errors stand; every page says so")
	cmd.Flags().BoolVar(&p.fragment, "fragment", false, "write pages without their frame, for a frame of your own")
	cmd.Flags().StringVar(&p.theme, "theme", "", "a folder with templates, style sheets and scripts that take the place of the usual ones")
}

// read reads the theme and the release that pages are held against, "" for none.
func (p *publishing) read(run *run, since string) (err error) {
	p.options = site.Options{Draft: p.draft, Fragment: p.fragment}
	if p.theme != "" {
		if p.options.Theme, err = guide.ReadTheme(p.theme); err != nil {
			return fmt.Errorf("--theme: %w", err)
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

// publish writes the site and says what it wrote.
func (p *publishing) publish(run *run, sources []string, r *compiler.Result) error {
	if p.earlier != nil {
		if err := run.step(stageCompare, func() error { return p.compare(run, r) }); err != nil {
			return err
		}
	}
	var counts site.Counts
	err := run.step(stagePublish, func() (err error) {
		counts, err = site.Publish(run.cmd.Context(), p.dir, sources, r, p.options)
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
