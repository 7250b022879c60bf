package folder

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// copyACL gives a folder the access control lists of another one (acl(5)), or none where that
// one has none: beside them, the group's part of a mode says who of many may do something at all.
func copyACL(path, old string) error {
	for _, name := range []string{"system.posix_acl_access", "system.posix_acl_default"} {
		list, err := attribute(old, name)
		if err == nil {
			err = unix.Lsetxattr(path, name, list, 0)
		} else if errors.Is(err, unix.ENODATA) {
			err = unix.Lremovexattr(path, name)
		}
		if err != nil && !errors.Is(err, unix.ENODATA) && !errors.Is(err, unix.ENOTSUP) {
			return &os.PathError{Op: "set " + name, Path: path, Err: err}
		}
	}
	return nil
}

// attribute reads an extended attribute, which takes at most 64 kB (xattr(7)).
func attribute(path, name string) ([]byte, error) {
	buffer := make([]byte, 1<<16)
	n, err := unix.Lgetxattr(path, name, buffer)
	if err != nil {
		return nil, err
	}
	return buffer[:n], nil
}
