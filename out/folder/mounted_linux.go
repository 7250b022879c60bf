package folder

import "golang.org/x/sys/unix"

// mounted tells whether something is mounted at the folder, so that it cannot be renamed. The
// kernel tells since 5.8 (statx(2)); before, only another device than the parent's does.
func mounted(path string) bool {
	var s unix.Statx_t
	err := unix.Statx(unix.AT_FDCWD, path, unix.AT_SYMLINK_NOFOLLOW|unix.AT_NO_AUTOMOUNT, 0, &s)
	if err == nil && s.Attributes_mask&unix.STATX_ATTR_MOUNT_ROOT != 0 {
		return s.Attributes&unix.STATX_ATTR_MOUNT_ROOT != 0
	}
	return otherDevice(path)
}
