// Package found gives what stands in a folder that was published. For tests only.
package found

import (
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Files gives every file below a folder, by its name with slashes, with what it holds.
func Files(t testing.TB, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		text, err := os.ReadFile(path)
		name, _ := filepath.Rel(dir, path)
		out[filepath.ToSlash(name)] = string(text)
		return err
	}))
	return out
}

// Alone checks that nothing was left beside a folder.
func Alone(t testing.TB, dir string) {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(dir))
	require.NoError(t, err)
	for _, e := range entries {
		assert.Equal(t, filepath.Base(dir), e.Name(), "left behind")
	}
}
