package guide_test

import (
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/guide"
)

// judged is what testdata/browser/lighthouse.mjs prints of an address.
type judged struct {
	Scores          map[string]float64
	Lost            []string
	Requests, Bytes int
	Shift           float64
	Error           string
}

// The page of a platform as Lighthouse judges it with its own settings. Its score for speed is a
// matter of how busy the machine is, so that it is logged, and what it follows from is counted: what
// is loaded before the page can be read, and that nothing moves.
func TestLighthouse(t *testing.T) {
	if os.Getenv("CI") == "" {
		t.Skip("Lighthouse judges the pages where CI is set")
	}
	browser(t)
	dir := t.TempDir()
	write(t, dir, demoSample(t).pages(t, guide.Options{}))
	server := httptest.NewServer(http.FileServer(http.Dir(dir)))
	defer server.Close()
	got := hold(t, server.URL+"/platforms/h7.html")
	t.Logf("%v, %d requests, %d bytes, shift %v; %s", got.Scores, got.Requests, got.Bytes, got.Shift, strings.Join(got.Lost, "; "))
	for _, category := range []string{"accessibility", "best-practices", "seo"} {
		assert.Equal(t, 1.0, got.Scores[category], "%s: %v", category, got.Lost)
	}
	assert.LessOrEqual(t, got.Requests, mostRequests)
	assert.LessOrEqual(t, got.Bytes, mostBytes)
	assert.Zero(t, got.Shift)
}

// What the largest page of the demo loads at first, with room for a little more.
const (
	mostRequests = 12
	mostBytes    = 200 << 10
)

func hold(t *testing.T, address string) judged {
	var got []judged
	play(t, "lighthouse.mjs", nil, &got, address)
	require.Len(t, got, 1)
	require.Empty(t, got[0].Error)
	return got[0]
}
