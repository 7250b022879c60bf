package folder

import (
	"errors"
	"os"
	"runtime"
	"syscall"
)

// Steps on the file system that decide what is found after a run that was killed.
const (
	stepNote       = "note" // in the journal
	stepMkdir      = "mkdir"
	stepCreate     = "create"
	stepSyncFile   = "sync file"
	stepSyncFolder = "sync folder"
	stepExchange   = "exchange"
	stepRename     = "rename"
	stepRemove     = "remove"
)

// disk is the file system, a step at a time. before is told of each step that is about to be
// taken, and its error is taken for the step's; nil: nobody is told. It may be called by several
// goroutines.
type disk struct {
	before func(step, path string) error
}

func (d disk) step(name, path string, do func() error) error {
	if d.before != nil {
		if err := d.before(name, path); err != nil {
			return err
		}
	}
	return do()
}

func (d disk) rename(from, to string) error {
	return d.step(stepRename, from, func() error { return os.Rename(from, to) })
}

// exchange lets two folders change places in one step; errors.ErrUnsupported where the file
// system or the system has no such step.
func (d disk) exchange(a, b string) error {
	return d.step(stepExchange, a, func() error { return exchange(a, b) })
}

func (d disk) remove(path string) error {
	return d.step(stepRemove, path, func() error { return os.Remove(path) })
}

// syncFile waits until what the file holds would survive the loss of power.
func (d disk) syncFile(path string) error {
	mode := os.O_RDONLY
	if runtime.GOOS == "windows" { // FlushFileBuffers asks for the right to write
		mode = os.O_RDWR
	}
	return d.step(stepSyncFile, path, func() error { return syncPath(path, mode) })
}

// syncFolder does so with what a folder lists. File systems that cannot do so for folders, and
// Windows, do it by themselves.
func (d disk) syncFolder(path string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	return d.step(stepSyncFolder, path, func() error {
		err := syncPath(path, os.O_RDONLY)
		if errors.Is(err, errors.ErrUnsupported) || errors.Is(err, syscall.EINVAL) {
			return nil
		}
		return err
	})
}

func syncPath(path string, mode int) error {
	f, err := os.OpenFile(path, mode, 0)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}
