package desk_test

import (
	"bufio"
	"context"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"html"
	"io"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/out/data"
	"ferrule/out/desk"
	"ferrule/sheets/guard"
)

const today = "2026-06-01"

// bench is a desk on a copy of the demo, with a browser that has come in.
type bench struct {
	t      testing.TB
	dir    string
	server *httptest.Server
	door   *desk.Door
	client *http.Client
	base   string
	events *bufio.Scanner
}

func newBench(t testing.TB) *bench {
	b := demoBench(t)
	b.open(desk.Options{Paths: []string{b.dir}})
	return b
}

// demoBench has a copy of the demo and no desk.
func demoBench(t testing.TB) *bench {
	b := &bench{t: t, dir: t.TempDir()}
	for _, name := range []string{"fitment.xlsx", "parts.xlsx", "vehicles.xlsx"} {
		b.put(name, b.demo(name))
	}
	require.NoError(t, os.CopyFS(filepath.Join(b.dir, "pictures"), os.DirFS("../../testdata/demo/pictures")))
	return b
}

// open begins a desk and comes in.
func (b *bench) open(o desk.Options) {
	t := b.t
	o.Today = func() string { return today }
	d := desk.New(o)
	b.server = httptest.NewUnstartedServer(nil)
	b.door = desk.NewDoor(b.server.Listener.Addr())
	b.server.Config.Handler = d.Handler(b.door)
	b.server.Start()
	ctx, cancel := context.WithCancel(t.Context())
	group := guard.NewGroup()
	group.Go(func() { d.Run(ctx) })
	t.Cleanup(func() {
		cancel()
		b.server.CloseClientConnections()
		b.server.Close()
		group.Wait()
		d.Close()
	})
	jar, err := cookiejar.New(nil)
	require.NoError(t, err)
	b.client = &http.Client{Jar: jar}
	res, err := b.client.PostForm(b.server.URL+"/enter", url.Values{"token": {b.door.Token}})
	require.NoError(t, err)
	require.NoError(t, res.Body.Close())
	require.Equal(t, http.StatusOK, res.StatusCode)
	b.base = strings.TrimSuffix(strings.TrimSuffix(res.Request.URL.String(), "findings"), "folder")
	stream, err := b.client.Get(b.base + "events")
	require.NoError(t, err)
	t.Cleanup(func() { stream.Body.Close() }) //nolint:errcheck // it was only read
	b.events = bufio.NewScanner(stream.Body)
}

func (b *bench) demo(name string) []byte {
	data, err := os.ReadFile(filepath.Join("../../testdata/demo", name))
	require.NoError(b.t, err)
	return data
}

// put saves a workbook as spreadsheet programs do: written beside, then renamed.
func (b *bench) put(name string, data []byte) {
	require.NoError(b.t, os.WriteFile(filepath.Join(b.dir, "lu1.tmp"), data, 0o600))
	require.NoError(b.t, os.Rename(filepath.Join(b.dir, "lu1.tmp"), filepath.Join(b.dir, name)))
}

// until waits for the stream to tell of changes until a view holds what is wanted.
func (b *bench) until(view string, meets func(page string) bool) string {
	b.t.Helper()
	for b.events.Scan() {
		if !strings.HasPrefix(b.events.Text(), "data: ") {
			continue
		}
		if page := b.get(view); meets(page) {
			return page
		}
	}
	require.FailNow(b.t, "the stream has ended", "%v", b.events.Err())
	return ""
}

func (b *bench) get(view string) string {
	b.t.Helper()
	res, err := b.client.Get(b.base + view)
	require.NoError(b.t, err)
	body, err := io.ReadAll(res.Body)
	require.NoError(b.t, err)
	require.NoError(b.t, res.Body.Close())
	require.Equal(b.t, http.StatusOK, res.StatusCode, view)
	return string(body)
}

func has(text string) func(string) bool {
	return func(page string) bool { return strings.Contains(page, text) }
}

