package main

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/tools/txtar"
)

// TestReadmeShowsWhatIsPrinted holds that each block of output in the README stands in
// what the script readme.txtar compares with the program's.
func TestReadmeShowsWhatIsPrinted(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	script, err := txtar.ParseFile("../../testdata/script/readme.txtar")
	require.NoError(t, err)
	var printed strings.Builder
	for _, f := range script.Files {
		if strings.HasSuffix(f.Name, ".txt") {
			printed.Write(f.Data)
		}
	}
	blocks := regexp.MustCompile("(?s)```text\n(.*?)```").FindAllStringSubmatch(string(readme), -1)
	require.Len(t, blocks, 2)
	for _, b := range blocks {
		assert.Contains(t, printed.String(), b[1])
	}
}
