//go:build unix

package folder

import (
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// otherGroup gives a group that is not the usual one of new files here; -1 where there is none.
func otherGroup(t *testing.T) int {
	t.Helper()
	if os.Geteuid() == 0 {
		return 54321
	}
	groups, err := os.Getgroups()
	require.NoError(t, err)
	for _, g := range groups {
		if g != os.Getegid() {
			return g
		}
	}
	return -1
}

// TestModeAndGroupStay closes folders of an output, the whole one or one in it, and publishes
// again: they stay closed, for the same group.
func TestModeAndGroupStay(t *testing.T) {
	group := otherGroup(t)
	for _, name := range []string{".", "staff", "public/guides"} {
		for _, mode := range []fs.FileMode{0o770 | fs.ModeSetgid, 0o700, 0o750, 0o777 | fs.ModeSticky} {
			dir := filepath.Join(t.TempDir(), "site")
			require.NoError(t, publish(t, dir))
			closed := filepath.Join(dir, name)
			if group >= 0 {
				require.NoError(t, os.Chown(closed, -1, group))
			}
			require.NoError(t, os.Chmod(closed, mode))
			before, err := os.Stat(closed)
			require.NoError(t, err)
			require.NoError(t, publish(t, dir))
			after, err := os.Stat(closed)
			require.NoError(t, err)
			assert.False(t, os.SameFile(before, after), "another folder")
			assert.Equal(t, before.Mode(), after.Mode(), name)
			assert.Equal(t, fs.ModeDir|mode, after.Mode(), name)
			assert.Equal(t, before.Sys().(*syscall.Stat_t).Gid, after.Sys().(*syscall.Stat_t).Gid, name)
		}
	}
}

// TestNewFoldersFollowUmask publishes where nothing was.
func TestNewFoldersFollowUmask(t *testing.T) {
	old := syscall.Umask(0o027)
	defer syscall.Umask(old)
	dir := filepath.Join(t.TempDir(), "site")
	require.NoError(t, publish(t, dir))
	for name, want := range map[string]fs.FileMode{".": 0o750, "public/guides": 0o750, "public/index.html": 0o640, markerName: 0o640} {
		info, err := os.Stat(filepath.Join(dir, name))
		require.NoError(t, err)
		assert.Equal(t, want, info.Mode().Perm(), name)
	}
}

// Whoever may write to the folder above can clear up after a run of somebody else.
func TestLockIsForThoseWhoMayPublish(t *testing.T) {
	old := syscall.Umask(0o077)
	defer syscall.Umask(old)
	for folder, want := range map[fs.FileMode]fs.FileMode{0o770 | fs.ModeSetgid: 0o660, 0o755: 0o644, 0o700: 0o600} {
		root := t.TempDir()
		require.NoError(t, os.Chmod(root, folder))
		h, err := Hold(t.Context(), filepath.Join(root, "site"), nil, func() {})
		require.NoError(t, err)
		info, err := os.Stat(h.near("lock"))
		require.NoError(t, err)
		require.NoError(t, h.Close())
		assert.Equal(t, want, info.Mode().Perm(), folder)
	}
}
