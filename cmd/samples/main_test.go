package main

import (
	"archive/zip"
	"bytes"
	"image"
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/cmd/samples/picture"
	"ferrule/out/aid"
)

const testdata = "../../testdata"

// The committed workbooks say what their texts say. Parts are compared after they are
// inflated, since another release of Go may compress the same bytes in another way.
func TestWorkbooksAreInStep(t *testing.T) {
	for _, name := range catalogues() {
		dir := filepath.Join(testdata, name)
		books, err := read(dir)
		require.NoError(t, err)
		made := t.TempDir()
		require.NoError(t, aid.Write(made, books))
		assert.ElementsMatch(t, workbooks(t, made), workbooks(t, dir), "%s: run go run ./cmd/samples, and delete what no text describes", name)
		for _, b := range books {
			want, got := parts(t, filepath.Join(made, b.Name)), parts(t, filepath.Join(dir, b.Name))
			require.Equal(t, len(want), len(got), b.Name)
			for i := range want {
				assert.Equal(t, want[i].name, got[i].name, b.Name)
				assert.True(t, want[i].text == got[i].text, "%s/%s: %s differs from its text, run go run ./cmd/samples", name, b.Name, want[i].name)
			}
		}
	}
}

// The committed pictures are those that are drawn. PNG and JPEG are compared as they
// look, since another release of Go may pack them in another way.
func TestPicturesAreInStep(t *testing.T) {
	var names []string
	entries, err := os.ReadDir(filepath.Join(testdata, pictures))
	require.NoError(t, err)
	for _, e := range entries {
		names = append(names, e.Name())
	}
	assert.ElementsMatch(t, picture.Names(), names)
	for _, name := range picture.Names() {
		want, err := picture.Draw(name)
		require.NoError(t, err)
		got, err := os.ReadFile(filepath.Join(testdata, pictures, name))
		require.NoError(t, err)
		if filepath.Ext(name) == ".svg" {
			assert.Equal(t, string(want), string(got), name)
			continue
		}
		a, _, err := image.Decode(bytes.NewReader(want))
		require.NoError(t, err)
		b, _, err := image.Decode(bytes.NewReader(got))
		require.NoError(t, err)
		assert.Equal(t, a, b, name)
	}
	_, err = picture.Draw("other.svg")
	assert.Error(t, err)
}

func TestRunWritesWhatTheTextsSay(t *testing.T) {
	root := t.TempDir()
	for _, name := range catalogues() {
		source := filepath.Join(root, name, "source")
		require.NoError(t, os.MkdirAll(source, 0o755))
		require.NoError(t, os.WriteFile(filepath.Join(source, "a.txtar"), []byte("About it.\n-- a.xlsx/Parts --\nPart\nHD-1\n"), 0o644))
		require.NoError(t, os.WriteFile(filepath.Join(source, "b.txtar"), []byte("About it.\n-- b.xlsx/Kits --\nKit\tPart\nK-1\tHD-1\n"), 0o644))
	}
	require.NoError(t, run(root))
	for _, name := range catalogues() {
		assert.Equal(t, []string{"a.xlsx", "b.xlsx"}, workbooks(t, filepath.Join(root, name)))
	}
	assert.ErrorContains(t, run(t.TempDir()), "no texts")
	bad := filepath.Join(root, "demo", "source", "c.txtar")
	require.NoError(t, os.WriteFile(bad, []byte("-- c.doc/Parts --\n"), 0o644))
	assert.ErrorContains(t, run(root), "c.txtar")
}

func workbooks(t *testing.T, dir string) []string {
	files, err := filepath.Glob(filepath.Join(dir, "*.xls*"))
	require.NoError(t, err)
	for i := range files {
		files[i] = filepath.Base(files[i])
	}
	return files
}

type entry struct{ name, text string }

// parts gives the parts of a package in their order.
func parts(t *testing.T, file string) []entry {
	pkg, err := os.ReadFile(file)
	require.NoError(t, err)
	z, err := zip.NewReader(bytes.NewReader(pkg), int64(len(pkg)))
	require.NoError(t, err)
	var out []entry
	for _, f := range z.File {
		r, err := f.Open()
		require.NoError(t, err)
		text, err := io.ReadAll(r)
		require.NoError(t, err)
		require.NoError(t, r.Close())
		out = append(out, entry{f.Name, string(text)})
	}
	return out
}
