package guide_test

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/guide"
)

// narrowed is what testdata/browser/filter.mjs prints.
type narrowed struct {
	Cases []struct {
		URL, Status, Focus         string
		Listed, Headings, Messages []string
		Jumps                      int
	}
	Off []struct {
		Page, Jump, Heading string
		Field, InView       bool
	}
	Violations []string
}

// narrowing is what somebody types into the field, and what must come of it.
type narrowing struct {
	Page     string   `json:"page"`
	Keys     []string `json:"keys"`
	url      string   // the page that is reached, where it is another
	status   string
	focus    string
	listed   []string // nil: not looked at
	headings []string // the same
}

func narrowings() []narrowing {
	return []narrowing{
		{Page: "many/index.html", Keys: []string{"type:H37"}, focus: "filter", status: "2 of 2000 platforms.",
			listed: []string{"H375 1997 to 2011", "H37 2009 to 2013"}, headings: []string{"U5 Chassis", "H", "Y27 Chassis", "H"}},
		{Page: "many/index.html", Keys: []string{"type:h37 2012"}, status: "1 of 2000 platforms.", listed: []string{"H37 2009 to 2013"}},
		{Page: "many/a-z.html", Keys: []string{"type:u5 Chassis h37"}, status: "1 of 2000 platforms.",
			listed: []string{"H375 U5 Chassis, 1997 to 2011"}, headings: []string{"H"}},
		{Page: "many/index.html", Keys: []string{"type:H37 2000", "follow"}, url: "many/platforms/h375.html"},
		{Page: "many/index.html", Keys: []string{"type:H37", "Enter"}, focus: "H375"},
		{Page: "many/index.html", Keys: []string{"type:no such thing"}, status: "No platform has all of that. Numbers of parts stand in the A to Z.", listed: []string{}, headings: []string{}},
		{Page: "many/index.html", Keys: []string{"type:H37", "Escape"}, focus: "filter", status: ""},
		{Page: "few/index.html", Keys: []string{"type:nothing else"}, status: "1 of 25 platforms.", listed: []string{"Z35 2006 to 2010 A chassis of which there is nothing else."}},
		{Page: "worst/index.html", Keys: []string{"type:script"}},
	}
}

func TestFilterInBrowser(t *testing.T) {
	browser(t)
	dir := t.TempDir()
	many := fleet(2000, 30, short).pages(t, guide.Options{})
	write(t, filepath.Join(dir, "many"), many)
	write(t, filepath.Join(dir, "many"), map[string]string{"platforms/h375.html": "<!DOCTYPE html><title>H375</title>"})
	few := fleet(25, 2, short)
	few.Cat.Platforms[25-1].Name, few.Cat.Platforms[25-1].Summary = "Z35", "A chassis of which there is nothing else."
	write(t, filepath.Join(dir, "few"), few.pages(t, guide.Options{}))
	worst := fleet(30, 2, func(i int) string { return fmt.Sprintf("%s %d", hostile, i) })
	write(t, filepath.Join(dir, "worst"), worst.pages(t, guide.Options{}))
	asked := narrowings()
	var got narrowed
	play(t, "filter.mjs", asked, &got, dir)
	require.Len(t, got.Cases, len(asked))
	for i, c := range got.Cases {
		want := asked[i]
		what := want.Page + " " + strings.Join(want.Keys, " ")
		assert.Empty(t, c.Messages, what)
		if want.url != "" {
			assert.Equal(t, want.url, c.URL, what)
			continue
		}
		assert.Equal(t, want.Page, c.URL, what)
		if want.status != "" {
			assert.Equal(t, want.status, c.Status, what)
			assert.Zero(t, c.Jumps, what)
		}
		if want.focus != "" {
			assert.Equal(t, want.focus, c.Focus, what)
		}
		if want.listed != nil {
			assert.Equal(t, want.listed, c.Listed, what)
		}
		if want.headings != nil {
			assert.Equal(t, want.headings, c.Headings, what)
		}
	}
	cleared := got.Cases[6]
	assert.Len(t, cleared.Listed, 2000)
	assert.Equal(t, 420, cleared.Jumps)
	assert.Len(t, got.Cases[len(asked)-1].Listed, 30, "markup is text")
	assert.Empty(t, got.Violations)
	require.Len(t, got.Off, 4)
	for _, off := range got.Off {
		assert.False(t, off.Field, "%s: a field that does nothing", off.Page)
		assert.Equal(t, off.Jump, off.Heading, off.Page)
		assert.True(t, off.InView, off.Page)
	}
}
