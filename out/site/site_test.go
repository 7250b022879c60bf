package site

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// markerName is the file that says what a build has written.
const markerName = ".ferrule-output"

func publish(t *testing.T, dir string, sources ...string) error {
	t.Helper()
	_, err := Publish(context.Background(), dir, sources, sample(), Options{})
	return err
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

func TestPublishWritesBothFolders(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "deep", "site")
	counts, err := Publish(context.Background(), dir, nil, sample(), Options{})
	require.NoError(t, err)
	got := tree(t, dir)
	for _, name := range []string{"public/index.html", "public/catalogue.json", "public/guides/H7.json", "public/style.css",
		"staff/findings.json", "staff/coverage.json", "staff/catalogue.json", "staff/guides/H7.json", markerName} {
		assert.Contains(t, got, name)
	}
	assert.Equal(t, 1, counts.Guides)
	assert.Equal(t, len(got)-1, counts.Files)
	var size int64
	for name, text := range got {
		if name != markerName {
			size += int64(len(text))
		}
	}
	assert.Equal(t, size, counts.Bytes)
	info, err := os.Stat(dir)
	require.NoError(t, err)
	assert.Equal(t, fs.FileMode(0o755), info.Mode().Perm())
}

func TestPublishTwiceGivesSameBytes(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	require.NoError(t, publish(t, dir))
	first := tree(t, dir)
	require.NoError(t, publish(t, dir))
	assert.Equal(t, first, tree(t, dir))
	alone(t, dir)
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

func TestPublishRemovesWhatIsNoLongerMade(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	require.NoError(t, publish(t, dir))
	r := sample()
	r.Catalogue.Platforms[0].Name = "H9"
	_, err := Publish(context.Background(), dir, nil, r, Options{})
	require.NoError(t, err)
	got := tree(t, dir)
	assert.Contains(t, got, "staff/guides/H9.json")
	assert.NotContains(t, got, "staff/guides/H7.json")
}

func TestStoppedPublishChangesNothing(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	require.NoError(t, publish(t, dir))
	before := tree(t, dir)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	_, err := Publish(ctx, dir, nil, sample(), Options{})
	require.ErrorIs(t, err, context.Canceled)
	assert.Equal(t, before, tree(t, dir))
	alone(t, dir)
}

// A broken invariant, in whichever goroutine, comes to the caller and leaves nothing behind.
func TestPanicWhilePublishingChangesNothing(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	require.NoError(t, publish(t, dir))
	before := tree(t, dir)
	broken := sample()
	broken.Guides[0] = nil
	require.Panics(t, func() { _, _ = Publish(context.Background(), dir, nil, broken, Options{}) })
	assert.Equal(t, before, tree(t, dir))
	alone(t, dir)
}

func TestLinkToOutputIsFollowed(t *testing.T) {
	root := t.TempDir()
	real, link := filepath.Join(root, "real"), filepath.Join(root, "link")
	require.NoError(t, os.Mkdir(real, 0o755))
	require.NoError(t, os.Symlink(real, link))
	require.NoError(t, publish(t, link))
	info, err := os.Lstat(link)
	require.NoError(t, err)
	assert.NotZero(t, info.Mode()&fs.ModeSymlink, "the link stays a link")
	assert.Contains(t, tree(t, real), markerName)
}

// Platforms and parts are made by several goroutines, whose order shows nowhere.
func TestManyPlatformsGiveSameBytes(t *testing.T) {
	var first map[string]string
	for range 3 {
		dir := filepath.Join(t.TempDir(), "site")
		_, err := Publish(context.Background(), dir, nil, firm(12), Options{})
		require.NoError(t, err)
		got := tree(t, dir)
		if first == nil {
			first = got
		}
		require.Equal(t, len(first), len(got))
		for name, text := range got {
			assert.Equal(t, first[name], text, name)
		}
		alone(t, dir)
	}
	assert.Greater(t, len(first), 12*3+120*2, "three files of each platform, two of each part")
}
