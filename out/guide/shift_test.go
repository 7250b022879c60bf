package guide_test

import (
	"net/http"
	"net/http/httptest"
	"path"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/guide"
)

// late is how long after the page the made slow line brings what belongs to it. No check waits for
// it or depends on it: the longer it is, the more there is to see of what moves.
const late = 300 * time.Millisecond

// Nothing moves under a reader's finger while a page is loaded over a slow line, where
// scripts and pictures come long after the text. The web vitals call a layout shift of 0.1
// good (https://web.dev/articles/cls); ours is none at all.
func TestNothingMoves(t *testing.T) {
	browser(t)
	dir := t.TempDir()
	write(t, dir, demoSample(t).pages(t, guide.Options{}))
	files := http.FileServer(http.Dir(dir))
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch path.Ext(r.URL.Path) {
		case "", ".html", ".css":
		default:
			time.Sleep(late)
		}
		files.ServeHTTP(w, r)
	}))
	defer server.Close()
	var addresses []string
	for _, page := range thinned(t, []string{"platforms/h7.html", "", "a-z.html", "parts/hpr-9141.html", "platforms/l4.html" + half, "platforms/l4.html", "platforms/h7.html" + answered}) {
		addresses = append(addresses, server.URL+"/"+page)
	}
	var got []struct {
		Address string
		Width   int
		Painted int
		Moved   float64
		What    []string
	}
	play(t, "shift.mjs", nil, &got, addresses...)
	require.Len(t, got, 2*len(addresses))
	for _, page := range got {
		assert.Equal(t, 1, page.Painted, "%s at %d px", page.Address, page.Width)
		assert.Zero(t, page.Moved, "%s at %d px: %v", page.Address, page.Width, page.What)
	}
}
