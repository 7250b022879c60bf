package folder

import (
	"crypto/rand"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// The journal is what stands in the file of the lock. A line is written, and kept by the disk,
// before what it says is begun.
const (
	journalHead = "written by ferrule while it publishes; the next build clears up what is named here"
	lineNew     = "new "   // the new folder beside the old one; after the exchange, the old one
	lineSwap    = "swap"   // the two begin to change places
	lineAside   = "aside " // they do so by renames, and the old one stands here meanwhile
)

// left is what a journal says.
type left struct {
	fresh, aside string // paths, "" for none
	swap         bool
}

// near gives the path of something that stands beside the folder while it is replaced.
func (h *Held) near(what string) string {
	return filepath.Join(filepath.Dir(h.real), "."+filepath.Base(h.real)+".ferrule-"+what)
}

// beside gives a path that nothing else has.
func (h *Held) beside(what string) string { return h.near(what + "-" + rand.Text()) }

// note adds lines to the journal and has them kept by the disk.
func (h *Held) note(lines ...string) error {
	return h.disk.step(stepNote, h.lock.Name(), func() error {
		if _, err := h.lock.WriteString(strings.Join(lines, "\n") + "\n"); err != nil {
			return err
		}
		return h.lock.Sync()
	})
}

// left reads the journal. A last line that is not whole was cut off while it was written, so
// that what it says was never begun.
func (h *Held) left() (left, error) {
	var l left
	text, err := io.ReadAll(io.LimitReader(h.lock, 1<<16))
	if err != nil || len(text) == 0 {
		return l, err
	}
	lines := strings.Split(string(text), "\n")
	lines = lines[:len(lines)-1]
	if len(lines) == 0 && strings.HasPrefix(journalHead, string(text)) {
		return l, nil
	}
	if len(lines) == 0 || lines[0] != journalHead {
		return l, fmt.Errorf("%s is in the way and was not written by a build; move it away", h.lock.Name())
	}
	for _, line := range lines[1:] {
		if err := h.entry(&l, line); err != nil {
			return l, err
		}
	}
	return l, nil
}

// entry reads a line. A name that no build gives is no reason to remove anything.
func (h *Held) entry(l *left, line string) error {
	for _, e := range []struct {
		word string
		path *string
		near string
	}{{lineNew, &l.fresh, "new-"}, {lineAside, &l.aside, "aside-"}} {
		if name, ok := strings.CutPrefix(line, e.word); ok {
			path := filepath.Join(filepath.Dir(h.real), name)
			if filepath.Base(path) != name || !strings.HasPrefix(path, h.near(e.near)) {
				return fmt.Errorf("%s names %q, which no build does; move it away", h.lock.Name(), name)
			}
			*e.path = path
			return nil
		}
	}
	if line == lineSwap {
		l.swap = true
		return nil
	}
	return fmt.Errorf("%s says %q, which this build does not know; remove it if no other build runs", h.lock.Name(), line)
}

// clearUp finishes or undoes what a killed run has left, and empties the journal. Where two
// renames were to exchange the folders and only the first was done, it is undone, since the
// killed run has published nothing; after the second, what is set aside is the old folder.
func (h *Held) clearUp() error {
	l, err := h.left()
	if err != nil {
		return err
	}
	if l.aside != "" && exists(l.aside) {
		to := h.real
		if !exists(l.fresh) {
			to = l.fresh
		}
		if err := h.disk.rename(l.aside, to); err != nil {
			return fmt.Errorf("a build was killed while it published, and its former output cannot be put back: %w", err)
		}
		if err := h.disk.syncFolder(filepath.Dir(h.real)); err != nil {
			return err
		}
	}
	if err := h.removeLeft(l); err != nil {
		return err
	}
	if err := h.lock.Truncate(0); err != nil {
		return err
	}
	_, err = h.lock.Seek(0, io.SeekStart)
	return err
}

// removeLeft removes the folder that stands beside the one that is published: a new one which
// never was, as a whole, since nobody else had a reason to write there; one that may have been
// published, as carefully as any.
func (h *Held) removeLeft(l left) error {
	switch {
	case l.fresh == "" || !exists(l.fresh):
		return nil
	case !l.swap:
		return os.RemoveAll(l.fresh)
	}
	if err := h.clear(l.fresh); err != nil {
		return fmt.Errorf("a build that was killed left its former output: %w", err)
	}
	return nil
}

func exists(path string) bool {
	_, err := os.Lstat(path)
	return !errors.Is(err, fs.ErrNotExist)
}
