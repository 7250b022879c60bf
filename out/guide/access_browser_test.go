package guide_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/guide"
)

// accessed is what testdata/browser/access.mjs prints.
type accessed struct {
	Trees map[string][]string
	Views []struct {
		Way, Page                string
		Sideways, Moving, Unseen int
		Fonts, Low, Astray       int
		Wide, Cut                []string
	}
	Keys []struct {
		Page  string
		Stops []struct {
			Name  string
			Shown bool
		}
		After *struct {
			Hints        []struct{ Beside, Tied int }
			Ring, Inside bool
			Status       string
		}
	}
}

// Pages as a screen reader is told of them, with little room, in others' colours and fonts, and by keys.
func TestAccessInBrowser(t *testing.T) {
	browser(t)
	dir := t.TempDir()
	s := newSample()
	write(t, dir, s.pages(t, guide.Options{News: whatChanged(s, "")}))
	write(t, filepath.Join(dir, "demo"), demoSample(t).pages(t, guide.Options{}))
	trees := map[string]string{"index.html": "index.txt", "platforms/heron-7.html": "platform.txt", "parts/wd-120.html": "part.txt", "changes.html": "changes.txt"}
	pages := []string{"index.html", "platforms/heron-7.html", "demo/platforms/h7.html", "demo/parts/hpr-1102.html", "demo/platforms/h7.html" + answered, "changes/heron-7.html"}
	var got accessed
	play(t, "access.mjs", sorted(trees), &got, append([]string{dir}, pages...)...)
	t.Run("trees", func(t *testing.T) { checkTrees(t, trees, got.Trees) })
	t.Run("views", func(t *testing.T) {
		require.Len(t, got.Views, 9*len(pages))
		for _, v := range got.Views {
			what := v.Page + ", " + v.Way
			assert.LessOrEqual(t, v.Sideways, 0, "%s: scrolls sideways: %v", what, v.Wide)
			assert.Zero(t, v.Low, "%s: targets that a gloved finger misses", what)
			assert.Zero(t, v.Astray, "%s: numbers of the plan beside their circles", what)
			assert.Equal(t, strings.Contains(v.Way, "font"), v.Fonts > 0, "%s: fonts of its own", what)
			assert.Zero(t, v.Moving, "%s: something moves", what)
			assert.Zero(t, v.Unseen, "%s: shapes in the colour of the paper", what)
			assert.Empty(t, v.Cut, "%s: words that are cut off", what)
		}
	})
	t.Run("keys", func(t *testing.T) { checkKeys(t, &got) })
}

// checkTrees holds the trees against files, which -update writes.
func checkTrees(t *testing.T, files map[string]string, trees map[string][]string) {
	for page, name := range files {
		file, tree := filepath.Join("testdata", "trees", name), strings.Join(trees[page], "\n")+"\n"
		if *update {
			require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
			require.NoError(t, os.WriteFile(file, []byte(tree), 0o644))
		}
		want, err := os.ReadFile(file)
		require.NoError(t, err, "go test -update writes it")
		assert.Equal(t, string(want), tree, "%s: go test -update renews it", file)
	}
}

func checkKeys(t *testing.T, got *accessed) {
	answers := 0
	for _, k := range got.Keys {
		require.Greater(t, len(k.Stops), 3, k.Page)
		for i, stop := range k.Stops {
			assert.NotEmpty(t, stop.Name, "%s: the Tab key stops at nothing, at stop %d", k.Page, i+1)
			assert.True(t, stop.Shown, "%s: %s cannot be seen with the focus on it", k.Page, stop.Name)
		}
		if k.After == nil {
			continue
		}
		answers++
		for _, h := range k.After.Hints {
			assert.Equal(t, h.Beside, h.Tied, "%s: hints beside an answer that are not read with it", k.Page)
		}
		assert.True(t, k.After.Ring, "%s: the focus is not seen where it lands", k.Page)
		assert.True(t, k.After.Inside, "%s: the focus lands outside the window", k.Page)
		assert.Regexp(t, `^\d+ of \d+ places known(; ask about \d+)?\. (Settled now: .+|No further place is settled yet)\.$`, k.After.Status, k.Page)
	}
	require.Equal(t, 2, answers, "pages that ask something")
}
