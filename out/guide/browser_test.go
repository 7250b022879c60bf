package guide_test

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/tidy/share"
	browse "ferrule/out/browser"
	"ferrule/out/guide"
	"ferrule/out/tongue"
)

// seen is what testdata/browser/check.mjs prints.
type seen struct {
	Version string
	Markup  []string
	Loads   []struct {
		Page               string
		Requests, Messages []string
	}
	Views []struct {
		Page, ColorScheme       string
		Width, Sideways, Passes int
		Paper                   string
		Small, Low, Violations  []string
		Spilt, Nameless         []string
	}
	Policy struct{ Ran, Styled bool }
	Print  []struct {
		Page                           string
		Navigation, Cautions, Sideways int
		Lists, Guides                  int
		Repeated                       bool
		Paper                          string
		Lost                           []string
	}
}

// tools finds what the browser's test needs. missing says what is not there.
func tools() (node, chromium, modules, missing string) {
	return browse.Find(filepath.Join("testdata", "browser", "node_modules"), "@fontsource/michroma", "@fontsource/roboto-condensed", "axe-core", "html-validate", "lighthouse", "playwright-core", "sitemap")
}

// browser gives the tools for a test that needs them. Where CI is set they must be there;
// elsewhere the test is skipped without them.
func browser(t *testing.T) (node, chromium, modules string) {
	t.Helper()
	node, chromium, modules, missing := tools()
	if missing != "" {
		without(t, missing)
	}
	return node, chromium, modules
}

// play has a script of testdata/browser use pages: it is given the tools, args and, as JSON, input,
// and what it prints is read into got.
func play(t *testing.T, script string, input, got any, args ...string) {
	t.Helper()
	node, chromium, modules := browser(t)
	words, err := json.Marshal(input)
	require.NoError(t, err)
	cmd := exec.Command(node, append([]string{"testdata/browser/" + script, modules, chromium}, args...)...)
	cmd.Stdin, cmd.Stderr = bytes.NewReader(words), os.Stderr
	out, err := cmd.Output()
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(out, got))
}

// without skips a test that a tool is missing for, and fails it where CI is set.
func without(t *testing.T, missing string) {
	t.Helper()
	if os.Getenv("CI") != "" {
		t.Fatalf("%s is missing; .ci/run installs it", missing)
	}
	t.Skipf("%s is missing; .ci/run installs it", missing)
}

// The versions are pinned, so that a check does not change by itself.
func TestBrowserToolsArePinned(t *testing.T) {
	data, err := os.ReadFile("testdata/browser/package.json")
	require.NoError(t, err)
	var p struct{ Dependencies map[string]string }
	require.NoError(t, json.Unmarshal(data, &p))
	require.Len(t, p.Dependencies, 7)
	for name, version := range p.Dependencies {
		assert.Regexp(t, `^\d+\.\d+\.\d+$`, version, name)
	}
	_, _, modules, missing := tools()
	if missing != "" {
		return
	}
	for name, version := range p.Dependencies {
		data, err := os.ReadFile(filepath.Join(modules, name, "package.json"))
		require.NoError(t, err)
		var installed struct{ Version string }
		require.NoError(t, json.Unmarshal(data, &installed))
		assert.Equal(t, version, installed.Version, "%s as installed", name)
	}
}

// The pages in a real browser.
func TestInBrowser(t *testing.T) {
	browser(t)
	got := look(t)
	t.Run("markup", func(t *testing.T) { assert.Empty(t, got.Markup) })
	t.Run("views", func(t *testing.T) { checkViews(t, got) })
	t.Run("loads", func(t *testing.T) { checkLoads(t, got) })
	t.Run("policy", func(t *testing.T) {
		assert.False(t, got.Policy.Ran, "a script ran in spite of the policy")
		assert.True(t, got.Policy.Styled, "the policy keeps the style sheet out")
	})
	t.Run("print", func(t *testing.T) { checkPrint(t, got) })
}