// What views say is what the compiler and the commands say.
func TestViewsAgreeWithCommands(t *testing.T) {
	b := newBench(t)
	page := b.until("findings", has(`class="finding`))
	res, err := compiler.Compile(t.Context(), compiler.Input{Paths: []string{b.dir}}, compiler.Options{Today: today, Guides: true})
	require.NoError(t, err)
	sum := finding.Summarise(res.Findings)
	require.NotZero(t, sum.Errors)
	assert.Contains(t, page, fmt.Sprintf("%d errors", sum.Errors))
	for _, f := range res.Findings {
		assert.Contains(t, page, `id="f-`+f.Fingerprint()+`"`)
	}
	assert.Equal(t, len(res.Findings), strings.Count(page, `<li class="finding `))
	assert.Contains(t, page, "<mark>Bell crank</mark>", "the rows around a cell")

	var counts strings.Builder
	require.NoError(t, data.Coverage(&counts, res.Guides))
	var file struct {
		Platforms []struct {
			Platform  string
			Positions []struct {
				Position                                  string
				Fitted, None, Planned, Ask, Conflict, Gap *json.Number
			}
		}
	}
	require.NoError(t, json.Unmarshal([]byte(counts.String()), &file))
	page = html.UnescapeString(b.get("coverage"))
	places := 0
	for _, p := range file.Platforms {
		for _, at := range p.Positions {
			shown := strings.Count(b.square(page, p.Platform, at.Position), `class="state`)
			some := 0
			for _, n := range []*json.Number{at.Fitted, at.None, at.Planned, at.Ask, at.Conflict, at.Gap} {
				if n != nil && *n != "0" {
					some++
				}
			}
			assert.Equal(t, some, shown, "%s on %s", at.Position, p.Platform)
			places += some
		}
	}
	require.NotZero(t, places)
	assert.Contains(t, b.get("gaps"), "Bell crank on H7")
	assert.Contains(t, b.get("vehicle?platform=H7&year=2009"), "192 configurations")
	assert.Contains(t, b.get("vehicle?platform=H7&year=2009&position=Front+damper"), `id="why"`)
	assert.Contains(t, b.get("place?platform=H7&position=Bell+crank"), "no cell")
	assert.Contains(t, b.get("changes?since="+url.QueryEscape(b.dir)), "no difference")
	assert.Contains(t, b.get("guides/index.html"), "H7")
}

// square is the cell of a table of coverage, by the link in it.
func (b *bench) square(page, platform, position string) string {
	link := "place?" + url.Values{"platform": {platform}, "position": {position}}.Encode()
	at := strings.Index(page, `href="`+link+`"`)
	if at < 0 {
		return ""
	}
	end := strings.Index(page[at:], "</td>")
	return page[at : at+end]
}

// A page is right after a save, and while a workbook cannot be read it says so and keeps what was.
func TestFollowsTheSheets(t *testing.T) {
	b := newBench(t)
	b.until("findings", has("Bell crank"))
	whole := b.demo("fitment.xlsx")
	b.put("fitment.xlsx", whole[:len(whole)/2])
	page := b.until("findings", has("Not up to date"))
	assert.Contains(t, page, "fitment.xlsx", "which workbook")
	assert.Contains(t, page, "Bell crank", "what was known last")
	b.put("fitment.xlsx", whole)
	page = b.until("findings", func(p string) bool { return !strings.Contains(p, "Not up to date") })
	assert.Contains(t, page, "Bell crank")
	require.NoError(t, os.Remove(filepath.Join(b.dir, "fitment.xlsx")))
	many := func(p string) bool { return strings.Count(p, `<li class="finding `) > 30 }
	b.until("findings", many)
	b.put("fitment.xlsx", whole)
	b.until("findings", func(p string) bool { return !many(p) })
	for _, name := range []string{"fitment.xlsx", "parts.xlsx", "vehicles.xlsx"} {
		now, err := os.ReadFile(filepath.Join(b.dir, name))
		require.NoError(t, err)
		assert.Equal(t, sha256.Sum256(b.demo(name)), sha256.Sum256(now), "%s is only read", name)
	}
}

