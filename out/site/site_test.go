package site

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/folder/found"
)

// markerName is the file that says what a build has written.
const markerName = ".ferrule-output"

func publish(t *testing.T, dir string, sources ...string) error {
	t.Helper()
	_, err := Publish(context.Background(), dir, sources, sample(), Options{})
	return err
}

func TestPublishWritesBothFolders(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "deep", "site")
	counts, err := Publish(context.Background(), dir, nil, sample(), Options{})
	require.NoError(t, err)
	got := found.Files(t, dir)
	for _, name := range []string{"public/index.html", "public/catalogue.json", "public/guides/H7.json", "public/assets.json",
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
	first := found.Files(t, dir)
	require.NoError(t, publish(t, dir))
	assert.Equal(t, first, found.Files(t, dir))
	found.Alone(t, dir)
}

func TestPublishRemovesWhatIsNoLongerMade(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	require.NoError(t, publish(t, dir))
	r := sample()
	r.Catalogue.Platforms[0].Name = "H9"
	_, err := Publish(context.Background(), dir, nil, r, Options{})
	require.NoError(t, err)
	got := found.Files(t, dir)
	assert.Contains(t, got, "staff/guides/H9.json")
	assert.NotContains(t, got, "staff/guides/H7.json")
}

func TestStoppedPublishChangesNothing(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	require.NoError(t, publish(t, dir))
	before := found.Files(t, dir)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	_, err := Publish(ctx, dir, nil, sample(), Options{})
	require.ErrorIs(t, err, context.Canceled)
	assert.Equal(t, before, found.Files(t, dir))
	found.Alone(t, dir)
}

// A broken invariant, in whichever goroutine, comes to the caller and leaves nothing behind.
func TestPanicWhilePublishingChangesNothing(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	require.NoError(t, publish(t, dir))
	before := found.Files(t, dir)
	broken := sample()
	broken.Guides[0] = nil
	require.Panics(t, func() { _, _ = Publish(context.Background(), dir, nil, broken, Options{}) })
	assert.Equal(t, before, found.Files(t, dir))
	found.Alone(t, dir)
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
	assert.Contains(t, found.Files(t, real), markerName)
}

// Platforms and parts are made by several goroutines, whose order shows nowhere.
func TestManyPlatformsGiveSameBytes(t *testing.T) {
	var first map[string]string
	for range 3 {
		dir := filepath.Join(t.TempDir(), "site")
		_, err := Publish(context.Background(), dir, nil, firm(12), Options{})
		require.NoError(t, err)
		got := found.Files(t, dir)
		if first == nil {
			first = got
		}
		require.Equal(t, len(first), len(got))
		for name, text := range got {
			assert.Equal(t, first[name], text, name)
		}
		found.Alone(t, dir)
	}
	assert.Greater(t, len(first), 12*3+120*2, "three files of each platform, two of each part")
}
