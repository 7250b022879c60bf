package folder

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// exchange asks renameat2(2). EINVAL is what file systems without it say, ENOSYS what kernels
// before 3.15 do.
func exchange(a, b string) error {
	err := unix.Renameat2(unix.AT_FDCWD, a, unix.AT_FDCWD, b, unix.RENAME_EXCHANGE)
	switch {
	case err == nil:
		return nil
	case errors.Is(err, unix.EINVAL) || errors.Is(err, errors.ErrUnsupported):
		return errors.ErrUnsupported
	}
	return &os.LinkError{Op: "exchange", Old: a, New: b, Err: err}
}
