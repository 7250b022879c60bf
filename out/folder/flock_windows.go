package folder

import (
	"errors"
	"os"

	"golang.org/x/sys/windows"
)

// tryLock takes the lock of a file, which ends with the process at the latest; false where
// another process has it.
func tryLock(f *os.File) (bool, error) {
	err := lockFile(f, windows.LOCKFILE_EXCLUSIVE_LOCK|windows.LOCKFILE_FAIL_IMMEDIATELY)
	if errors.Is(err, windows.ERROR_LOCK_VIOLATION) || errors.Is(err, windows.ERROR_IO_PENDING) {
		return false, nil
	}
	return err == nil, err
}

// waitLock does so as soon as no other process has it.
func waitLock(f *os.File) error { return lockFile(f, windows.LOCKFILE_EXCLUSIVE_LOCK) }

// lockFile locks a byte far behind the journal, which can then be read by others.
func lockFile(f *os.File, how uint32) error {
	at := windows.Overlapped{OffsetHigh: 1}
	return os.NewSyscallError("LockFileEx", windows.LockFileEx(windows.Handle(f.Fd()), how, 0, 1, 0, &at))
}

// letGo removes the file of a lock once it is closed. Where another process has opened it
// meanwhile that fails, and is left to the other.
func letGo(f *os.File) error {
	err := f.Close()
	os.Remove(f.Name())
	return err
}
