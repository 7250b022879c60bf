package cli

import (
	"bufio"
	"io"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A desk that asks for a folder lets in by the printed address, and ends well from its page.
func TestDeskEndsFromItsPage(t *testing.T) {
	r, w := io.Pipe()
	status := make(chan int, 1)
	go func() {
		status <- Run(t.Context(), []string{"desk", "--ask", "--no-browser"}, io.Discard, w)
		w.Close() //nolint:errcheck // it was only written
	}()
	lines := bufio.NewScanner(r)
	require.True(t, lines.Scan())
	at := regexp.MustCompile(`(http://127\.0\.0\.1:\d+/)#(\S+)`).FindStringSubmatch(lines.Text())
	require.NotNil(t, at, lines.Text())
	rest := make(chan string, 1)
	go func() {
		said, _ := io.ReadAll(r)
		rest <- lines.Text() + string(said)
	}()
	jar, err := cookiejar.New(nil)
	require.NoError(t, err)
	client := &http.Client{Jar: jar}
	res, err := client.PostForm(at[1]+"enter", url.Values{"token": {at[2]}})
	require.NoError(t, err)
	body, err := io.ReadAll(res.Body)
	require.NoError(t, err)
	require.NoError(t, res.Body.Close())
	assert.Contains(t, string(body), "Which folder?")
	here := res.Request.URL.String()
	res, err = client.PostForm(here[:strings.LastIndex(here, "/")]+"/end", nil)
	require.NoError(t, err)
	require.NoError(t, res.Body.Close())
	assert.Equal(t, http.StatusOK, res.StatusCode)
	assert.Equal(t, done, <-status)
	assert.NotContains(t, <-rest, "stopped")
}

// Who names a folder is not asked for one.
func TestDeskAsksForNoSecondFolder(t *testing.T) {
	var told strings.Builder
	assert.Equal(t, refused, Run(t.Context(), []string{"desk", "--ask", "."}, io.Discard, &told))
	assert.Contains(t, told.String(), "--ask has the page ask for a folder, and one is named")
}
