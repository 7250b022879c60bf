package propose_test

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/tools/txtar"

	"ferrule/compiler/propose"
	"ferrule/out/markup"
)

// TestFigures tells how many cells are claimed at once on the sheets of the twins, each without the
// Layouts sheet that its keeper wrote, and holds that it is most of them.
func TestFigures(t *testing.T) {
	files, err := filepath.Glob("../testdata/twins/*.txtar")
	require.NoError(t, err)
	filled, claimed := 0, 0
	for _, file := range files {
		a, err := txtar.ParseFile(file)
		require.NoError(t, err)
		var laid txtar.Archive
		for _, f := range a.Files {
			name, ok := strings.CutPrefix(f.Name, "laid/")
			if ok && strings.Contains(name, "/") && !strings.HasSuffix(name, "/Layouts") && len(f.Data) > 0 {
				laid.Files = append(laid.Files, txtar.File{Name: name, Data: f.Data})
			}
		}
		books, err := markup.Books(txtar.Format(&laid))
		require.NoError(t, err)
		for _, b := range books {
			p := lookAt(t, b)
			n, k := figures(p)
			filled, claimed = filled+n, claimed+k
			t.Logf("%s %s: %d of %d cells claimed at once, %d rows of Layouts, %d remarks", filepath.Base(file), b.Name, k, n, len(p.Rules), len(p.Remarks)+len(p.Told))
		}
	}
	t.Logf("all: %d of %d", claimed, filled)
	assert.Positive(t, filled)
	assert.Greater(t, claimed*10, filled*6)
}

// figures gives how many cells there are and how many are claimed, on the sheets that are proposed for.
func figures(p *propose.Proposal) (filled, claimed int) {
	for _, s := range p.Seen {
		if !s.Known {
			filled, claimed = filled+s.Filled, claimed+s.Claimed
		}
	}
	return filled, claimed
}
