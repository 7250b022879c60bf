package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/gzip"
	"context"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The order in which files are found is none of an archive's, and neither is the day.
func TestArchivesFollowFromFilesAlone(t *testing.T) {
	files := []file{{name: "b/c", data: []byte("c")}, {name: "a", data: []byte("a"), run: true}}
	turned := slices.Clone(files)
	slices.Reverse(turned)
	for _, pack := range []packer{packTar, packZip} {
		var one, other bytes.Buffer
		require.NoError(t, pack(&one, "top", files))
		require.NoError(t, pack(&other, "top", turned))
		assert.Equal(t, one.Bytes(), other.Bytes())
	}
}

func TestZipHoldsModesAndTimes(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, packZip(&out, "top", []file{{name: "b", data: []byte("two")}, {name: "a", run: true}}))
	r, err := zip.NewReader(bytes.NewReader(out.Bytes()), int64(out.Len()))
	require.NoError(t, err)
	require.Len(t, r.File, 2)
	assert.Equal(t, "top/a", r.File[0].Name)
	assert.Equal(t, fs.FileMode(0o755), r.File[0].Mode())
	assert.Equal(t, fs.FileMode(0o644), r.File[1].Mode())
	assert.True(t, r.File[1].Modified.Equal(when()))
	assert.Equal(t, uint64(3), r.File[1].UncompressedSize64)
}

func TestTarHoldsModesAndTimes(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, packTar(&out, "top", []file{{name: "b", data: []byte("two")}, {name: "a", run: true}}))
	plain, err := gzip.NewReader(&out)
	require.NoError(t, err)
	r := tar.NewReader(plain)
	a, err := r.Next()
	require.NoError(t, err)
	assert.Equal(t, "top/a", a.Name)
	assert.Equal(t, int64(0o755), a.Mode)
	b, err := r.Next()
	require.NoError(t, err)
	assert.Equal(t, int64(0o644), b.Mode)
	assert.True(t, b.ModTime.Equal(when()))
	data, err := io.ReadAll(r)
	require.NoError(t, err)
	assert.Equal(t, "two", string(data))
}

// What somebody else has put into the folder stays, and the release is not made.
func TestForeignFilesStay(t *testing.T) {
	dir := t.TempDir()
	mine := filepath.Join(dir, "letter.txt")
	require.NoError(t, os.WriteFile(mine, []byte("mine"), 0o600))
	require.Error(t, release(context.Background(), "../..", dir, nil))
	data, err := os.ReadFile(mine)
	require.NoError(t, err)
	assert.Equal(t, "mine", string(data))
	assert.NoFileExists(t, filepath.Join(dir, "SHA256SUMS"))
}

func TestEarlierOutputIsReplaced(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "release")
	for range 2 {
		require.NoError(t, release(context.Background(), "../..", dir, nil))
	}
	assert.FileExists(t, filepath.Join(dir, "SHA256SUMS"))
}

func TestDocumentsAreAllThere(t *testing.T) {
	files, err := documents("../..")
	require.NoError(t, err)
	var names []string
	for _, f := range files {
		names = append(names, f.name)
		assert.NotEmpty(t, f.data, f.name)
	}
	for _, name := range []string{"README.md", "schema/FORMAT.md", "testdata/demo/fitment.xlsx", "testdata/demo/pictures/h7-side.png"} {
		assert.Contains(t, names, name)
	}
	_, err = documents(t.TempDir())
	assert.ErrorContains(t, err, "README.md")
	assert.True(t, passing("~$fitment.xlsx"))
}

// What a double click runs stands beside the program, as a program, and opens the desk.
func TestStarters(t *testing.T) {
	for _, system := range []string{"darwin", "linux"} {
		files := target{system, "arm64"}.starter()
		require.Len(t, files, 1, system)
		assert.Equal(t, fs.FileMode(0o755), files[0].mode())
		assert.True(t, bytes.HasPrefix(files[0].data, []byte("#!/bin/sh\n")))
		assert.Contains(t, string(files[0].data), "exec ./ferrule desk --ask\n")
	}
	assert.Empty(t, target{"windows", "amd64"}.starter(), "the program itself opens the desk")
}
