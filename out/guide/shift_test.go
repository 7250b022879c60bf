package guide_test

import (
	"net/http"
	"net/http/httptest"
	"path"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/tidy/share"
	"ferrule/out/guide"
)

// slow serves a folder over a line on which scripts and pictures come long after the text: from /hold until
// /release they do not come at all. Nothing is kept in a cache.
type slow struct {
	files http.Handler
	mu    sync.Mutex
	held  chan struct{} // nil: nothing is held
}

func (s *slow) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Cache-Control", "no-store")
	switch r.URL.Path {
	case "/hold":
		s.swap(make(chan struct{}))
		return
	case "/release":
		if held := s.swap(nil); held != nil {
			close(held)
		}
		return
	}
	switch path.Ext(r.URL.Path) {
	case "", ".html", ".css":
	default:
		s.wait(r.Context().Done())
	}
	s.files.ServeHTTP(w, r)
}

func (s *slow) swap(next chan struct{}) (before chan struct{}) {
	s.mu.Lock()
	defer s.mu.Unlock()
	before, s.held = s.held, next
	return before
}

// wait ends with what is held, or when nobody asks any more.
func (s *slow) wait(gone <-chan struct{}) {
	s.mu.Lock()
	held := s.held
	s.mu.Unlock()
	if held == nil {
		return
	}
	select {
	case <-held:
	case <-gone:
	}
}

// Every kind of page is shown before its scripts and pictures have come, and then nothing moves under a
// reader's finger. The web vitals call a layout shift of 0.1 good (https://web.dev/articles/cls); ours is none at all.
func TestNothingMoves(t *testing.T) {
	browser(t)
	dir := t.TempDir()
	write(t, dir, demoSample(t).pages(t, guide.Options{}))
	server := httptest.NewServer(&slow{files: http.FileServer(http.Dir(dir))})
	defer server.Close()
	var addresses []string
	pages := []string{"platforms/h7.html", "", "a-z.html", "parts/hpr-9141.html"}
	if share.All() {
		pages = append(pages, "platforms/l4.html"+half, "platforms/l4.html", "platforms/h7.html"+answered)
	}
	for _, page := range pages {
		addresses = append(addresses, server.URL+"/"+page)
	}
	var got []struct {
		Address string
		Width   int
		Painted int
		Moved   float64
		What    []string
		Early   []string // scripts that came before anything was shown
	}
	play(t, "shift.mjs", nil, &got, addresses...)
	require.Len(t, got, 2*len(addresses))
	for _, page := range got {
		assert.Equal(t, 1, page.Painted, "%s at %d px", page.Address, page.Width)
		assert.Empty(t, page.Early, "%s at %d px", page.Address, page.Width)
		assert.Zero(t, page.Moved, "%s at %d px: %v", page.Address, page.Width, page.What)
	}
}
