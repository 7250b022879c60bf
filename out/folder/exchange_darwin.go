package folder

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// exchange asks renamex_np(2). ENOTSUP is what file systems without it say.
func exchange(a, b string) error {
	err := unix.RenamexNp(a, b, unix.RENAME_SWAP)
	switch {
	case err == nil:
		return nil
	case errors.Is(err, unix.EINVAL) || errors.Is(err, errors.ErrUnsupported):
		return errors.ErrUnsupported
	}
	return &os.LinkError{Op: "exchange", Old: a, New: b, Err: err}
}
