package check

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestOneFileEach holds that every check is alone in a file named after its code.
func TestOneFileEach(t *testing.T) {
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	found := 0
	for _, name := range files {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		if n := strings.Count(string(text), "= &Check{\n"); n > 0 && !strings.HasSuffix(name, "_test.go") {
			assert.Equal(t, 1, n, "checks in %s", name)
			found += n
		}
	}
	assert.Len(t, All(), found)
	for _, c := range All() {
		name := strings.ReplaceAll(string(c.Kind.Code), "-", "_") + ".go"
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		assert.Contains(t, string(text), "= &Check{\n", name)
	}
}
