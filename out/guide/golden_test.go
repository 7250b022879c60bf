package guide_test

import (
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/guide"
)

var update = flag.Bool("update", false, "write the golden files anew")

// digest is what names of files beside the pages have of their content.
var digest = regexp.MustCompile(`\.[0-9a-f]{12}(\.(?:css|js|svg))`)

func TestGolden(t *testing.T) {
	pages := newSample().pages(t, guide.Options{})
	for name, text := range pages { // a change of the style is none of each page
		pages[name] = digest.ReplaceAllString(text, "$1")
	}
	read := map[string]bool{}
	for golden, page := range map[string]string{
		"index.html": "index.html", "platform.html": "platforms/heron-7.html", "part.html": "parts/wk-9.html",
	} {
		file := filepath.Join("testdata", "golden", golden)
		read[file] = true
		if *update {
			require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
			require.NoError(t, os.WriteFile(file, []byte(pages[page]), 0o644))
		}
		want, err := os.ReadFile(file)
		require.NoError(t, err, "go test -update writes it")
		assert.Equal(t, string(want), pages[page], "%s: go test -update renews it", golden)
	}
	stored, err := filepath.Glob("testdata/golden/*")
	require.NoError(t, err)
	for _, file := range stored {
		assert.True(t, read[file], "no test reads %s", file)
	}
}
