package guide_test

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/guide"
)

// tried is what testdata/browser/search.mjs prints.
type tried struct {
	Cases []struct {
		URL, Focus, Status        string
		Open                      bool
		Loaded                    int
		Results, Others, Messages []string
	}
	Off []struct {
		Page, Reached, Heading string
		Field                  bool
	}
	Violations []string
}

// asking is a query by the keyboard, and what must come of it.
type asking struct {
	Page    string   `json:"page"`
	Keys    []string `json:"keys"`
	url     string   // the page that is reached
	results []string // the beginnings of what is listed, in order
	status  string
}

// askings go over the demo, a catalogue of many parts, and one with the worst of texts.
func askings() []asking {
	field := func(keys ...string) []string { return append([]string{"field"}, keys...) }
	return []asking{
		// A number is found however it is spaced and written, and Enter leads to its page.
		{Page: "demo/index.html", Keys: field("type:hpr 91 41", "Enter"), url: "demo/parts/hpr-9141.html"},
		{Page: "demo/platforms/h7.html", Keys: field("type:HPR9141", "Enter"), url: "demo/parts/hpr-9141.html"},
		{Page: "demo/platforms/h7.html", Keys: field("type:9141", "Enter"), url: "demo/parts/hpr-9141.html"},
		{Page: "demo/a-z.html", Keys: field("type:th-32012700", "Enter"), url: "demo/parts/hpr-1105.html"},
		// Words; the arrows go along the list and back, Escape begins anew.
		{Page: "demo/index.html", Keys: field("type:cast arm damper"), url: "demo/index.html",
			results: []string{"Part HPR-1103 Front damper, cast arm", "Part HPR-1104 Front damper, cast arm"}},
		{Page: "demo/index.html", Keys: field("type:cast arm damper", "ArrowDown", "ArrowDown", "ArrowUp", "Enter"), url: "demo/parts/hpr-1103.html"},
		{Page: "demo/index.html", Keys: field("type:hpr", "ArrowDown", "Escape"), url: "demo/index.html", results: []string{}, status: ""},
		{Page: "demo/index.html", Keys: field("type:zzzz"), url: "demo/index.html", results: []string{}, status: "Nothing found. The A to Z lists all numbers."},
		// Platforms, makers and what to look at.
		{Page: "demo/parts/hpr-9141.html", Keys: field("type:l4", "Enter"), url: "demo/platforms/l4.html"},
		{Page: "demo/index.html", Keys: field("type:tarnholt", "Enter"), url: "demo/index.html#maker-tarnholt"},
		{Page: "demo/index.html", Keys: field("type:levelling"), url: "demo/index.html", results: []string{"To look at Levelling"}},
		// Many parts: a few pieces of the index are loaded, not all of it.
		{Page: "many/parts/lx-00007.html", Keys: field("type:lx 01 234", "Enter"), url: "many/parts/lx-01234.html"},
		{Page: "many/index.html", Keys: field("type:damper 01234", "Enter"), url: "many/parts/lx-01234.html"},
		{Page: "many/index.html", Keys: field("type:damper"), url: "many/index.html", status: "The first 20. Go on typing to find others."},
		// Markup is found and shown as text.
		{Page: "worst/index.html", Keys: field("type:script alert"), url: "worst/index.html"},
	}
}

func TestSearchInBrowser(t *testing.T) {
	browser(t)
	dir := t.TempDir()
	demo := demoSample(t)
	write(t, filepath.Join(dir, "demo"), demo.pages(t, guide.Options{}))
	write(t, filepath.Join(dir, "many"), large(20, 15, 3000).pages(t, guide.Options{}))
	bad, o := worst(hostile)
	write(t, filepath.Join(dir, "worst"), bad.pages(t, o))
	asked := askings()
	var got tried
	play(t, "search.mjs", asked, &got, dir)
	require.Len(t, got.Cases, len(asked))
	for i, c := range got.Cases {
		want := asked[i]
		what := want.Page + " " + strings.Join(want.Keys, " ")
		assert.Equal(t, want.url, c.URL, what)
		assert.Empty(t, c.Others, "%s: it asks another host", what)
		assert.Empty(t, c.Messages, what)
		if want.status != "" {
			assert.Equal(t, want.status, c.Status, what)
		}
		if want.results != nil {
			require.GreaterOrEqual(t, len(c.Results), len(want.results), "%s: %v", what, c.Results)
			for k, r := range want.results {
				assert.Contains(t, c.Results[k], r, what)
			}
		}
		assert.LessOrEqual(t, c.Loaded, 3, "%s: the first file and pieces of the index", what)
	}
	last := got.Cases[len(got.Cases)-1]
	require.NotEmpty(t, last.Results)
	assert.Contains(t, last.Results[0], "<script>alert(1)</script>")
	cleared := got.Cases[6]
	assert.Equal(t, "search-field", cleared.Focus)
	assert.False(t, cleared.Open)
	assert.Empty(t, cleared.Results)
	require.NotEmpty(t, got.Off)
	for _, off := range got.Off {
		assert.False(t, off.Field, "%s: a field that does nothing", off.Page)
		assert.Equal(t, "A to Z", off.Heading, off.Page)
		assert.Equal(t, off.Page[:strings.IndexByte(off.Page, '/')]+"/a-z.html", off.Reached)
	}
	assert.Empty(t, got.Violations)
}
