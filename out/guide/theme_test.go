package guide_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/guide"
)

// theme writes files into a folder and reads it.
func theme(t *testing.T, files map[string]string) (dir string, th *guide.Theme, err error) {
	t.Helper()
	dir = t.TempDir()
	write(t, dir, files)
	th, err = guide.ReadTheme(dir)
	return dir, th, err
}

// A theme replaces a page, a bit that many pages use, and the style sheet; all else stays.
func TestTheme(t *testing.T) {
	_, th, err := theme(t, map[string]string{
		"part.tmpl":    `{{template "head" .}}<h1>Ours: <bdi>{{.Number}}</bdi></h1>{{range .Properties}}<p title="{{.Value}}">{{.Name}}</p>{{end}}{{template "foot" .}}`,
		"bits.tmpl":    `{{define "whom"}}the desk of <bdi>{{.Publisher}}</bdi>{{end}}`,
		"style.css":    "body { color: red }",
		".DS_Store":    "left alone",
		"numbers.tmpl": "",
	})
	require.NoError(t, err)
	s := newSample()
	poison(s, hostile)
	s.Cat.Parts[2].Number = "WD-120"
	s.Cat.Settings.Publisher = "Wending"
	plain, pages := s.pages(t, guide.Options{}), s.pages(t, guide.Options{Theme: th})
	own, after, _ := strings.Cut(assetText(t, pages, "style.css"), "\n")
	assert.Equal(t, "body { color: red }", own)
	assert.Regexp(t, `^:root\{--and:"and ";[^}]*\}\n$`, after, "and what elements say before and after")
	assert.Equal(t, assetText(t, plain, "search.js"), assetText(t, pages, "search.js"))
	root := parse(t, pages["parts/wd-120.html"])
	assert.Equal(t, "Ours: WD-120", words(all(root, tag("h1"))[0]))
	assert.Contains(t, pages["index.html"], "the desk of <bdi>Wending</bdi>")
	for name, page := range pages {
		assert.NotContains(t, page, "<script>alert", "%s: a theme's pages are escaped like ours", name)
	}
	require.Len(t, pages, len(plain))
}

// A template that takes long (half a minute) ends with the context.
func TestEndlessTheme(t *testing.T) {
	_, th, err := theme(t, map[string]string{"index.tmpl": `{{range .Makers}}{{range 300000000}}{{end}}{{end}}`})
	require.NoError(t, err)
	s := newSample()
	ctx, stop := context.WithCancel(context.Background())
	p, err := guide.New(ctx, s.Cat, guide.Options{Theme: th}, func(string, []byte) error { go stop(); return nil })
	require.NoError(t, err)
	require.ErrorIs(t, p.Start(), context.Canceled)
}

// What is wrong with a theme is said with the file and the line, before anything is made
// where it can be known before.
func TestFaultsOfThemes(t *testing.T) {
	for what, c := range map[string]struct{ name, text, want string }{
		"a slip in a name":  {"prat.tmpl", "", "prat.tmpl is no file of a theme (did you mean part.tmpl?); a theme may hold a-z.tmpl, bits.tmpl"},
		"an unknown name":   {"logo.gif", "", "logo.gif is no file of a theme; a theme may hold"},
		"cannot be parsed":  {"part.tmpl", "<h1>\n{{.Number}</h1>", "part.tmpl:2: bad character U+007D '}'"},
		"an unknown action": {"part.tmpl", "\n\n{{upper .Number}}", `part.tmpl:3: function "upper" not defined`},
		"no such template":  {"part.tmpl", `{{template "hat" .}}`, `part.tmpl`},
		"cannot be escaped": {"part.tmpl", "<p>\n<a href='{{if .Kit}}x{{else}}'{{end}}>", "part.tmpl:2"},
		"in every part":     {"part.tmpl", "<p>{{.Number.Length}}</p>", `part.tmpl:1:12: executing "part.tmpl" at <.Number.Length>: can't evaluate field Length in type string`},
	} {
		dir, _, err := theme(t, map[string]string{c.name: c.text})
		require.Error(t, err, what)
		assert.Contains(t, err.Error(), filepath.Join(dir, c.name), what)
		assert.Contains(t, err.Error(), c.want, what)
		assert.NotContains(t, err.Error(), "\n", what)
	}
	_, err := guide.ReadTheme(filepath.Join(t.TempDir(), "missing"))
	assert.ErrorIs(t, err, os.ErrNotExist)
	_, _, err = theme(t, map[string]string{"part.tmpl/x": ""})
	assert.Error(t, err, "a folder")
}

// A fault that shows only with the data stops the pages with an error, and so does a
// template of ours that a theme has taken something from.
func TestFaultsWhilePagesAreMade(t *testing.T) {
	for text, want := range map[string]string{
		"<ul>\n{{range .Contents}}{{.Colour}}{{end}}</ul>":      `part.tmpl:2:21: executing "part.tmpl" at <.Colour>: can't evaluate field Colour in type guide.item`,
		"{{index .Fits 1000}}":                                  `part.tmpl:1:2: executing "part.tmpl" at <index .Fits 1000>`,
		`{{define "contents"}}{{.Nothing}}{{end}}`:              `part.tmpl:1:23: executing "contents" at <.Nothing>`,
		`{{define "x"}}{{template "x"}}{{end}}{{template "x"}}`: `exceeded maximum template depth`,
	} {
		dir, th, err := theme(t, map[string]string{"part.tmpl": text})
		if err == nil {
			err = pages(newSample().Cat, newSample().Guides, guide.Options{Theme: th}, func(string, []byte) error { return nil })
		}
		require.Error(t, err, text)
		assert.Contains(t, err.Error(), dir, text)
		assert.Contains(t, err.Error(), want, text)
	}
	dir, th, err := theme(t, map[string]string{"bits.tmpl": `{{define "fit"}}{{.Kind.X}}{{end}}`})
	require.NoError(t, err)
	err = pages(newSample().Cat, newSample().Guides, guide.Options{Theme: th}, func(string, []byte) error { return nil })
	assert.ErrorContains(t, err, filepath.Join(dir, "bits.tmpl")+":1:23")
}

