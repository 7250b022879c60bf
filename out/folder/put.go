package folder

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"

	"ferrule/compiler/parallel"
)

// Put puts the new folder in the place of the old one. Everything is kept by the disk before
// they change places, which is done as soon as the context is looked at for the last time.
// Where there is an error that does not say otherwise, the old folder stands as it was.
func (h *Held) Put(ctx context.Context) error {
	if err := h.mark(); err != nil {
		return err
	}
	if err := h.settle(ctx); err != nil {
		return err
	}
	if _, err := target(h.dir, h.sources); err != nil { // something may have come meanwhile
		return err
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	if !exists(h.real) {
		return h.first()
	}
	return h.replace()
}

// first puts the new folder where there was none. A file or a folder that has come there
// meanwhile is not replaced by a rename, unless it is empty.
func (h *Held) first() error {
	if err := h.disk.rename(h.fresh, h.real); err != nil {
		return err
	}
	h.stands = true
	return h.disk.syncFolder(filepath.Dir(h.real))
}

// replace lets the folders change places and removes the old one. A file that came to it
// between the last look and the exchange is seen afterwards, and then they change back.
func (h *Held) replace() error {
	if err := h.note(lineSwap); err != nil {
		return err
	}
	if err := h.swap(); err != nil {
		return err
	}
	h.stands = true
	if why, err := ours(h.fresh); err != nil || why != "" {
		return h.changeBack(why, err)
	}
	if err := h.disk.syncFolder(filepath.Dir(h.real)); err != nil {
		h.keep = true
		return fmt.Errorf("the new output stands, and whether it outlives a loss of power is not known: %w", err)
	}
	if err := h.clear(h.fresh); err != nil {
		h.keep = true
		return fmt.Errorf("the new output stands, yet the old one could not be removed: %w", err)
	}
	return nil
}

// changeBack undoes a swap after which the old folder turned out to hold something else.
func (h *Held) changeBack(why string, cause error) error {
	if cause == nil {
		cause = &Refusal{h.dir, why, doAgain}
	}
	if err := h.swap(); err != nil {
		h.keep = true
		return errors.Join(fmt.Errorf("the new output stands, and the old one is in %s: %w", h.fresh, cause), err)
	}
	h.stands = false
	return errors.Join(cause, h.disk.syncFolder(filepath.Dir(h.real)))
}

// swap lets the new folder and the old one change places: in one step, or by renames where
// the file system has no such step. In between there is a moment without a folder then.
func (h *Held) swap() error {
	err := h.disk.exchange(h.fresh, h.real)
	if !errors.Is(err, errors.ErrUnsupported) {
		return err
	}
	aside := h.beside("aside")
	if err := h.note(lineAside + filepath.Base(aside)); err != nil {
		return err
	}
	if err := h.disk.rename(h.real, aside); err != nil {
		return err
	}
	if err := h.disk.rename(h.fresh, h.real); err != nil {
		if back := h.disk.rename(aside, h.real); back != nil {
			h.keep = true
			return fmt.Errorf("%w; what was there is now in %s, and the next build puts it back", err, aside)
		}
		return err
	}
	if err := h.disk.rename(aside, h.fresh); err != nil {
		h.keep, h.stands = true, true
		return fmt.Errorf("the new output stands, and the old one is in %s: %w", aside, err)
	}
	return nil
}

// writers is how many files are handed to the disk at once: it takes what comes together in
// one go.
const writers = 32

// settle waits until the new folder would survive the loss of power: first what files hold,
// then what folders list.
func (h *Held) settle(ctx context.Context) error {
	names := append(slices.Clone(h.names), markerName)
	if err := h.each(ctx, names, h.disk.syncFile); err != nil {
		return err
	}
	var folders []string
	for name := range h.made {
		folders = append(folders, name)
	}
	slices.Sort(folders)
	return h.each(ctx, append(folders, "."), h.disk.syncFolder)
}

// each does something with many paths below the new folder, until there is an error. That of
// the first name is told.
func (h *Held) each(ctx context.Context, names []string, do func(path string) error) error {
	errs := make([]error, len(names))
	parallel.Each(len(names), writers, func(_, i int) {
		if errs[i] = ctx.Err(); errs[i] == nil {
			errs[i] = do(filepath.Join(h.fresh, filepath.FromSlash(names[i])))
		}
	})
	at := slices.IndexFunc(errs, func(err error) bool { return err != nil })
	if at < 0 {
		return nil
	}
	return errs[at]
}
