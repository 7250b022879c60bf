package guide_test

import (
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/guide"
)

// shiftPages are those that TestNothingMoves opens, by the folder of their site: every kind of page, guides
// also with a vehicle in the address, lists with a field to narrow them, and pages whose scripts have the
// words of another language to wait for.
func shiftPages() []string {
	return []string{
		"demo/platforms/h7.html", "demo/index.html", "demo/a-z.html", "demo/parts/hpr-9141.html", "many/index.html", "many/a-z.html", "demo/fr/platforms/l4.html" + half,
		"demo/platforms/l4.html" + half, "demo/platforms/l4.html", "demo/platforms/h7.html" + answered, "demo/platforms/h7.html" + nowhere, "demo/platforms/h7.html#at-front-damper",
		"demo/fr/index.html", "demo/fr/a-z.html", "demo/fr/parts/hpr-9141.html", "news/changes.html", "news/changes/heron-7.html", "news/platforms/heron-7.html", "demo/404.html",
	}
}

// Nothing moves under a reader's finger while a page is loaded over a slow line, where
// scripts and pictures come after the text has been painted, and no page is white until they come. The
// web vitals call a layout shift of 0.1 good (https://web.dev/articles/cls); ours is none at all.
func TestNothingMoves(t *testing.T) {
	browser(t)
	dir := t.TempDir()
	demo := demoSample(t)
	speaking(demo, func(text string) string { return text + " en français" }, "fr")
	demo.Cat.Settings.BaseURL = ""
	write(t, filepath.Join(dir, "demo"), demo.pages(t, guide.Options{}))
	write(t, filepath.Join(dir, "many"), fleet(200, 12, long).pages(t, guide.Options{}))
	news := illustrated(t)
	write(t, filepath.Join(dir, "news"), news.pages(t, guide.Options{News: whatChanged(news, "")}))
	server := httptest.NewServer(http.FileServer(http.Dir(dir)))
	defer server.Close()
	pages := shiftPages()
	if os.Getenv("CI") == "" {
		pages = pages[:atHand] // one of each kind
	}
	var addresses []string
	for _, page := range pages {
		addresses = append(addresses, server.URL+"/"+page)
	}
	var got []struct {
		Address string
		Width   int
		Painted bool
		Late    int // files that were held back until then
		Grown   int // pixels that the page became longer by
		Moved   float64
		What    []string
	}
	play(t, "shift.mjs", nil, &got, addresses...)
	require.Len(t, got, 2*len(addresses))
	for _, page := range got {
		assert.True(t, page.Painted, "%s at %d px is white while scripts are late", page.Address, page.Width)
		assert.Positive(t, page.Late, "%s at %d px: nothing was late", page.Address, page.Width)
		if page.Width < 800 && strings.Contains(page.Address, "#at-") { // browsers know what an address leads to after deferred scripts (`:target`), and scroll to it then
			continue
		}
		assert.Zero(t, page.Moved, "%s at %d px: %v", page.Address, page.Width, page.What)
		if !strings.Contains(page.Address, "#?") { // where a vehicle is told, its list of parts comes
			assert.Zero(t, page.Grown, "%s at %d px: what stands below is moved", page.Address, page.Width)
		}
	}
}

// atHand is how many of shiftPages are opened where CI is not set.
const atHand = 7
