// Package folder replaces a folder by a new one, as a whole or not at all.
//
// A folder is replaced only if it is new, empty or holds nothing but an earlier output of
// this package. The new one is written beside it, under a lock that others wait for, and both
// change places in one step where the file system can do that (exchange), else by renames.
// What is done is written down before (journal), so that whoever comes next clears up after
// a run that was killed: at every moment the one or the other stands there whole, but for the
// moment between two renames.
package folder

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync"
)

// Held is a folder that nobody else replaces meanwhile, and the new one that is written
// beside it. Whoever holds one calls Close.
type Held struct {
	dir     string   // as it was named
	real    string   // with links followed
	sources []string // what the folder is made from, which must not lie in it
	disk    disk

	lock    *os.File // beside real, and the journal
	parents []string // made for it, in the order in which they were made
	fresh   string   // the new folder beside real, "" where there is none
	stands  bool     // the new folder has taken the place of the old one
	keep    bool     // something is left that the journal names

	mu    sync.Mutex
	made  map[string]bool // folders below fresh
	names []string        // files below fresh, slash paths
	bytes int64
}

// Hold waits until nobody else holds the folder, clears up what a killed run has left there,
// and begins a new one beside it. The sources (folders and files) must not lie in the folder. A
// *Refusal says why the folder must not be replaced; waiting is called, once, where there is
// somebody to wait for.
func Hold(ctx context.Context, dir string, sources []string, waiting func()) (*Held, error) {
	return hold(ctx, disk{}, dir, sources, waiting)
}

func hold(ctx context.Context, d disk, dir string, sources []string, waiting func()) (_ *Held, err error) {
	real, err := place(dir, sources)
	if err != nil {
		return nil, err
	}
	h := &Held{dir: dir, real: real, sources: sources, disk: d, made: map[string]bool{}}
	if err := h.acquire(ctx, waiting); err != nil {
		return nil, errors.Join(err, h.Close())
	}
	if err := h.begin(); err != nil {
		return nil, errors.Join(err, h.Close())
	}
	return h, nil
}

// begin clears up, looks at what is in the folder, which could change while others held it,
// and makes the new one.
func (h *Held) begin() error {
	if err := h.clearUp(); err != nil {
		h.keep = true
		return err
	}
	real, err := target(h.dir, h.sources)
	if err != nil {
		return err
	}
	if real != h.real {
		return fmt.Errorf("%s led to %s and now leads to %s; build again", h.dir, h.real, real)
	}
	return h.start()
}

// start makes the new folder, whose name nothing else has, with the mode and the group of the
// old one.
func (h *Held) start() error {
	name := h.beside("new")
	if err := h.note(journalHead, lineNew+filepath.Base(name)); err != nil {
		return err
	}
	if err := h.disk.syncFolder(filepath.Dir(h.real)); err != nil {
		return err
	}
	h.fresh = name
	return h.mkdir("")
}

// Root is the path of the new folder.
func (h *Held) Root() string { return h.fresh }

// Counts gives the number of files written, and of bytes in them.
func (h *Held) Counts() (files int, bytes int64) {
	h.mu.Lock()
	defer h.mu.Unlock()
	return len(h.names), h.bytes
}

// Close removes what was not put in place and lets others have the folder.
func (h *Held) Close() error {
	if h.lock == nil {
		h.removeParents()
		return nil
	}
	var err error
	if h.fresh != "" && !h.stands && !h.keep {
		if err = os.RemoveAll(h.fresh); err != nil {
			h.keep = true
		}
	}
	err = errors.Join(err, h.release())
	h.removeParents()
	h.fresh, h.lock = "", nil
	return err
}

// removeParents removes the folders that were made for nothing. Those that hold something
// stay, as the system sees to.
func (h *Held) removeParents() {
	for i := len(h.parents) - 1; i >= 0; i-- {
		os.Remove(h.parents[i])
	}
	h.parents = nil
}
