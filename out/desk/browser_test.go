package desk_test

import (
	"bufio"
	"encoding/json"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// seen is what testdata/views.mjs prints.
type seen struct {
	Views []struct {
		View, Title             string
		Width, Sideways, Passes int
		Forced                  bool
		Violations              []string
	}
	Requests, Messages, Tabs []string
	Save                     struct {
		Before, Broken, Whole where
		Banner                string
	}
}

// where is what a reader looks at.
type where struct {
	Top, Scrolled, Version int
	Focus                  string
}

// TestInBrowser looks at every view, and works with the first by the keyboard while the sheets are saved.
func TestInBrowser(t *testing.T) {
	node, chromium, modules := tools(t)
	b := newBench(t)
	b.until("findings", has("Bell crank"))
	views := []string{"findings", "coverage", "place?platform=H7&position=Bell+crank", "gaps", "vehicle?platform=H7&year=2009&position=Front+damper",
		"changes?since=" + url.QueryEscape(b.dir)}
	got := b.play(append([]string{"testdata/views.mjs", modules, chromium, b.server.URL + "/#" + b.door.Token}, views...), node)
	require.Len(t, got.Views, len(views)*6)
	for _, v := range got.Views {
		at := fmt.Sprintf("%s at %d px, forced colours %v", v.View, v.Width, v.Forced)
		assert.Empty(t, v.Violations, at)
		assert.LessOrEqual(t, v.Sideways, 0, "%s scrolls sideways", at)
		assert.Greater(t, v.Passes, 10, "%s: the checker found nothing to check", at)
	}
	assert.Empty(t, got.Messages)
	require.NotEmpty(t, got.Requests)
	for _, r := range got.Requests {
		assert.True(t, strings.HasPrefix(r, b.server.URL+"/"), "asks another host: %s", r)
	}
	assert.Subset(t, got.Tabs, []string{"To the page", "Findings", "Coverage", "Gaps", "Vehicle", "Changes", "Guides", "severity", "code", "workbook", "platform", "text", "Show"})
	s := got.Save
	assert.Contains(t, s.Banner, "fitment.xlsx")
	assert.Positive(t, s.Before.Scrolled)
	assert.Contains(t, s.Before.Focus, "The rows around")
	for name, now := range map[string]where{"broken": s.Broken, "whole": s.Whole} {
		assert.Greater(t, now.Version, s.Before.Version, name)
		assert.Equal(t, s.Before.Focus, now.Focus, "%s: the focus stays", name)
		assert.InDelta(t, s.Before.Top, now.Top, 2, "%s: the place stays", name)
	}
}

// tools gives what the test needs, which out/guide pins; without it the test is skipped, and fails where CI is set.
func tools(t *testing.T) (node, chromium, modules string) {
	t.Helper()
	modules = os.Getenv("FERRULE_NODE_MODULES")
	if modules == "" {
		modules = filepath.Join("..", "guide", "testdata", "browser", "node_modules")
	}
	node, _ = exec.LookPath("node")
	for _, name := range []string{os.Getenv("FERRULE_CHROMIUM"), "chromium", "chromium-browser", "google-chrome"} {
		if found, err := exec.LookPath(name); err == nil && chromium == "" {
			chromium = found
		}
	}
	_, err := os.Stat(filepath.Join(modules, "playwright-core", "package.json"))
	if missing := node == "" || chromium == "" || err != nil; missing {
		if os.Getenv("CI") != "" {
			t.Fatal("node, chromium or the node modules are missing; .ci/run installs them")
		}
		t.Skip("node, chromium or the node modules are missing; .ci/run installs them")
	}
	return node, chromium, modules
}

// play runs a script and saves workbooks as it asks for that.
func (b *bench) play(args []string, node string) *seen {
	b.t.Helper()
	cmd := exec.CommandContext(b.t.Context(), node, args...)
	cmd.Stderr = os.Stderr
	in, err := cmd.StdinPipe()
	require.NoError(b.t, err)
	out, err := cmd.StdoutPipe()
	require.NoError(b.t, err)
	require.NoError(b.t, cmd.Start())
	whole := b.demo("fitment.xlsx")
	got := new(seen)
	lines := bufio.NewScanner(out)
	lines.Buffer(nil, 1<<24)
	for lines.Scan() {
		switch line := lines.Text(); line {
		case "broken":
			b.put("fitment.xlsx", whole[:len(whole)/2])
		case "whole":
			b.put("fitment.xlsx", whole)
		default:
			require.NoError(b.t, json.Unmarshal([]byte(line), got))
			continue
		}
		_, err := fmt.Fprintln(in)
		require.NoError(b.t, err)
	}
	require.NoError(b.t, lines.Err())
	require.NoError(b.t, cmd.Wait())
	return got
}
