package folder

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"testing"

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

func write(t *testing.T, path, text string) string {
	t.Helper()
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	return path
}
