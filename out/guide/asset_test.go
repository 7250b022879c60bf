package guide_test

import (
	"encoding/binary"
	"encoding/json"
	"image"
	"image/png"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/guide"
)

// assetName gives the name under which a file beside the pages is published, as the list says.
func assetName(t testing.TB, pages map[string]string, name string) string {
	t.Helper()
	list := map[string]string{}
	require.NoError(t, json.Unmarshal([]byte(pages["assets.json"]), &list))
	require.Contains(t, list, name)
	require.Contains(t, pages, list[name])
	return list[name]
}

func assetText(t testing.TB, pages map[string]string, name string) string {
	t.Helper()
	return pages[assetName(t, pages, name)]
}

// A name changes with the content and with nothing else, and pages ask for files by it.
func TestAssetsCarryADigest(t *testing.T) {
	pages := newSample().pages(t, guide.Options{})
	_, th, err := theme(t, map[string]string{"style.css": "p { margin: 1px }"})
	require.NoError(t, err)
	themed := newSample().pages(t, guide.Options{Theme: th})
	assert.Regexp(t, `^style\.[0-9a-f]{12}\.css$`, assetName(t, pages, "style.css"))
	assert.NotEqual(t, assetName(t, pages, "style.css"), assetName(t, themed, "style.css"))
	assert.Equal(t, assetName(t, pages, "search.js"), assetName(t, themed, "search.js"))
	for _, name := range []string{"style.css", "search.js", "icon.svg"} {
		assert.Contains(t, pages["parts/wd-120.html"], `"../`+assetName(t, pages, name)+`"`)
		assert.NotContains(t, pages, name)
	}
	assert.Contains(t, pages["platforms/heron-7.html"], `src="../`+assetName(t, pages, "finder.js")+`"`)
	for name := range pages {
		if !strings.Contains(name, "/") && regexp.MustCompile(`\.(css|js)$`).MatchString(name) && name != "search-index.js" {
			assert.Regexp(t, `\.[0-9a-f]{12}\.(css|js)$`, name)
		}
	}
}

// woff2 gives what begins as a font does, and is as long as it says.
func woff2(length int) string {
	data := make([]byte, length)
	copy(data, "wOF2\x00\x01\x00\x00")
	binary.BigEndian.PutUint32(data[8:], uint32(length))
	return string(data)
}

