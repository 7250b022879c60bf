package site

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"ferrule/compiler"
)

// Publish writes the catalogue into a new folder beside dir and puts it in dir's
// place. Where anything fails, dir is as it was and nothing is left beside it. The
// sources are those of Check, which is asked again.
func Publish(ctx context.Context, dir string, sources []string, r *compiler.Result, o Options) (Counts, error) {
	real, err := target(dir, sources)
	if err != nil {
		return Counts{}, err
	}
	parent := filepath.Dir(real)
	if err := os.MkdirAll(parent, 0o755); err != nil {
		return Counts{}, err
	}
	made, err := os.MkdirTemp(parent, "."+filepath.Base(real)+".ferrule-new-*")
	if err != nil {
		return Counts{}, err
	}
	w := &writer{ctx: ctx, root: made}
	defer os.RemoveAll(made) // it is gone once all went well
	if err := w.fill(r, o); err != nil {
		return Counts{}, err
	}
	if err := replace(real, made); err != nil {
		return Counts{}, err
	}
	return Counts{len(r.Guides), len(w.names), w.bytes}, nil
}

func (w *writer) fill(r *compiler.Result, o Options) error {
	if err := os.Chmod(w.root, 0o755); err != nil { // temporary folders are private
		return err
	}
	if err := w.all(r, o); err != nil {
		return err
	}
	if err := w.mark(); err != nil {
		return err
	}
	return settle(w.root)
}

// replace puts the folder made in place of real. What was there is moved aside first,
// since no system exchanges two folders everywhere, and moved back where the second
// step fails.
func replace(real, made string) error {
	aside := made + "-old"
	err := os.Rename(real, aside)
	existed := err == nil
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if err := os.Rename(made, real); err != nil {
		if existed {
			if back := os.Rename(aside, real); back != nil {
				return fmt.Errorf("%w; what was there is now in %s", err, aside)
			}
		}
		return err
	}
	if err := settle(filepath.Dir(real)); err != nil {
		return err
	}
	if err := os.RemoveAll(aside); err != nil {
		return fmt.Errorf("the new output stands, yet the old one could not be removed: %w", err)
	}
	return nil
}

// settle asks the system to keep what a folder lists. Systems that cannot do so for
// folders do it by themselves.
func settle(dir string) error {
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	_ = f.Sync()
	return f.Close()
}
