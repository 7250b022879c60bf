package folder

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/folder/found"
)

// refusal gives the reason why dir is refused; "" where it is not.
func refusal(t *testing.T, dir string, sources ...string) string {
	t.Helper()
	_, err := target(dir, sources)
	if err == nil {
		return ""
	}
	var r *Refusal
	require.ErrorAs(t, err, &r)
	return r.Why
}

func TestFoldersThatMayBeReplaced(t *testing.T) {
	root := t.TempDir()
	source := filepath.Join(root, "catalogue")
	write(t, filepath.Join(source, "parts.xlsx"), "")
	empty := filepath.Join(root, "empty")
	require.NoError(t, os.Mkdir(empty, 0o755))
	shown := filepath.Join(root, "shown")
	write(t, filepath.Join(shown, ".DS_Store"), "")
	earlier := filepath.Join(root, "earlier")
	require.NoError(t, publish(t, earlier))
	for _, dir := range []string{empty, shown, earlier, filepath.Join(root, "new"), filepath.Join(root, "a", "b"),
		filepath.Join(source, "site"), filepath.Join(source, "..", "new")} {
		assert.Empty(t, refusal(t, dir, source), dir)
	}
}

func TestFoldersThatAreKept(t *testing.T) {
	root := t.TempDir()
	t.Setenv("HOME", write(t, filepath.Join(root, "people", "ann", "x"), "")[:len(root)+len("/people/ann")])
	file := write(t, filepath.Join(root, "file"), "")
	foreign := filepath.Join(root, "foreign")
	write(t, filepath.Join(foreign, "public", "index.html"), "")
	marked := filepath.Join(root, "marked")
	write(t, filepath.Join(marked, markerName), "something else\n")
	dangling := filepath.Join(root, "dangling")
	require.NoError(t, os.Symlink(filepath.Join(root, "nowhere"), dangling))
	for dir, want := range map[string]string{
		"":                              "has no name",
		"/":                             "root of the file system",
		filepath.Join(root, "people"):   "home folder or lies above it",
		os.Getenv("HOME"):               "home folder or lies above it",
		file:                            "is a file",
		filepath.Join(file, "site"):     "which is a file",
		filepath.Join(file, "a", "b"):   "which is a file",
		foreign:                         "holds public and is not an earlier output",
		marked:                          "is not an earlier output",
		dangling:                        "link that leads nowhere",
		filepath.Join(dangling, "site"): "link that leads nowhere",
	} {
		assert.Contains(t, refusal(t, dir), want, dir)
		assert.Error(t, publish(t, dir), dir)
	}
}

// An earlier output is kept as soon as it holds a file that no build has written.
func TestForeignFilesInAnEarlierOutput(t *testing.T) {
	for _, name := range []string{"notes.txt", "public/CNAME", "public/.git/HEAD"} {
		dir := filepath.Join(t.TempDir(), "site")
		require.NoError(t, publish(t, dir))
		write(t, filepath.Join(dir, filepath.FromSlash(name)), "mine")
		assert.Contains(t, refusal(t, dir), "holds "+name)
		require.Error(t, publish(t, dir))
		assert.Equal(t, "mine", found.Files(t, dir)[name])
	}
}

func TestSourcesAreKept(t *testing.T) {
	root := t.TempDir()
	book := write(t, filepath.Join(root, "site", "deep", "catalogue", "parts.xlsx"), "")
	catalogue := filepath.Dir(book)
	link := filepath.Join(root, "link")
	require.NoError(t, os.Symlink(catalogue, link))
	linked := filepath.Join(root, "linked")
	require.NoError(t, os.Mkdir(linked, 0o755))
	require.NoError(t, os.Symlink(book, filepath.Join(linked, "parts.xlsx")))
	for _, source := range []string{catalogue, book, link, linked, filepath.Join(linked, "parts.xlsx")} {
		for dir := catalogue; dir != root; dir = filepath.Dir(dir) {
			assert.Contains(t, refusal(t, dir, source), "holds the source", "%s from %s", dir, source)
		}
	}
	t.Chdir(catalogue)
	assert.Contains(t, refusal(t, ".", "."), "holds the source")
	assert.Contains(t, refusal(t, "..", "parts.xlsx"), "holds the source")
	t.Chdir(root)
	assert.Contains(t, refusal(t, "link", "site/deep/catalogue"), "holds the source")
}

// The folder that this runs in would be gone afterwards, and whoever stands in it with it.
func TestFolderThatThisRunsInIsKept(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	require.NoError(t, publish(t, dir))
	for _, here := range []string{dir, filepath.Join(dir, "public", "guides")} {
		t.Chdir(here)
		assert.Contains(t, refusal(t, dir), "is the folder that this runs in")
		assert.ErrorContains(t, publish(t, dir), "run this from outside of it, or name a folder below it")
	}
}
