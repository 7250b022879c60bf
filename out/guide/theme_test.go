package guide_test

import (
	"context"
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
	assert.Equal(t, "body { color: red }", pages["style.css"])
	assert.Equal(t, plain["search.js"], pages["search.js"])
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
		"an unknown name":   {"logo.png", "", "logo.png is no file of a theme; a theme may hold"},
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
		require.Equal(t, sorted(whole), sorted(parts))
		for name, page := range parts {
			if !isPage(name) {
				assert.Equal(t, whole[name], page, name)
				continue
			}
			for _, frame := range []string{"<!DOCTYPE", "<html", "<head", "<body", "<main", "<header", "<footer", "<title", "<link", "<meta", "search.js"} {
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
