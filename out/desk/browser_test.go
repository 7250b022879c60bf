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

	"ferrule/compiler/tidy/share"
	"ferrule/out/browser"
	"ferrule/out/desk"
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
	Keyboard                 struct {
		Views  []string // that the keyboard alone has led to
		Chosen int      // repairs that it has ticked
		Made   string   // what stands on the page of copies
	}
	Many struct{ Streams, Tabs, Told int } // tabs at once
	Save struct {
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
	b := demoBench(t)
	b.open(desk.Options{Paths: []string{b.dir}, Ask: &desk.Ask{Near: []string{b.dir}, End: func() {}}})
	slips(b)
	before := b.files()
	views := []string{"findings", "repairs", "folder", "coverage", "place?platform=H7&position=Bell+crank", "gaps", "vehicle?platform=H7&year=2009&position=Front+damper",
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
	assert.Subset(t, got.Tabs, []string{"To the page", "Findings", "Repairs", "Coverage", "Gaps", "Vehicle", "Changes", "Guides", "severity", "code", "workbook", "platform", "text", "Show"})
	assert.Equal(t, []string{"Findings", "Repairs", "Coverage", "Gaps", "Vehicle", "Changes"}, got.Keyboard.Views)
	assert.Equal(t, 2, got.Keyboard.Chosen, "of three, one by one")
	assert.Contains(t, got.Keyboard.Made, "fitment (repaired).xlsx")
	assert.NotContains(t, got.Keyboard.Made, "vehicles (repaired).xlsx")
	assert.Equal(t, 8, got.Many.Tabs)
	assert.Equal(t, got.Many.Tabs, got.Many.Told, "every tab knows of a save")
	assert.Equal(t, 1, got.Many.Streams, "one stream a browser")
	assert.Equal(t, before, b.files(), "workbooks are only read")
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
	if !share.All() {
		t.Skip("the desk is not looked at in a browser, since CI is not set")
	}
	node, chromium, modules, missing := browser.Find(filepath.Join("..", "guide", "testdata", "browser", "node_modules"), "axe-core", "playwright-core")
	if missing != "" {
		t.Fatal(missing + " is missing; .ci/run installs it")
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
	whole, err := os.ReadFile(filepath.Join(b.dir, "fitment.xlsx"))
	require.NoError(b.t, err)
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
