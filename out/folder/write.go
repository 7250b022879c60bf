package folder

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"path"
	"path/filepath"
)

// File writes a file of the new folder, whose name is a slash path below it. A name twice is
// a broken invariant: the second would replace the first. It may be called by several
// goroutines.
func (h *Held) File(name string, write func(io.Writer) error) error {
	local := filepath.FromSlash(name)
	if !filepath.IsLocal(local) {
		panic(fmt.Sprintf("folder: the name %q leads out of the folder", name))
	}
	if err := h.folders(path.Dir(name)); err != nil {
		return err
	}
	n, err := h.create(filepath.Join(h.fresh, local), write)
	h.mu.Lock()
	defer h.mu.Unlock()
	h.names = append(h.names, name)
	h.bytes += n
	return err
}

// create writes a new file and gives the number of its bytes.
func (h *Held) create(path string, write func(io.Writer) error) (n int64, err error) {
	err = h.disk.step(stepCreate, path, func() error {
		f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if err != nil {
			return err
		}
		counted := &counter{w: bufio.NewWriter(f)}
		err = write(counted)
		if err == nil {
			err = counted.w.Flush()
		}
		n = counted.n
		return errors.Join(err, f.Close())
	})
	return n, err
}

// folders makes a folder, a slash path below the new one, and those above it.
func (h *Held) folders(name string) error {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.within(name)
}

func (h *Held) within(name string) error {
	if name == "." || h.made[name] {
		return nil
	}
	if err := h.within(path.Dir(name)); err != nil {
		return err
	}
	if err := h.mkdir(filepath.FromSlash(name)); err != nil {
		return err
	}
	h.made[name] = true
	return nil
}

// mkdir makes a folder of the new one, "" for itself. It has the mode and the group of the
// folder that it takes the place of, and is closed until it has them.
func (h *Held) mkdir(name string) error {
	path := filepath.Join(h.fresh, name)
	from := filepath.Join(h.real, name)
	old, err := os.Lstat(from)
	taken := err == nil && old.IsDir()
	mode := os.FileMode(0o777)
	if taken {
		mode = 0o700
	}
	if err := h.disk.step(stepMkdir, path, func() error { return os.Mkdir(path, mode) }); err != nil {
		return err
	}
	if !taken {
		return nil
	}
	if err := adopt(path, from, old); err != nil {
		return fmt.Errorf("the mode and the group of %s cannot be given to the folder that takes its place: %w; "+
			"run this as one of that group, or publish to another folder", filepath.Join(h.dir, name), err)
	}
	return nil
}

type counter struct {
	w *bufio.Writer
	n int64
}

func (c *counter) Write(b []byte) (int, error) {
	n, err := c.w.Write(b)
	c.n += int64(n)
	return n, err
}
