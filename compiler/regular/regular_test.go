package regular_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/regular"
)

func TestRead(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "five"), []byte("12345"), 0o600))
	require.NoError(t, os.Mkdir(filepath.Join(dir, "folder"), 0o700))
	require.NoError(t, os.Symlink("five", filepath.Join(dir, "link")))
	require.NoError(t, os.Symlink("/dev/zero", filepath.Join(dir, "endless")))
	root, err := os.OpenRoot(dir)
	require.NoError(t, err)
	defer root.Close()
	for _, name := range []string{"five", "link"} {
		data, err := regular.Read(root.FS(), name, 5)
		require.NoError(t, err)
		assert.Equal(t, "12345", string(data))
		_, err = regular.Read(root.FS(), name, 4)
		assert.EqualError(t, err, "it is larger than 4 bytes")
	}
	_, err = regular.Read(root.FS(), "folder", 5)
	assert.ErrorIs(t, err, regular.ErrKind)
	_, err = regular.Read(root.FS(), "none", 5)
	assert.ErrorIs(t, err, fs.ErrNotExist)
	_, err = regular.Read(root.FS(), "endless", 5)
	assert.Error(t, err, "a link out of the folder")
	_, err = regular.Read(os.DirFS(dir), "endless", 5)
	assert.ErrorIs(t, err, regular.ErrKind)
}

// liar tells a size that the file outgrows.
type liar struct{ fstest.MapFS }

func (l liar) Stat(name string) (fs.FileInfo, error) {
	return fs.Stat(fstest.MapFS{name: {Data: []byte("1")}}, name)
}

func TestGrowing(t *testing.T) {
	folder := liar{fstest.MapFS{"f": {Data: make([]byte, 3<<20)}}}
	_, err := regular.Read(folder, "f", 2<<20)
	assert.EqualError(t, err, "it is larger than 2 MB")
	data, err := regular.Read(folder, "f", 3<<20)
	require.NoError(t, err)
	assert.Len(t, data, 3<<20)
}
