//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package folder

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// tryLock takes the lock of a file, which ends with the process at the latest; false where
// another process has it.
func tryLock(f *os.File) (bool, error) {
	err := flock(f, unix.LOCK_EX|unix.LOCK_NB)
	if errors.Is(err, unix.EWOULDBLOCK) {
		return false, nil
	}
	return err == nil, err
}

// waitLock does so as soon as no other process has it.
func waitLock(f *os.File) error { return flock(f, unix.LOCK_EX) }

func flock(f *os.File, how int) error {
	for {
		err := unix.Flock(int(f.Fd()), how)
		if !errors.Is(err, unix.EINTR) {
			return os.NewSyscallError("flock", err)
		}
	}
}

// letGo removes the file of a lock while it is held, so that nobody else can have got it.
func letGo(f *os.File) error { return errors.Join(os.Remove(f.Name()), f.Close()) }
