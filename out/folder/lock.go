package folder

import (
	"context"
	"errors"
	"ferrule/sheets/guard"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
)

// acquire takes the lock of the folder: that of a file beside it, which is removed at the
// end. A lock ends with its process, so that a file which a killed run has left stops nobody.
func (h *Held) acquire(ctx context.Context, waiting func()) error {
	path := h.near("lock")
	once := sync.OnceFunc(waiting)
	for missed := 0; h.lock == nil; {
		if err := ctx.Err(); err != nil {
			return err
		}
		f, err := h.open(path)
		if errors.Is(err, fs.ErrNotExist) && missed < misses {
			missed++
			continue
		}
		if errors.Is(err, fs.ErrPermission) && exists(path) {
			return fmt.Errorf("%s cannot be published to: %w; a build of somebody else runs or was killed, who can build again or remove that file", h.dir, err)
		}
		if err != nil {
			return fmt.Errorf("%s cannot be published to: %w; whoever runs this must be able to create files in %s",
				h.dir, err, filepath.Dir(path))
		}
		if err := lockOf(ctx, f, once); err != nil {
			return err
		}
		if stillThere(f, path) {
			h.lock = f
		} else {
			f.Close()
		}
	}
	return nil
}

// misses is how often another run may remove the folders that it had made for nothing, just
// as this one is about to use them.
const misses = 1000

// open opens the file of the lock, and makes it and the folders above it.
func (h *Held) open(path string) (*os.File, error) {
	if err := h.makeParents(filepath.Dir(path)); err != nil {
		return nil, err
	}
	if info, err := os.Lstat(path); err == nil && !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s is in the way and no file of a build; move it away", path)
	}
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o666)
	if err == nil {
		openUp(f)
	}
	return f, err
}

// openUp lets those write to a new file who may write to its folder, whatever the umask, so that
// they can clear up after a run of somebody else. Where that fails they are told.
func openUp(f *os.File) {
	folder, err := os.Stat(filepath.Dir(f.Name()))
	if info, own := f.Stat(); err == nil && own == nil && info.Size() == 0 {
		_ = f.Chmod(0o600 | folder.Mode()&0o066)
	}
}

// makeParents makes a folder and those above it, and keeps in mind which it made.
func (h *Held) makeParents(dir string) error {
	if info, err := os.Stat(dir); err == nil {
		if !info.IsDir() {
			return fmt.Errorf("%s is a file", dir)
		}
		return nil
	}
	if up := filepath.Dir(dir); up != dir {
		if err := h.makeParents(up); err != nil {
			return err
		}
	}
	err := os.Mkdir(dir, 0o777)
	if err == nil {
		h.parents = append(h.parents, dir)
	}
	if errors.Is(err, fs.ErrExist) {
		return nil
	}
	return err
}

// lockOf takes the lock of a file, and waits for it as long as the context lets it. Whoever
// no longer waits leaves the waiting to a goroutine, which lets go of the lock at once.
func lockOf(ctx context.Context, f *os.File, waiting func()) error {
	got, err := tryLock(f)
	if err != nil {
		return errors.Join(fmt.Errorf("%s cannot be locked: %w; publish to a folder of a file system that can, and copy it", f.Name(), err), f.Close())
	}
	if got {
		return nil
	}
	waiting()
	locked := guard.Beside(func() { err = waitLock(f) })
	select {
	case fault := <-locked:
		if fault != nil {
			panic(fault)
		}
		if err != nil {
			err = errors.Join(err, f.Close())
		}
		return err
	case <-ctx.Done():
		guard.Beside(func() { <-locked; f.Close() })
		return ctx.Err()
	}
}

// stillThere tells whether a file that is locked by now is still the one of that name, and not
// one that its holder has removed meanwhile.
func stillThere(f *os.File, path string) bool {
	have, err := f.Stat()
	if err != nil {
		return false
	}
	there, err := os.Lstat(path)
	return err == nil && os.SameFile(have, there)
}

// release lets others have the lock. Its file stays where the journal is still needed.
func (h *Held) release() error {
	if h.keep {
		return h.lock.Close()
	}
	return letGo(h.lock)
}
