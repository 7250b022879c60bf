package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/cmd/ferrule/cli"
)

// goldenDir holds what the program prints about the samples.
const goldenDir = "../../testdata/golden"

// today is the date of all golden files.
const today = "2027-03-01"

// goldens gives the command line behind each golden file, with its exit status.
func goldens() map[string]golden {
	return map[string]golden{
		"faulty.txt":  {1, []string{"check", "faulty", "--today", today}},
		"faulty.json": {1, []string{"check", "faulty", "--today", today, "--format", "json"}},
		"demo.txt":    {1, []string{"check", "demo", "--today", today}},
	}
}

type golden struct {
	status int
	args   []string
}

// TestGoldens compares what is printed with the golden files, byte for byte. With
// -update they are written anew.
func TestGoldens(t *testing.T) {
	dir, err := filepath.Abs(goldenDir)
	require.NoError(t, err)
	t.Chdir("../../testdata")
	for name, g := range goldens() {
		var stdout, stderr bytes.Buffer
		assert.Equal(t, g.status, cli.Run(context.Background(), g.args, &stdout, &stderr), name)
		assert.Empty(t, stderr.String(), name)
		path := filepath.Join(dir, name)
		if *update {
			require.NoError(t, os.MkdirAll(dir, 0o755))
			require.NoError(t, os.WriteFile(path, stdout.Bytes(), 0o644))
		}
		assert.Equal(t, read(t, path), stdout.String(), "%s: go test ./cmd/ferrule -update renews it", name)
	}
}

// TestEveryGoldenIsRead fails on a golden file that no test compares.
func TestEveryGoldenIsRead(t *testing.T) {
	entries, err := os.ReadDir(goldenDir)
	require.NoError(t, err)
	for _, e := range entries {
		assert.Contains(t, goldens(), e.Name(), "nothing reads this golden file")
	}
	assert.Len(t, entries, len(goldens()))
}

func read(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(text)
}