// No older state is shown after a newer one, however saves follow on each other.
func TestVersionsGrow(t *testing.T) {
	b := newBench(t)
	version := regexp.MustCompile(`data-version="(\d+)"`)
	last := 0
	for i := range 6 {
		data, broken := b.demo("parts.xlsx"), i%2 == 1
		if broken {
			data = data[:len(data)-i]
		}
		b.put("parts.xlsx", data)
		b.until("findings", func(p string) bool {
			n, err := strconv.Atoi(version.FindStringSubmatch(p)[1])
			require.NoError(t, err)
			assert.GreaterOrEqual(t, n, last)
			last = n
			return strings.Contains(p, "Bell crank") && strings.Contains(p, "Not up to date") == broken
		})
	}
	assert.GreaterOrEqual(t, last, 6)
}

func TestWhoMayLook(t *testing.T) {
	b := newBench(t)
	b.until("findings", has("Bell crank"))
	ask := func(method, url string, change func(*http.Request), known bool) *http.Response {
		r, err := http.NewRequestWithContext(t.Context(), method, url, nil)
		require.NoError(t, err)
		if change != nil {
			change(r)
		}
		client := &http.Client{}
		if known {
			client.Jar = b.client.Jar
		}
		res, err := client.Do(r)
		require.NoError(t, err)
		t.Cleanup(func() { res.Body.Close() }) //nolint:errcheck // it was only read
		return res
	}
	page := b.base + "findings"
	host := func(name string) func(*http.Request) { return func(r *http.Request) { r.Host = name } }
	from := func(site string) func(*http.Request) {
		return func(r *http.Request) {
			r.Header.Set("Sec-Fetch-Site", site)
			r.Header.Set("Origin", "http://elsewhere.example")
		}
	}
	assert.Equal(t, http.StatusOK, ask("GET", page, nil, true).StatusCode)
	for name, got := range map[string]struct {
		res  *http.Response
		want int
	}{
		"no cookie":           {ask("GET", page, nil, false), http.StatusForbidden},
		"another name":        {ask("GET", page, host("elsewhere.example"), true), http.StatusMisdirectedRequest},
		"another port":        {ask("GET", page, host("127.0.0.1:1"), true), http.StatusMisdirectedRequest},
		"no port":             {ask("GET", page, host("127.0.0.1"), true), http.StatusMisdirectedRequest},
		"another site":        {ask("GET", page, from("cross-site"), true), http.StatusForbidden},
		"entering from there": {ask("POST", b.server.URL+"/enter", from("cross-site"), true), http.StatusForbidden},
		"no token":            {ask("POST", b.server.URL+"/enter", nil, false), http.StatusForbidden},
		"changing a view":     {ask("POST", page, nil, true), http.StatusMethodNotAllowed},
		"another path":        {ask("GET", b.server.URL+"/findings", nil, true), http.StatusNotFound},
		"out of the guides":   {ask("GET", b.base+"guides/..%2f..%2fstaff/findings.json", nil, true), http.StatusNotFound},
		"up from the guides":  {ask("GET", b.base+"guides/%2e%2e/staff/findings.json", nil, true), http.StatusNotFound},
	} {
		assert.Equal(t, got.want, got.res.StatusCode, name)
		assert.Contains(t, got.res.Header.Get("Content-Security-Policy"), "default-src 'none'", name)
	}
	for _, view := range []string{"findings", "coverage", "gaps", "vehicle", "changes", "desk.js"} {
		for _, outside := range regexp.MustCompile(`(?:src|href|action)="(?:[a-z]+:)?//[^"]*"`).FindAllString(b.get(view), -1) {
			assert.Fail(t, "a page loads from elsewhere", outside)
		}
	}
}

// What workbooks and questions say cannot run.
func TestNothingSaidRuns(t *testing.T) {
	b := newBench(t)
	b.until("findings", has("Bell crank"))
	evil := url.QueryEscape(`"><script>alert(1)</script>`)
	for _, view := range []string{"findings?text=", "findings?code=", "gaps?if=", "vehicle?platform=H7&year=", "changes?since=", "place?platform="} {
		assert.NotContains(t, b.get(view+evil), "<script>alert", view)
	}
}
