//go:build unix

package folder

import (
	"fmt"
	"io/fs"
	"os"
	"syscall"
)

// kept are the bits of a folder's mode that stay.
const kept = fs.ModePerm | fs.ModeSetgid | fs.ModeSticky

// adopt gives a folder the group, the mode and the access control lists of another one, and its owner where whoever runs
// this may give folders away. What cannot be given is an error: a folder that is closed must
// not open.
func adopt(path, from string, old fs.FileInfo) error {
	now, err := os.Lstat(path)
	if err != nil {
		return err
	}
	want, have := old.Sys().(*syscall.Stat_t), now.Sys().(*syscall.Stat_t)
	if os.Geteuid() == 0 && want.Uid != have.Uid {
		if err := os.Lchown(path, int(want.Uid), -1); err != nil {
			return err
		}
	}
	if want.Gid != have.Gid {
		if err := os.Lchown(path, -1, int(want.Gid)); err != nil {
			return err
		}
	}
	if err := copyACL(path, from); err != nil {
		return err
	}
	if err := os.Chmod(path, old.Mode()&kept); err != nil {
		return err
	}
	if now, err = os.Lstat(path); err == nil && now.Mode()&kept != old.Mode()&kept {
		err = fmt.Errorf("chmod %s: it is %v and not %v", path, now.Mode()&kept, old.Mode()&kept)
	}
	return err
}
