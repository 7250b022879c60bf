package folder

import (
	"context"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// publish puts a folder with a few files, each of which says what it is given.
func publish(t *testing.T, dir string, sources ...string) error {
	t.Helper()
	return put(context.Background(), disk{}, dir, "new", sources...)
}

// pages are the files that tests publish.
func pages() []string {
	return []string{"public/index.html", "public/guides/H7.html", "public/guides/H9.html", "public/parts/QX-1.html", "staff/findings.json"}
}

func put(ctx context.Context, d disk, dir, text string, sources ...string) error {
	h, err := hold(ctx, d, dir, sources, func() {})
	if err != nil {
		return err
	}
	for _, name := range pages() {
		err := h.File(name, func(w io.Writer) error { _, err := io.WriteString(w, text); return err })
		if err != nil {
			return errors.Join(err, h.Close())
		}
	}
	return errors.Join(h.Put(ctx), h.Close())
}

// tree gives every file below dir with what it holds.
func tree(t *testing.T, dir string) map[string]string {
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

// alone checks that nothing was left beside dir.
func alone(t *testing.T, dir string) {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(dir))
	require.NoError(t, err)
	for _, e := range entries {
		assert.Equal(t, filepath.Base(dir), e.Name(), "left behind")
	}
}

func write(t *testing.T, path, text string) string {
	t.Helper()
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	return path
}
