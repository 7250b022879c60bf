package desk

import (
	"bytes"
	"context"
	"errors"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"time"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/out/site"
)

// guides answers with pages as they would be published: the one that is asked for alone, where it
// can be made alone, and otherwise from all of them.
func (d *Desk) guides(w http.ResponseWriter, r *http.Request) {
	s, _, _ := d.now()
	if s == nil {
		http.Error(w, "nothing has been read yet", http.StatusServiceUnavailable)
		return
	}
	name := strings.TrimPrefix(r.URL.Path, "/guides/")
	preview, err := s.previewed(r.Context())
	if err == nil {
		var page []byte
		if page, err = preview.File(name); page != nil {
			http.ServeContent(w, r, name, time.Time{}, bytes.NewReader(page))
			return
		}
	}
	var dir string
	if err == nil {
		dir, err = s.published(r.Context(), d.options.Today())
	}
	if err != nil {
		http.Error(w, "the guides cannot be made: "+err.Error(), http.StatusConflict)
		return
	}
	root, err := os.OpenRoot(filepath.Join(dir, "site", "public"))
	if err != nil {
		http.Error(w, "the guides have changed; load the page again", http.StatusConflict)
		return
	}
	defer root.Close() //nolint:errcheck // it was only read
	http.StripPrefix("/guides", http.FileServerFS(root.FS())).ServeHTTP(w, r)
}

// how says how the guides would be published: as a draft where that is the only way.
func how(res *compiler.Result) site.Options {
	return site.Options{Draft: finding.Blocking(res.Findings) > 0}
}

// previewed gives what makes pages one at a time.
func (s *state) previewed(ctx context.Context) (*site.Preview, error) {
	return s.pages.get(func() (*site.Preview, error) {
		return site.NewPreview(context.WithoutCancel(ctx), s.res, how(s.res))
	})
}

// errDropped says that a newer state has taken the place of the one that was asked.
var errDropped = errors.New("the sheets have been saved meanwhile; load the page again")

// published gives the folder with all pages.
func (s *state) published(ctx context.Context, today string) (string, error) {
	return s.all.get(func() (string, error) {
		if s.dropped {
			return "", errDropped
		}
		res, err := compiler.Compile(ctx, compiler.Input{Paths: s.paths}, compiler.Options{Today: today, Guides: true})
		if err != nil {
			return "", err
		}
		if !res.Whole {
			return "", errors.New(unreadable(res))
		}
		dir, err := os.MkdirTemp("", "ferrule-desk-")
		if err != nil {
			return "", err
		}
		if _, err = site.Publish(ctx, filepath.Join(dir, "site"), s.paths, res, how(res)); err != nil {
			os.RemoveAll(dir) //nolint:errcheck // a folder in the system's place for such
			return "", err
		}
		return dir, nil
	})
}
