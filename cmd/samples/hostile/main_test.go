package main

import (
	"os"
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// made are the samples, which take seconds, for all tests.
var made = sync.OnceValue(samples)

// The committed files are what the program makes, and no others are there.
func TestSamplesAreInStep(t *testing.T) {
	const dir = "../../../testdata/hostile"
	all := made()
	files, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, files, len(all), "files in testdata/hostile")
	names := map[string]bool{}
	for _, s := range all {
		assert.False(t, names[s.name], "two samples of the name %s", s.name)
		names[s.name] = true
		got, err := os.ReadFile(filepath.Join(dir, s.name+".xlsx"))
		require.NoError(t, err)
		assert.True(t, string(s.data) == string(got), "%s.xlsx is not what is made: run go generate ./sheets", s.name)
		assert.Less(t, len(got), 300<<10, "%s.xlsx is too large to be kept", s.name)
	}
}

func TestRun(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new")
	require.NoError(t, run(dir))
	files, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, files, len(made()))
	assert.Error(t, run(filepath.Join(dir, "empty.xlsx")))
}