// Fragments are what the pages have in main, draft banner and cautions included, at the
// same addresses.
func TestFragments(t *testing.T) {
	for _, draft := range []bool{false, true} {
		whole := newSample().pages(t, guide.Options{Draft: draft})
		parts := newSample().pages(t, guide.Options{Draft: draft, Fragment: true})
		delete(whole, assetName(t, whole, "style.css"))
		delete(parts, assetName(t, parts, "style.css")) // which is for what is in its class
		delete(whole, "assets.json")
		delete(parts, "assets.json")
		require.Equal(t, sorted(whole), sorted(parts))
		for name, page := range parts {
			if !isPage(name) {
				assert.Equal(t, whole[name], page, name)
				continue
			}
			for _, frame := range []string{"<!DOCTYPE", "<html", "<head", "<body", "<main", "<header", "<footer", "<title", "<link", "<meta", "search."} {
				assert.NotContains(t, page, frame, name)
			}
			main := whole[name][strings.Index(whole[name], "<main id=\"main\">\n")+17:]
			main, _, _ = strings.Cut(main, "\n</main>")
			assert.Contains(t, page, main, name)
			assert.Equal(t, draft, strings.Contains(page, "Draft: not for use on vehicles"), name)
			assert.Contains(t, page, "Before you start work", name)
		}
	}
}

// A template of somebody else's may go round for ever or write without end: by count, and
// never by the clock, that is an error with the file and the line.
func TestThemesEnd(t *testing.T) {
	double := strings.Repeat(`{{$x = printf "%s%s" $x $x}}`, 60)
	deep := `{{define "d0"}}{{end}}`
	for i := range 60 {
		deep += fmt.Sprintf(`{{define "d%d"}}{{template "d%d"}}{{template "d%[2]d"}}{{end}}`, i+1, i)
	}
	for what, c := range map[string]struct{ name, text, want string }{
		"a loop":              {"part.tmpl", "\n{{range 1000000000000}}{{end}}", "part.tmpl:2:"},
		"a loop that writes":  {"part.tmpl", "{{range 9000000}}" + strings.Repeat("x", 100) + "{{end}}", "a page is larger than 64 MB"},
		"loops in a loop":     {"part.tmpl", "{{range 9000000}}{{range 9000000}}{{end}}{{end}}", "a page takes more than 2000000 steps; does a loop ever end?"},
		"a loop by hand":      {"part.tmpl", `{{if true}}{{with 1}}{{range 1000000000000}}{{continue}}{{end}}{{end}}{{end}}`, "a page takes more than 2000000 steps"},
		"calls that double":   {"part.tmpl", deep + `{{template "d60"}}`, "a page takes more than 2000000 steps"},
		"texts that double":   {"part.tmpl", `{{$x := "12345678"}}` + double, "a text is larger than 4 MB"},
		"escapes that double": {"part.tmpl", `{{$x := "\\\\"}}` + strings.Repeat(`{{$x = js $x}}`, 60), "a text is larger than 4 MB"},
		"a wide format":       {"part.tmpl", `{{printf "` + strings.Repeat("%999999d", 65) + `" 1}}`, "a format has more than 64 verbs"},
		"a wide text":         {"part.tmpl", `{{say "` + strings.Repeat("%999999d", 65) + `" 1}}`, "a format has more than 64 verbs"},
		"a wide count":        {"part.tmpl", `{{count "` + strings.Repeat("%999999d", 65) + `" 1}}`, "a format has more than 64 verbs"},
		"a call of itself":    {"part.tmpl", `{{define "a"}}{{template "a"}}{{end}}{{template "a"}}`, "exceeded maximum template depth"},
	} {
		_, _, err := theme(t, map[string]string{c.name: c.text})
		assert.ErrorContains(t, err, c.want, what)
	}
}

// Only files are read, small ones, and none from elsewhere.
func TestFilesOfThemes(t *testing.T) {
	_, _, err := theme(t, map[string]string{"style.css": strings.Repeat(" ", 1<<20+1)})
	assert.ErrorContains(t, err, "style.css cannot be read: it is larger than 1 MB")
	dir := t.TempDir()
	require.NoError(t, os.Mkdir(filepath.Join(dir, "style.css"), 0o700))
	_, err = guide.ReadTheme(dir)
	assert.ErrorContains(t, err, "style.css cannot be read: it is a folder, a pipe or a device, not a file")
	for _, to := range []string{"/dev/zero", filepath.Join("..", "secret")} {
		dir := filepath.Join(t.TempDir(), "theme")
		require.NoError(t, os.Mkdir(dir, 0o700))
		require.NoError(t, os.WriteFile(filepath.Join(dir, "..", "secret"), []byte("x"), 0o600))
		require.NoError(t, os.Symlink(to, filepath.Join(dir, "style.css")))
		_, err = guide.ReadTheme(dir)
		assert.ErrorContains(t, err, "style.css cannot be read: ", to)
	}
}
