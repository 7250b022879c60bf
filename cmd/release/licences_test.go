package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func put(t *testing.T, dir string, names ...string) {
	t.Helper()
	for _, name := range names {
		file := filepath.Join(dir, filepath.FromSlash(name))
		require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
		require.NoError(t, os.WriteFile(file, []byte("terms of "+name), 0o600))
	}
}

// A module's own terms come first, then those of what it has taken in; what only looks
// like a licence, and what tests read, is left out.
func TestTermsOfAModule(t *testing.T) {
	dir := t.TempDir()
	put(t, dir, "LICENSE.md", "PATENTS", "inner/COPYING", "license.go", "licensed.txt", "testdata/LICENSE")
	m := module{"example.org/m", "v1.2.3", dir}
	names, err := m.files()
	require.NoError(t, err)
	assert.Equal(t, []string{"LICENSE.md", "PATENTS", "inner/COPYING"}, names)
	var text strings.Builder
	require.NoError(t, m.terms(&text))
	assert.Contains(t, text.String(), "==== example.org/m v1.2.3: inner/COPYING\n\nterms of inner/COPYING\n")
}

// Terms of what a module has taken in are not its own.
func TestModuleWithoutTermsIsAnError(t *testing.T) {
	dir := t.TempDir()
	put(t, dir, "inner/LICENSE")
	for _, m := range []module{{"example.org/m", "v1", dir}, {"example.org/m", "v1", ""}} {
		assert.ErrorContains(t, m.terms(&strings.Builder{}), "example.org/m v1 has no licence file")
	}
}
