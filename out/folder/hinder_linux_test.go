package folder

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestMountPoints asks for folders where the system has something mounted everywhere, and for
// one where this test mounts something, if it may.
func TestMountPoints(t *testing.T) {
	assert.Contains(t, refusal(t, "/proc"), "is a mount point")
	root := t.TempDir()
	assert.False(t, mounted(root))
	dir := filepath.Join(root, "site")
	require.NoError(t, publish(t, dir))
	for _, at := range []string{dir, filepath.Join(dir, "public")} {
		if err := syscall.Mount(root, at, "", syscall.MS_BIND, ""); err != nil {
			t.Skipf("nothing can be mounted here: %v", err)
		}
		why := refusal(t, dir)
		err := publish(t, dir)
		require.NoError(t, syscall.Unmount(at, 0))
		assert.Contains(t, why, "mount point", at)
		assert.ErrorContains(t, err, "mount point", at)
	}
	require.NoError(t, publish(t, dir))
}

// TestParentsThatCannotBeWrittenTo publishes where nobody can make a file or a folder, root
// neither.
func TestParentsThatCannotBeWrittenTo(t *testing.T) {
	for _, parent := range []string{"/proc", "/sys", "/proc/a/b"} {
		_, err := Hold(t.Context(), filepath.Join(parent, "site"), nil, func() {})
		require.ErrorContains(t, err, filepath.Join(parent, "site")+" cannot be published to: ")
		assert.ErrorContains(t, err, "whoever runs this must be able to create files in "+parent)
	}
}

// TestFoldersThatCannotBeEmptied publishes over a folder from which nothing can be removed.
func TestFoldersThatCannotBeEmptied(t *testing.T) {
	if os.Geteuid() == 0 {
		t.Skip("root may remove files anywhere")
	}
	dir := filepath.Join(t.TempDir(), "site")
	require.NoError(t, publish(t, dir))
	for closed, why := range map[string]string{"staff": "holds staff, from which whoever runs this may remove nothing", ".": "may not be changed"} {
		require.NoError(t, os.Chmod(filepath.Join(dir, closed), 0o555))
		assert.Contains(t, refusal(t, dir), why)
		assert.ErrorContains(t, publish(t, dir), why)
		require.NoError(t, os.Chmod(filepath.Join(dir, closed), 0o755))
	}
	require.NoError(t, publish(t, dir))
}
