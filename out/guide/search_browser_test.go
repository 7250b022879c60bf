package guide_test

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/tidy/share"
	"ferrule/out/guide"
)

// tried is what testdata/browser/search.mjs prints.
type tried struct {
	Cases []struct {
		URL, Focus, Status        string
		Open                      bool
		Loaded                    int
		Results, Others, Messages []string
		Cached                    []string // files of the index that a cache may bring from an earlier release
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
	pieces  int // of the index that it may load with the first file, where these are more than usual
}

// askings go over the demo, a catalogue of many parts, and one with the worst of texts; a group of them tries one thing.
func askings() [][]asking {
	field := func(keys ...string) []string { return append([]string{"field"}, keys...) }
	return [][]asking{{
		// A number is found however it is spaced and written, and Enter leads to its page.
		{Page: "demo/index.html", Keys: field("type:hpr 91 41", "Enter"), url: "demo/parts/hpr-9141.html"},
		{Page: "demo/platforms/h7.html", Keys: field("type:HPR9141", "Enter"), url: "demo/parts/hpr-9141.html"},
		{Page: "demo/platforms/h7.html", Keys: field("type:9141", "Enter"), url: "demo/parts/hpr-9141.html"},
		{Page: "demo/a-z.html", Keys: field("type:th-32012700", "Enter"), url: "demo/parts/hpr-1105.html"},
	}, {
		// Words; the arrows go along the list and back, Escape begins anew.
		{Page: "demo/index.html", Keys: field("type:cast arm damper"), url: "demo/index.html",
			results: []string{"Part HPR-1103 Front damper, cast arm", "Part HPR-1104 Front damper, cast arm"}},
	}, {
		{Page: "demo/index.html", Keys: field("type:cast arm damper", "ArrowDown", "ArrowDown", "ArrowUp", "Enter"), url: "demo/parts/hpr-1103.html"},
	}, {
		{Page: "demo/index.html", Keys: field("type:hpr", "ArrowDown", "Escape"), url: "demo/index.html", results: []string{}, status: ""},
	}, {
		{Page: "demo/index.html", Keys: field("type:zzzz"), url: "demo/index.html", results: []string{},
			status: "No number and no name here has a word that begins with “zzzz”. The A to Z lists all numbers."},
	}, {
		// Platforms, makers and what to look at.
		{Page: "demo/parts/hpr-9141.html", Keys: field("type:l4", "Enter"), url: "demo/platforms/l4.html"},
	}, {
		{Page: "demo/index.html", Keys: field("type:tarnholt", "Enter"), url: "demo/index.html#maker-tarnholt"},
		{Page: "demo/index.html", Keys: field("type:levelling"), url: "demo/index.html", results: []string{"To look at Levelling"}},
	}, {
		// Many parts: a few pieces of the index are loaded, not all of it.
		{Page: "many/parts/lx-00007.html", Keys: field("type:lx 01 234", "Enter"), url: "many/parts/lx-01234.html"},
		{Page: "many/index.html", Keys: field("type:damper 01234", "Enter"), url: "many/parts/lx-01234.html"},
	}, {
		{Page: "many/index.html", Keys: field("type:damper"), url: "many/index.html", status: "The first 20. Go on typing to find others."},
	}, {
		// A place of a platform, and a model year of one, in any order.
		{Page: "demo/index.html", Keys: field("type:front damper h7", "Enter"), url: "demo/platforms/h7.html#at-front-damper"},
		{Page: "demo/parts/hpr-9141.html", Keys: field("type:H7 2011", "Enter"), url: "demo/platforms/h7.html#?Years=2011"},
		{Page: "demo/index.html", Keys: field("type:2011 h7"), results: []string{"Platform H7 model year 2011"}, url: "demo/index.html", status: "1 found"},
	}, {
		{Page: "demo/index.html", Keys: field("type:2011 front damp h7", "Enter"), url: "demo/platforms/h7.html#?Position=Front+damper&Years=2011"},
		{Page: "demo/index.html", Keys: field("type:h7 restrictor left"), url: "demo/index.html",
			results: []string{"Place Front restrictor left H7", "Place Drive restrictor left H7"}, status: "2 found"},
		{Page: "demo/index.html", Keys: field("type:tarnholt 2016"), url: "demo/index.html", results: []string{"Platform H7 model year 2016"}},
	}, {
		{Page: "demo/index.html", Keys: field("type:h7 hpr-1101", "Enter"), url: "demo/parts/hpr-1101.html"},
	}, {
		// Nothing, and why.
		{Page: "demo/index.html", Keys: field("type:h7 1999"), url: "demo/index.html", results: []string{}, status: "H7 is listed for 2004 to 2019, not for 1999."},
	}, {
		{Page: "demo/index.html", Keys: field("type:hpr-1109 h7"), url: "demo/index.html", results: []string{}, status: "HPR-1109 is not offered on H7."},
		{Page: "demo/index.html", Keys: field("type:n5 tag damper"), url: "demo/index.html", results: []string{}, status: "N5 has no such place: Tag damper."},
		{Page: "demo/index.html", Keys: field("type:h7 zzzz"), url: "demo/index.html", results: []string{},
			status: "No number and no name here has a word that begins with “zzzz”. The A to Z lists all numbers."},
		{Page: "demo/index.html", Keys: field("type:bush left-hand"), url: "demo/index.html", results: []string{}, status: "Nothing has all of these words together. Leave some out."},
	}, {
		// A number of others with other signs; one that is superseded says what it is called now.
		{Page: "demo/index.html", Keys: field("type:th/320.126/03", "Enter"), url: "demo/parts/hpr-1104.html"},
		{Page: "demo/index.html", Keys: field("type:hpr1103"), url: "demo/index.html", results: []string{"superseded: now HPR-1113"}},
	}, {
		// Many platforms: the pieces that a query loads stay few.
		{Page: "many/index.html", Keys: field("type:damper zzzz 2011"), url: "many/index.html", results: []string{}, pieces: 6},
	}, {
		// Markup is found and shown as text.
		{Page: "worst/index.html", Keys: field("type:script alert"), url: "worst/index.html"},
	}}
}

func TestSearchInBrowser(t *testing.T) {
	browser(t)
	dir := t.TempDir()
	demo := demoSample(t)
	write(t, filepath.Join(dir, "demo"), demo.pages(t, guide.Options{}))
	write(t, filepath.Join(dir, "many"), large(20, 15, 3000).pages(t, guide.Options{}))
	bad, o := worst(hostile)
	write(t, filepath.Join(dir, "worst"), bad.pages(t, o))
	var asked []asking
	for _, group := range askings() {
		if !share.All() {
			group = group[:1]
		}
		asked = append(asked, group...)
	}
	t.Logf("%d queries", len(asked))
	var got tried
	play(t, "search.mjs", asked, &got, dir)
	require.Len(t, got.Cases, len(asked))
	for i, c := range got.Cases {
		want := asked[i]
		what := want.Page + " " + strings.Join(want.Keys, " ")
		assert.Equal(t, want.url, c.URL, what)
		assert.Empty(t, c.Others, "%s: it asks another host", what)
		assert.Empty(t, c.Cached, what)
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
		assert.LessOrEqual(t, c.Loaded, max(3, want.pieces), "%s: the first file and pieces of the index", what)
	}
	last := got.Cases[len(got.Cases)-1]
	require.NotEmpty(t, last.Results)
	assert.Contains(t, last.Results[0], "<script>alert(1)</script>")
	cleared := got.Cases[slices.IndexFunc(asked, func(a asking) bool { return slices.Contains(a.Keys, "Escape") })]
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
