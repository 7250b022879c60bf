package main

import (
	"bytes"
	"context"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/tools/txtar"

	"ferrule/cmd/ferrule/cli"
)

// TestReadmeShowsWhatIsPrinted holds that each block of output in the README stands in
// what the scripts readme.txtar and review.txtar compare with the program's.
func TestReadmeShowsWhatIsPrinted(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	var printed strings.Builder
	for _, name := range []string{"readme", "review"} {
		script, err := txtar.ParseFile("../../testdata/script/" + name + ".txtar")
		require.NoError(t, err)
		for _, f := range script.Files {
			if strings.HasSuffix(f.Name, ".txt") {
				printed.Write(f.Data)
			}
		}
	}
	blocks := regexp.MustCompile("(?s)```text\n(.*?)```").FindAllStringSubmatch(string(readme), -1)
	require.Len(t, blocks, 3)
	for _, b := range blocks {
		assert.Contains(t, printed.String(), b[1])
	}
}

// TestHooksRun runs what the pre-commit hooks run, as the README says to configure them.
func TestHooksRun(t *testing.T) {
	hooks := read(t, "../../.pre-commit-hooks.yaml")
	readme := read(t, "../../README.md")
	ids := regexp.MustCompile(`(?m)^- id: (.*)$`).FindAllStringSubmatch(hooks, -1)
	entries := regexp.MustCompile(`(?m)^  entry: ferrule (.*)$`).FindAllStringSubmatch(hooks, -1)
	args := regexp.MustCompile(`(?m)^ +- id: (.*)\n +args: \[(.*)\]$`).FindAllStringSubmatch(readme, -1)
	require.Len(t, ids, 2)
	require.Len(t, entries, len(ids))
	require.Len(t, args, len(ids))
	t.Chdir("../../testdata")
	for i, id := range ids {
		require.Equal(t, id[1], args[i][1])
		line := strings.Fields(entries[i][1])
		for _, a := range strings.Split(args[i][2], ", ") {
			line = append(line, strings.ReplaceAll(strings.ReplaceAll(a, "HEAD:catalogue", "demo"), "catalogue", "demo"))
		}
		var out bytes.Buffer
		assert.Zero(t, cli.Run(context.Background(), line, &out, &out), "%v\n%s", line, out.String())
	}
}
