package desk_test

import (
	"html"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/desk"
)

// home is a person's folder with others in it: an empty one, one that links out of it, one that is hidden, and in
// Sheets the catalogue.
func home(t *testing.T, b *bench) string {
	t.Helper()
	dir, outside := t.TempDir(), t.TempDir()
	require.NoError(t, os.MkdirAll(filepath.Join(outside, "secret"), 0o700))
	for _, name := range []string{"Empty", ".hidden", "Sheets/catalogue"} {
		require.NoError(t, os.MkdirAll(filepath.Join(dir, name), 0o700))
	}
	require.NoError(t, os.Symlink(outside, filepath.Join(dir, "Leads out")))
	from := b.dir
	b.dir = filepath.Join(dir, "Sheets", "catalogue")
	for _, name := range []string{"fitment.xlsx", "parts.xlsx", "vehicles.xlsx"} {
		data, err := os.ReadFile(filepath.Join(from, name))
		require.NoError(t, err)
		b.put(name, data)
	}
	return dir
}

// A desk that nobody has named a folder to asks for one, lists what is near and nothing else, and shows the
// catalogue that is opened.
func TestAsksForAFolder(t *testing.T) {
	b := demoBench(t)
	dir := home(t, b)
	ended := make(chan struct{})
	b.open(desk.Options{Ask: &desk.Ask{Near: []string{dir}, End: func() { close(ended) }}})
	page := b.get("findings")
	assert.Contains(t, page, "Which folder?", "nothing else is shown before there is one")
	assert.Contains(t, page, "Empty")
	for _, no := range []string{".hidden", "Leads out", "Open this folder"} {
		assert.NotContains(t, page, no)
	}
	_, page = b.post("folder", url.Values{"look": {filepath.Join(dir, "Sheets")}})
	assert.Contains(t, page, `value="`+html.EscapeString(b.dir)+`"`)
	assert.Contains(t, page, "Up to")
	_, page = b.post("folder", url.Values{"look": {b.dir}})
	assert.Contains(t, page, "3 workbooks")
	for _, out := range []string{"/", "/etc", filepath.Dir(dir), filepath.Join(dir, "Leads out"), filepath.Join(dir, ".."), "etc", "..", "\x00"} {
		_, page = b.post("folder", url.Values{"look": {out}})
		assert.Contains(t, page, "Empty", "%q is not listed, and what is near is", out)
		assert.NotContains(t, page, "secret", out)
	}
	for path, why := range map[string]string{
		filepath.Join(dir, "Empty"): "there is no workbook in", "catalogue": "is not a whole path", filepath.Join(dir, "Gone"): "cannot be opened",
		filepath.Join(b.dir, "parts.xlsx"): "is a file; name the folder that it stands in",
	} {
		_, page = b.post("folder", url.Values{"path": {path}})
		assert.Contains(t, page, why, path)
	}
	status, _ := b.post("folder", url.Values{"path": {strings.Repeat("x", 1<<20)}})
	assert.Equal(t, http.StatusRequestEntityTooLarge, status)

	status, page = b.post("folder", url.Values{"path": {`"` + b.dir + `" `}})
	require.Equal(t, http.StatusOK, status)
	assert.NotContains(t, page, "Which folder?")
	b.until("findings", has("Bell crank"))
	_, page = b.post("end", nil)
	assert.Contains(t, page, "The program has ended")
	<-ended
}

// Of the folder before nothing is shown in the one that is opened in its place.
func TestOpensAnotherFolder(t *testing.T) {
	b := demoBench(t)
	b.open(desk.Options{Paths: []string{b.dir}, Ask: &desk.Ask{Near: []string{b.dir}, End: func() {}}})
	b.until("findings", has("Bell crank"))
	other := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(other, "Platforms.csv"), []byte("Platform,Years\nQ1,2001-2004\n"), 0o600))
	status, page := b.post("folder", url.Values{"open": {other}})
	require.Equal(t, http.StatusOK, status)
	assert.NotContains(t, page, "Bell crank")
	page = b.until("findings", has("there is no sheet Positions"))
	assert.NotContains(t, page, "Bell crank")
	require.NoError(t, os.WriteFile(filepath.Join(other, "Platforms.csv"), []byte("Platform,Years\nQ1,soon\n"), 0o600))
	b.until("findings", has("soon"))
}

// A folder is listed and opened by who has come in, and from no other site.
func TestFoldersAreGuarded(t *testing.T) {
	b := demoBench(t)
	b.open(desk.Options{Ask: &desk.Ask{Near: []string{b.dir}, End: func() { t.Error("somebody else has ended the program") }}})
	for _, view := range []string{"folder", "end"} {
		res, err := http.PostForm(b.base+view, url.Values{"look": {b.dir}, "open": {b.dir}})
		require.NoError(t, err)
		require.NoError(t, res.Body.Close())
		assert.Equal(t, http.StatusForbidden, res.StatusCode, "%s without a cookie", view)
		r, err := http.NewRequestWithContext(t.Context(), "POST", b.base+view, strings.NewReader(""))
		require.NoError(t, err)
		r.Header.Set("Origin", "http://elsewhere.example")
		res, err = b.client.Do(r)
		require.NoError(t, err)
		require.NoError(t, res.Body.Close())
		assert.Equal(t, http.StatusForbidden, res.StatusCode, "%s from elsewhere", view)
	}
	assert.Contains(t, b.get("folder?open="+url.QueryEscape(b.dir)), "Which folder?", "nothing is opened by an address")
	assert.Contains(t, b.get("findings"), "Which folder?")
}

// What a browser's command line has lets in once; the token does again and again.
func TestTicketsLetInOnce(t *testing.T) {
	b := newBench(t)
	ticket := b.door.Ticket()
	first, again := b.led(ticket), b.led(ticket)
	assert.True(t, first)
	assert.False(t, again)
	assert.True(t, b.led(b.door.Token))
	assert.True(t, b.led(b.door.Token))
	assert.False(t, b.led("x"))
	assert.False(t, b.led(""))
}

// led tells whether a key leads in.
func (b *bench) led(key string) bool {
	b.t.Helper()
	client := &http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	res, err := client.PostForm(b.server.URL+"/enter", url.Values{"token": {key}})
	require.NoError(b.t, err)
	require.NoError(b.t, res.Body.Close())
	return res.StatusCode == http.StatusSeeOther
}