// look writes the sample, one with the worst of texts, and the demo catalogue, and has
// them looked at.
func look(t *testing.T) *seen {
	dir := t.TempDir()
	names := []string{"index.html", "platforms/heron-7.html", "parts/wd-120.html", "parts/wd-100.html", "parts/wk-9.html"}
	write(t, dir, newSample().pages(t, guide.Options{Draft: true}))
	bad, o := worst(strings.Repeat("W", 300) + " \u202e<b>")
	pages := bad.pages(t, o)
	write(t, filepath.Join(dir, "worst"), pages)
	names = append(names, "worst/index.html", "worst/a-z.html", "worst/parts/gone.html", "worst/changes.html")
	seenFolder := map[string]bool{}
	for _, name := range sorted(pages) {
		if folder := filepath.Dir(name); folder != "." && isPage(name) && !seenFolder[folder] {
			seenFolder[folder] = true
			names = append(names, "worst/"+name)
		}
	}
	many := large(120, 15, 1500)
	write(t, filepath.Join(dir, "many"), many.pages(t, guide.Options{}))
	names = append(names, "many/index.html", "many/a-z.html", "many/a-z/l-2.html")
	demo := demoSample(t)
	write(t, filepath.Join(dir, "demo"), demo.pages(t, guide.Options{}))
	names = append(names, "demo/index.html", "demo/platforms/h7.html", "demo/platforms/l4.html", "demo/parts/hpr-9141.html", "demo/a-z.html",
		"demo/platforms/h7.html"+answered, "demo/platforms/l4.html"+half, "demo/platforms/h7.html"+nowhere)
	write(t, filepath.Join(dir, "line"), lineSample(t).pages(t, guide.Options{}))
	names = append(names, "line/a-z.html", "line/parts/sd-1.html", "line/platforms/stork-5.html", "line/platforms/crane-3.html",
		"line/platforms/stork-5.html"+numbered, "line/platforms/stork-5.html"+ruledOut)
	names = append(names, inTongues(t, filepath.Join(dir, "tongues"), "tongues/")...)
	names = thinned(t, names)
	got := new(seen)
	play(t, "check.mjs", nil, got, append([]string{dir}, names...)...)
	require.Len(t, got.Loads, len(names))
	require.Len(t, got.Views, len(names)*6)
	require.Len(t, got.Print, len(names))
	t.Logf("%d views in Chromium %s", len(got.Views), got.Version)
	return got
}

// inTongues writes the sample in every language that there is, its texts 40 % longer, and lists the longest page of every
// kind in each, by paths that begin with before.
func inTongues(t *testing.T, dir, before string) []string {
	s := newSample()
	speaking(s, func(text string) string { return text + strings.Repeat(" lorem", (len(text)+14)/15) }, tongue.Languages()[1:]...)
	pages := s.pages(t, guide.Options{News: whatChanged(s, "")})
	write(t, dir, pages)
	longest := map[string]string{}
	for _, name := range sorted(pages) {
		folder, file := filepath.Split(name)
		kind := folder + strings.TrimRight(strings.TrimSuffix(file, ".html"), "0123456789")
		if strings.HasSuffix(folder, "/") && len(folder) > 3 { // all pages of such a folder are of one kind
			kind = folder
		}
		if isPage(name) && file != "404.html" && len(pages[name]) > len(pages[longest[kind]]) {
			longest[kind] = name
		}
	}
	var out []string
	for _, name := range sorted(longest) {
		out = append(out, before+longest[name])
	}
	return out
}

// thinned gives the share of some pages that is looked at.
func thinned(t *testing.T, names []string) []string {
	step := share.Step(t)
	var out []string
	for i := 0; i < len(names); i += step {
		out = append(out, names[i])
	}
	return out
}

// Answers in an address: of a vehicle that is known, of one of which something cannot be
// told, and of one that does not exist, with something that is not known here; and of vehicles
// with a number, one of which Breaks rule out.
const (
	answered = "#?Front+suspension=Air+beam&Levelling=Mechanical&Front+air+line=1%2F4+in&Rear+air+line=1%2F4+in" +
		"&Tag+axle=Fixed+tag&Front+axle+rating=6.3+t&Steering+side=Left-hand&Front+tee=Left+tee&Rear+tee=No+tee"
	nowhere  = "#?Years=2011&Front+suspension=Air+independent&Colour=red"
	numbered = "#?Chassis+number=041350&Built=02/2004"
	ruledOut = "#?Chassis+number=41350&Brake=Disc"
	half     = "#?Years=2005&Rear+air+line=any&Front+suspension=Leaf&Front+axle+rating=any&Steering+side=Right-hand&Rear+tee=No+tee"
)