const drawing = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><rect width="5" height="5" fill="red"/></svg>`

// A theme adds pictures and fonts, which style sheets and templates call by their names.
func TestThemeAddsFiles(t *testing.T) {
	files := map[string]string{
		"logo.svg": drawing, "ours.woff2": woff2(200), "icon.svg": strings.Replace(drawing, "red", "blue", 1),
		"style.css":  `@font-face { font-family: ours; src: url("ours.woff2") } .home { background: url( logo.svg ) } p { background: url(elsewhere.png) }`,
		"index.tmpl": `{{template "head" .}}<h1><img src="{{.Root}}{{asset "logo.svg"}}" alt="Ours"></h1>{{template "foot" .}}`,
	}
	_, th, err := theme(t, files)
	require.NoError(t, err)
	pages := newSample().pages(t, guide.Options{Theme: th})
	font, logo := assetName(t, pages, "ours.woff2"), assetName(t, pages, "logo.svg")
	assert.Equal(t, files["ours.woff2"], pages[font])
	assert.Equal(t, drawing, pages[logo])
	style := assetText(t, pages, "style.css")
	assert.Contains(t, style, `url("`+font+`")`)
	assert.Contains(t, style, `url("`+logo+`")`)
	assert.Contains(t, style, `url(elsewhere.png)`, "what the theme does not have is left as it is")
	assert.Contains(t, pages["index.html"], `<img src="`+logo+`"`)
	assert.Contains(t, pages["a-z.html"], "font-src 'self'")

	_, _, err = theme(t, map[string]string{"index.tmpl": `{{asset "logo.png"}}`})
	assert.ErrorContains(t, err, `index.tmpl:1:2: executing "index.tmpl" at <asset "logo.png">: error calling asset: there is no file "logo.png" beside the pages; there is complaint.js, filter.js, `)
}

// What is drawn anew gives a logo without anything but its look.
func TestThemePicturesAreDrawnAnew(t *testing.T) {
	dir := t.TempDir()
	f, err := os.Create(filepath.Join(dir, "logo.png"))
	require.NoError(t, err)
	require.NoError(t, png.Encode(f, image.NewGray(image.Rect(0, 0, 20, 10))))
	_, err = f.WriteString("<script>hangs on behind</script>")
	require.NoError(t, err)
	require.NoError(t, f.Close())
	th, err := guide.ReadTheme(dir)
	require.NoError(t, err)
	pages := newSample().pages(t, guide.Options{Theme: th})
	logo := assetText(t, pages, "logo.png")
	assert.NotContains(t, logo, "script")
	size, err := png.DecodeConfig(strings.NewReader(logo))
	require.NoError(t, err)
	assert.Equal(t, []int{20, 10}, []int{size.Width, size.Height})
}

// What acts, is no picture or font, or is called so that an address would mean something else, is refused.
func TestThemeRefuses(t *testing.T) {
	for name, files := range map[string]map[string]string{
		"acts":        {"a.svg": strings.Replace(drawing, "<rect", "<script>alert(1)</script><rect", 1)},
		"listens":     {"a.svg": strings.Replace(drawing, "<rect", `<rect onload="alert(1)"`, 1)},
		"fetches":     {"a.svg": strings.Replace(drawing, "<rect", `<image href="https://example.org/x.png"/><rect`, 1)},
		"no picture":  {"a.png": "<html>"},
		"no font":     {"a.woff2": strings.Repeat("x", 100)},
		"longer":      {"a.woff2": woff2(100) + "x"},
		"old font":    {"a.woff": woff2(100)},
		"cut":         {"a.woff2": "wOF2"},
		"page":        {"a.html": "<html>"},
		"font folder": {"a.otf": "OTTO"},
		"in brackets": {"a(b).png": "x"},
	} {
		_, _, err := theme(t, files)
		assert.Error(t, err, name)
		if name == "acts" {
			assert.ErrorContains(t, err, "a.svg cannot be taken: ")
		}
	}
	many := map[string]string{}
	for i := range 41 {
		many[strings.Repeat("a", i+1)+".woff2"] = woff2(60)
	}
	_, _, err := theme(t, many)
	assert.ErrorContains(t, err, "is one file more than the 40 pictures and fonts that a theme may add")
	_, _, err = theme(t, map[string]string{"a.woff2": woff2(1<<20 + 1)})
	assert.ErrorContains(t, err, "a.woff2 cannot be taken: it is larger than 1 MB")
}

// selectors finds what rules of a style sheet are for, in conditions too.
func selectors(css string) []string {
	css = regexp.MustCompile(`(?s)/\*.*?\*/`).ReplaceAllString(css, "")
	var out []string
	for _, m := range regexp.MustCompile(`([^{}]+)\{`).FindAllStringSubmatch(css, -1) {
		if head := strings.TrimSpace(m[1]); !strings.HasPrefix(head, "@") {
			depth := 0
			out = append(out, strings.FieldsFunc(head, func(r rune) bool {
				switch r {
				case '(', '[':
					depth++
				case ')', ']':
					depth--
				}
				return r == ',' && depth == 0
			})...)
		}
	}
	return out
}

// The style of fragments holds for nothing outside of its class, and says the same within it.
func TestStyleOfFragmentsIsScoped(t *testing.T) {
	whole, scoped := newSample().pages(t, guide.Options{}), newSample().pages(t, guide.Options{Fragment: true})
	ours, theirs := assetText(t, whole, "style.css"), assetText(t, scoped, "style.css")
	page := regexp.MustCompile(`(?m)^@media print\{@page.*$|@page[^{}]*\{([^{}]*\{[^{}]*\})*[^{}]*\}`)
	assert.NotContains(t, theirs, "@page", "the sheet of paper is the host's")
	list := selectors(page.ReplaceAllString(ours, ""))
	got := selectors(theirs)
	require.Len(t, got, len(list))
	for i, s := range got {
		assert.Regexp(t, `^\s*\.fitment([ .:\[>]|$)`, s, list[i])
	}
	body := regexp.MustCompile(`\{([^{}]*)\}`)
	said := func(css string) []string {
		var out []string
		for _, m := range body.FindAllStringSubmatch(page.ReplaceAllString(regexp.MustCompile(`(?s)/\*.*?\*/`).ReplaceAllString(css, ""), ""), -1) {
			out = append(out, strings.TrimSpace(m[1]))
		}
		return out
	}
	assert.Equal(t, said(ours), said(theirs))
	for name := range maps.Keys(scoped) {
		if isPage(name) {
			assert.True(t, strings.HasPrefix(strings.TrimSpace(scoped[name]), `<div class="fitment`), name)
		}
	}
	_, th, err := theme(t, map[string]string{"style.css": "body { color: red }"})
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(assetText(t, newSample().pages(t, guide.Options{Fragment: true, Theme: th}), "style.css"), "body { color: red }\n.fitment{--and:"), "a theme's own is copied as it is, and words go with it")
	assert.True(t, slices.Contains(got, ".fitment.only-list>:not(.order,.usual,.banner)"), "what prints the list asks nothing of the host's body")
}
