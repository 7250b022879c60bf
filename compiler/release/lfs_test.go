package release

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
)

// What Git LFS keeps is read from where it keeps it, and must be what the pointer says.
func TestPointersOfLFS(t *testing.T) {
	book, err := os.ReadFile("../../testdata/demo/fitment.xlsx")
	require.NoError(t, err)
	sum := sha256.Sum256(book)
	hash := hex.EncodeToString(sum[:])
	text := fmt.Sprintf("version https://git-lfs.github.com/spec/v1\noid sha256:%s\nsize %d\n", hash, len(book))
	repository(t, [2]string{"fitment.xlsx", text})
	_, err = Open(t.Context(), "HEAD:cat", compiler.Options{})
	assert.EqualError(t, err, "HEAD:cat cannot be read: Git LFS keeps fitment.xlsx elsewhere and it is not here (fetch it with: git lfs fetch origin HEAD)")

	at := filepath.Join(".git", "lfs", "objects", hash[:2], hash[2:4])
	require.NoError(t, os.MkdirAll(at, 0o700))
	at = filepath.Join(at, hash)
	require.NoError(t, os.WriteFile(at, book, 0o600))
	r, err := Open(t.Context(), "HEAD:cat", compiler.Options{})
	require.NoError(t, err)
	assert.Equal(t, 3, r.State.Workbooks)
	assert.NotEmpty(t, r.Guides)

	for _, other := range [][]byte{book[:len(book)-1], append(book[:len(book)-1:len(book)-1], 'x')} {
		require.NoError(t, os.WriteFile(at, other, 0o600))
		_, err = Open(t.Context(), "HEAD:cat", compiler.Options{})
		assert.EqualError(t, err, "HEAD:cat cannot be read: what Git LFS keeps of fitment.xlsx is damaged")
	}
	require.NoError(t, os.Remove(at))
	require.NoError(t, os.Symlink("/dev/zero", at))
	_, err = Open(t.Context(), "HEAD:cat", compiler.Options{})
	assert.ErrorContains(t, err, "it is not here")
}

func TestPointer(t *testing.T) {
	hash := "4d7a214614ab2935c943f9e0ff69d22eadbb8f32b1258daaa5e2ca24d17e2393"
	whole := "version https://git-lfs.github.com/spec/v1\next-0-foo sha256:" + hash + "\noid sha256:" + hash + "\nsize 12345\n"
	assert.True(t, pointer.MatchString(whole))
	for _, other := range []string{whole + "x", "x" + whole, whole[:len(whole)-1], "PK\x03\x04",
		"version https://git-lfs.github.com/spec/v1\noid sha256:../../../../etc/passwd\nsize 1\n"} {
		assert.False(t, pointer.MatchString(other), other)
	}
}

// A file is measured before it is read.
func TestFits(t *testing.T) {
	g := &git{name: "main:cat"}
	assert.NoError(t, g.fits("a.xlsx", maxBook))
	assert.EqualError(t, g.fits("a.xlsx", maxBook+1), "main:cat cannot be read: a.xlsx is larger than 1024 MB")
	assert.EqualError(t, g.fits("parts.schema.json", 1<<20+1), "main:cat cannot be read: parts.schema.json is larger than 1 MB")
	for range 3 {
		assert.NoError(t, g.fits("a.xlsx", maxBook))
	}
	assert.EqualError(t, g.fits("a.xlsx", 1), "main:cat cannot be read: its files are larger than 4096 MB together")
}

func TestBounded(t *testing.T) {
	b := bounded{most: 3}
	n, err := b.Write([]byte("abc"))
	require.NoError(t, err)
	assert.Equal(t, 3, n)
	_, err = b.Write([]byte("d"))
	assert.ErrorIs(t, err, errTalk)
	assert.Equal(t, "abc", b.String())
}
