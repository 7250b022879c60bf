package guide_test

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/guide"
)

// judged is what testdata/browser/lighthouse.mjs prints of an address.
type judged struct {
	Scores map[string]float64
	Lost   []string
	Error  string
}

// The page of a platform as Lighthouse judges it with its own settings. It takes processor
// time on a machine that is otherwise idle, so it is part of the run where CI is set, and
// looks again, five times at most, where the time it took was too long.
func TestLighthouse(t *testing.T) {
	if os.Getenv("CI") == "" {
		t.Log("Lighthouse judges the pages where CI is set")
		return
	}
	node, chromium, modules, missing := tools()
	require.Empty(t, missing, ".ci/run installs it")
	dir := t.TempDir()
	write(t, dir, demoSample(t).pages(t, guide.Options{}))
	server := httptest.NewServer(http.FileServer(http.Dir(dir)))
	defer server.Close()
	var got judged
	for range 6 {
		got = judge(t, node, chromium, modules, server.URL+"/platforms/h7.html")
		t.Logf("%v %s", got.Scores, strings.Join(got.Lost, "; "))
		if got.Scores["performance"] >= 0.95 {
			break
		}
	}
	assert.GreaterOrEqual(t, got.Scores["performance"], 0.95, got.Lost)
	for _, category := range []string{"accessibility", "best-practices", "seo"} {
		assert.Equal(t, 1.0, got.Scores[category], "%s: %v", category, got.Lost)
	}
}

func judge(t *testing.T, node, chromium, modules, address string) judged {
	cmd := exec.Command(node, "testdata/browser/lighthouse.mjs", modules, chromium, address)
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	require.NoError(t, err)
	var got []judged
	require.NoError(t, json.Unmarshal(out, &got))
	require.Len(t, got, 1)
	require.Empty(t, got[0].Error)
	return got[0]
}
