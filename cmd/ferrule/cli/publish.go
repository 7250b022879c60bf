package cli

import (
	"fmt"
	"os"
	"path/filepath"

	"ferrule/compiler"
	"ferrule/compiler/release/compare"
	"ferrule/compiler/release/staff"
	"ferrule/out/address"
	"ferrule/out/guide"
	"ferrule/out/news"
	"ferrule/out/site"
	"github.com/spf13/cobra"
)

// publishing holds the flags that say how pages are made, and what they name.
type publishing struct {
	draft, fragment bool
	theme, since    string

	options site.Options
	earlier *staff.Release // nil: no earlier build is given
}

func (p *publishing) flags(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&p.draft, "draft", false, "publish although errors stand; every page says so")
	cmd.Flags().BoolVar(&p.fragment, "fragment", false, "write pages without their frame, for a frame of your own")
	cmd.Flags().StringVar(&p.theme, "theme", "", "a folder with templates, style sheets and scripts that take the place of the usual ones")
	cmd.Flags().StringVar(&p.since, "since", "", "what an earlier build wrote: its addresses stay, pages say what has changed, and what no longer protects is told")
}

// read reads what the flags name, so that a mistake costs no time.
func (p *publishing) read() (err error) {
	p.options = site.Options{Draft: p.draft, Fragment: p.fragment}
	if p.theme != "" {
		if p.options.Theme, err = guide.ReadTheme(p.theme); err != nil {
			return fmt.Errorf("--theme: %w", err)
		}
	}
	if p.since == "" {
		return nil
	}
	folder := p.since
	if _, err := os.Stat(filepath.Join(folder, address.File)); err != nil {
		folder = filepath.Join(p.since, "staff")
	}
	if p.options.Earlier, err = address.Read(folder); err != nil {
		return fmt.Errorf("--since: %w", err)
	}
	if p.earlier, err = staff.Read(os.DirFS(folder)); err != nil {
		return fmt.Errorf("--since: %s: %w", folder, err)
	}
	return nil
}

// publish writes the site and says what it wrote.
func (p *publishing) publish(cmd *cobra.Command, dir string, sources []string, r *compiler.Result, c *compiling) error {
	w := newWatch(cmd.ErrOrStderr(), c.verbose)
	defer w.end()
	if p.earlier != nil {
		if err := w.step(stageCompare, func() error { return p.compare(cmd, r, c) }); err != nil {
			return err
		}
	}
	var counts site.Counts
	err := w.step(stagePublish, func() (err error) {
		counts, err = site.Publish(cmd.Context(), dir, sources, r, p.options)
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

// compare works out what has changed since the earlier build. What somebody has accepted
// makes no difference to that, so no date is needed.
func (p *publishing) compare(cmd *cobra.Command, r *compiler.Result, c *compiling) error {
	now := &compare.Release{Catalogue: r.Catalogue, Guides: r.Guides}
	diff, err := compare.Between(cmd.Context(), &p.earlier.Release, now, compare.Options{Tight: true})
	if err != nil {
		return err
	}
	p.options.News = news.Of(diff, p.earlier.Catalogue.Settings.Release, r.Catalogue)
	p.earlier, c.earlier = nil, nil // it is large, and has been read
	return nil
}
