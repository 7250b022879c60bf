package folder

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"
)

// list is an access control list as the kernel has it (linux/posix_acl_xattr.h): version 2, then
// tag, permissions and number of each entry: the owner may do all, one more user may too, the group
// nothing, up to a mask of all, and nobody else anything.
func list() []byte {
	const owner, user, group, mask, other, nobody = 0x01, 0x02, 0x04, 0x10, 0x20, 0xffffffff
	out := []byte{2, 0, 0, 0}
	for _, e := range [][3]uint32{{owner, 7, nobody}, {user, 7, 54321}, {group, 0, nobody}, {mask, 7, nobody}, {other, 0, nobody}} {
		out = append(out, byte(e[0]), 0, byte(e[1]), 0, byte(e[2]), byte(e[2]>>8), byte(e[2]>>16), byte(e[2]>>24))
	}
	return out
}

// TestAccessControlListsStay opens a folder to one more user, and then another one only by its
// mode, below a folder whose lists new ones get.
func TestAccessControlListsStay(t *testing.T) {
	root := t.TempDir()
	dir := filepath.Join(root, "site")
	require.NoError(t, publish(t, dir))
	err := unix.Setxattr(filepath.Join(dir, "staff"), "system.posix_acl_access", list(), 0)
	if errors.Is(err, unix.ENOTSUP) {
		t.Skip("no access control lists here")
	}
	require.NoError(t, err)
	require.NoError(t, unix.Setxattr(root, "system.posix_acl_default", list(), 0))
	before, err := os.Stat(filepath.Join(dir, "staff"))
	require.NoError(t, err)
	require.NoError(t, publish(t, dir))
	got, err := attribute(filepath.Join(dir, "staff"), "system.posix_acl_access")
	require.NoError(t, err)
	assert.Equal(t, list(), got)
	after, err := os.Stat(filepath.Join(dir, "staff"))
	require.NoError(t, err)
	assert.Equal(t, before.Mode(), after.Mode())
	for _, name := range []string{".", "public"} {
		_, err := attribute(filepath.Join(dir, name), "system.posix_acl_access")
		assert.ErrorIs(t, err, unix.ENODATA, name)
	}
}
