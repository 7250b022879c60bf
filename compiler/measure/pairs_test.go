package measure

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestPairs takes every pair of testdata/pairs.tsv that may be one value, and refuses every
// other, whichever brackets it stands in.
func TestPairs(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("testdata", "pairs.tsv"))
	require.NoError(t, err)
	figures, headed := map[string]int{}, false
	for _, line := range strings.Split(strings.TrimSuffix(string(data), "\n"), "\n") {
		f := strings.Split(line, "\t")
		switch {
		case strings.HasPrefix(line, "# "):
			continue
		case !headed:
			headed = true
			continue
		}
		require.Len(t, f, 4, line)
		require.NotEmpty(t, f[1], line)
		require.Contains(t, []string{"agree", "apart"}, f[3], line)
		figures[f[0]+" "+f[3]]++
		for _, text := range []string{f[2], strings.NewReplacer("(", "[", ")", "]").Replace(f[2])} {
			if _, err := ParseQuantity(text, Options{}); f[3] == "agree" {
				assert.NoError(t, err, line)
			} else {
				assert.ErrorIs(t, err, ErrDisagree, line)
			}
		}
	}
	t.Log(figures)
	assert.GreaterOrEqual(t, figures["printed agree"], 100)
	assert.GreaterOrEqual(t, figures["printed agree"]+figures["computed agree"], 200)
	assert.GreaterOrEqual(t, figures["planted apart"], 150)
}