func checkViews(t *testing.T, got *seen) {
	papers := map[string]string{}
	for _, v := range got.Views {
		view := v.Page + " " + v.ColorScheme
		// WCAG 2.2: A and AA; reflow at 320 px (1.4.10); targets of 24 px (2.5.8).
		assert.Empty(t, v.Violations, "%s at %d px", view, v.Width)
		if least := map[string]int{"light": 10}[v.ColorScheme]; v.Width > 320 {
			assert.Greater(t, v.Passes, least, "%s: the checker found nothing to check", view)
		}
		assert.LessOrEqual(t, v.Sideways, 0, "%s scrolls sideways at %d px", view, v.Width)
		assert.Empty(t, v.Small, "%s at %d px: targets that are too small", view, v.Width)
		assert.Empty(t, v.Nameless, "%s at %d px: places without their names", view, v.Width)
		assert.Empty(t, v.Spilt, "%s at %d px: levels that run into their text", view, v.Width)
		assert.Empty(t, v.Low, "%s at %d px: targets that a gloved finger misses", view, v.Width)
		papers[v.ColorScheme] = v.Paper
	}
	assert.NotEqual(t, papers["light"], papers["dark"])
}

func checkLoads(t *testing.T, got *seen) {
	file := regexp.MustCompile(`^file:.*\.(html|css|js)(#.*)?$`)
	// A browser asks for the icon when it likes.
	drawn := regexp.MustCompile(`^file:.*/(icon\.[0-9a-f]+\.svg|pictures/[0-9a-f-]+\.(png|jpg|svg|webp))$`)
	further := regexp.MustCompile(`^tongues/(de|es|fr)/`)
	for _, l := range got.Loads {
		assert.Empty(t, l.Messages, l.Page)
		requests := slices.DeleteFunc(l.Requests, drawn.MatchString)
		want := 3
		if strings.Contains(l.Page, "platforms/") && !strings.Contains(l.Page, "gone") {
			want = 4
		}
		if l.Page == "many/index.html" || l.Page == "many/a-z.html" {
			want = 4
		}
		if strings.Contains(l.Page, "line/platforms/") {
			want = 5
		}
		if strings.Contains(l.Page, "demo/platforms/") || strings.HasSuffix(l.Page, "platforms/heron-7.html") {
			want++ // what narrows complaints and inspections
		}
		if further.MatchString(l.Page) {
			want++ // the words of scripts
		}
		assert.Len(t, requests, want, "%s: the page, its style sheet, the search, on a guide the finder, in a long list what narrows it, and what reads numbers where it asks for one", l.Page)
		for _, r := range requests {
			assert.Regexp(t, file, r, l.Page)
		}
	}
}

func checkPrint(t *testing.T, got *seen) {
	for _, p := range got.Print {
		assert.Zero(t, p.Navigation, "%s: navigation on paper", p.Page)
		assert.Equal(t, 8, p.Cautions, "%s: the usual cautions on paper", p.Page)
		assert.True(t, p.Repeated, "%s: headings of tables do not repeat", p.Page)
		assert.Equal(t, "rgb(255, 255, 255)", p.Paper, "%s: dark paper", p.Page)
		assert.LessOrEqual(t, p.Sideways, 0, "%s is wider than the sheet", p.Page)
		assert.Empty(t, p.Lost, "%s: texts that are not on paper", p.Page)
		if strings.Contains(p.Page, "#?") {
			lists := 1
			if strings.HasSuffix(p.Page, nowhere) || strings.HasSuffix(p.Page, ruledOut) {
				lists = 0
			}
			assert.Equal(t, lists, p.Lists, "%s: the list of parts", p.Page)
			assert.Zero(t, p.Guides, "%s: the guide beside the list", p.Page)
		}
	}
}
