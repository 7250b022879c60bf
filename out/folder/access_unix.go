//go:build unix

package folder

import (
	"path/filepath"

	"golang.org/x/sys/unix"
)

// otherDevice tells whether a folder is on another device than the one it is in.
func otherDevice(path string) bool {
	var here, up unix.Stat_t
	if unix.Lstat(path, &here) != nil || unix.Lstat(filepath.Dir(path), &up) != nil {
		return false
	}
	return here.Dev != up.Dev
}

// writable tells whether files may be made and removed in a folder.
func writable(path string) bool { return unix.Access(path, unix.W_OK|unix.X_OK) == nil }
