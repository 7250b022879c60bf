package desk_test

import (
	"bytes"
	"crypto/sha256"
	"html"
	"io"
	"io/fs"
	"mime"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"ferrule/compiler"
	"ferrule/out/fix"
	"ferrule/out/mark"
	"ferrule/out/original"
)

// mistype writes other texts into cells of a workbook, which is then saved.
func (b *bench) mistype(name, sheet string, cells map[string]string) {
	b.t.Helper()
	x, err := excelize.OpenReader(bytes.NewReader(b.demo(name)))
	require.NoError(b.t, err)
	for at, text := range cells {
		require.NoError(b.t, x.SetCellStr(sheet, at, text))
	}
	data, err := x.WriteToBuffer()
	require.NoError(b.t, err)
	b.put(name, data.Bytes())
}

// slips are two workbooks with three cells in them that can be repaired.
func slips(b *bench) {
	b.mistype("fitment.xlsx", "Fitment H7", map[string]string{"J2": "HPR1101", "J5": "HPR 1104"})
	b.mistype("vehicles.xlsx", "Vehicles", map[string]string{"C2": "\u0410ir beam"}) // which begins with a Cyrillic letter
	b.until("repairs", func(p string) bool { return strings.Count(p, `name="take"`) == 3 })
}

// files gives what stands in the folder of the catalogue.
func (b *bench) files() map[string][sha256.Size]byte {
	b.t.Helper()
	out := map[string][sha256.Size]byte{}
	require.NoError(b.t, filepath.WalkDir(b.dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		out[path] = sha256.Sum256(data)
		return err
	}))
	return out
}

func (b *bench) post(view string, form url.Values) (status int, page string) {
	b.t.Helper()
	res, err := b.client.PostForm(b.base+view, form)
	require.NoError(b.t, err)
	body, err := io.ReadAll(res.Body)
	require.NoError(b.t, err)
	require.NoError(b.t, res.Body.Close())
	return res.StatusCode, string(body)
}

// download takes a file, whose name is that of the workbook and how it was copied.
func (b *bench) download(link, want string) []byte {
	b.t.Helper()
	res, err := b.client.Get(b.base + html.UnescapeString(link))
	require.NoError(b.t, err)
	body, err := io.ReadAll(res.Body)
	require.NoError(b.t, err)
	require.NoError(b.t, res.Body.Close())
	require.Equal(b.t, http.StatusOK, res.StatusCode, string(body))
	how, params, err := mime.ParseMediaType(res.Header.Get("Content-Disposition"))
	require.NoError(b.t, err)
	assert.Equal(b.t, "attachment", how)
	assert.Equal(b.t, want, params["filename"])
	return body
}

// keys gives the names of repairs on a page, by what would be written.
func keys(page string) map[string]string {
	out := map[string]string{}
	for _, m := range regexp.MustCompile(`(?s)name="take" value="([^"]+)".*?<ins>([^<]*)</ins>`).FindAllStringSubmatch(page, -1) {
		out[m[2]] = m[1]
	}
	return out
}

func links(page string) (out []string) {
	for _, m := range regexp.MustCompile(`href="((?:made/|marked)[^"]*)"`).FindAllStringSubmatch(page, -1) {
		out = append(out, m[1])
	}
	return out
}

// asCommand gives what the command fix would write of the repairs that become some texts.
func asCommand(t *testing.T, dir string, texts ...string) map[string][]byte {
	t.Helper()
	books, err := original.Note([]string{dir})
	require.NoError(t, err)
	res, err := compiler.Compile(t.Context(), compiler.Input{Paths: []string{dir}}, compiler.Options{Today: today, Compare: true})
	require.NoError(t, err)
	var some []*fix.Proposal
	for _, p := range fix.Proposals(res.Findings) {
		if strings.Contains(strings.Join(texts, " "), p.New) {
			some = append(some, p)
		}
	}
	require.Len(t, some, len(texts))
	c := &fix.Catalogue{Paths: []string{dir}, Before: res, Bytes: books.Bytes, Today: today}
	copies, err := c.Copies(t.Context(), some)
	require.NoError(t, err)
	out := map[string][]byte{}
	for name, made := range copies {
		out[name] = made.Bytes
	}
	return out
}

// Repairs are taken one by one, and copies are those that the command writes of the same cells.
func TestRepairsAreChosen(t *testing.T) {
	b := newBench(t)
	slips(b)
	before := b.files()
	page := b.get("repairs")
	for _, text := range []string{"fitment.xlsx:Fitment H7!J2", "<del>HPR1101</del>", "<ins>HPR-1101</ins>", "nothing else is declared that is like it", "<ins>Air beam</ins>"} {
		assert.Contains(t, page, text)
	}
	assert.NotContains(t, page, "checked", "nothing is taken before somebody chooses it")
	key := keys(page)
	require.Len(t, key, 3)

	status, made := b.post("repairs", url.Values{"take": {key["HPR-1101"]}, "shown": {key["HPR-1101"], key["HPR-1104"], key["Air beam"]}})
	require.Equal(t, http.StatusOK, status)
	require.Len(t, links(made), 1)
	got := b.download(links(made)[0], "fitment (repaired).xlsx")
	assert.Equal(t, asCommand(t, b.dir, "HPR-1101")["fitment.xlsx"], got)
	x, err := excelize.OpenReader(bytes.NewReader(got))
	require.NoError(t, err)
	for at, want := range map[string]string{"J2": "HPR-1101", "J5": "HPR 1104"} {
		text, err := x.GetCellValue("Fitment H7", at)
		require.NoError(t, err)
		assert.Equal(t, want, text, at)
	}

	status, made = b.post("repairs", url.Values{"all": {"yes"}, "shown": {key["HPR-1101"], key["HPR-1104"], key["Air beam"]}})
	require.Equal(t, http.StatusOK, status)
	require.Len(t, links(made), 2)
	all := asCommand(t, b.dir, "HPR-1101", "HPR-1104", "Air beam")
	assert.Equal(t, all["fitment.xlsx"], b.download(links(made)[0], "fitment (repaired).xlsx"))
	assert.Equal(t, all["vehicles.xlsx"], b.download(links(made)[1], "vehicles (repaired).xlsx"))
	assert.NotContains(t, made, "has been saved since")
	assert.Equal(t, before, b.files(), "copies are for the browser, and nothing is written beside the workbooks")
}

// What was chosen on a page that the sheets have left behind is not made, and of a copy that is old
// the page says so.
func TestRepairsOfOlderSheets(t *testing.T) {
	b := newBench(t)
	slips(b)
	key := keys(b.get("repairs"))
	res, err := b.client.PostForm(b.base+"repairs", url.Values{"take": {key["HPR-1104"]}})
	require.NoError(t, err)
	require.NoError(t, res.Body.Close())
	view := strings.TrimPrefix(res.Request.URL.RequestURI(), strings.TrimPrefix(b.base, b.server.URL))
	require.NotContains(t, b.get(view), "has been saved since")

	b.mistype("fitment.xlsx", "Fitment H7", map[string]string{"J2": "HPR1101", "J5": "HPR  1104"})
	b.until("repairs", has("<del>HPR  1104</del>"))
	assert.Contains(t, b.get(view), "fitment.xlsx has been saved since")
	status, page := b.post("repairs", url.Values{"take": {key["HPR-1104"]}})
	assert.Equal(t, http.StatusConflict, status)
	assert.Contains(t, page, "the sheets have changed since the list was shown; nothing was made")
	status, page = b.post("repairs", url.Values{"shown": {key["HPR-1101"]}})
	assert.Equal(t, http.StatusConflict, status)
	assert.Contains(t, page, "no repair was chosen")
	for range 3 {
		status, _ = b.post("repairs", url.Values{"take": {key["HPR-1101"]}})
		require.Equal(t, http.StatusOK, status)
	}
	assert.Contains(t, b.get(view), "not kept any more", "few copies are kept")
	_, err = os.Stat(filepath.Join(b.dir, "fitment.xlsx"))
	require.NoError(t, err)
}

// Each workbook in which something stands has a marked copy, which is the one of the command.
func TestMarkedCopies(t *testing.T) {
	b := newBench(t)
	slips(b)
	before := b.files()
	res, err := compiler.Compile(t.Context(), compiler.Input{Paths: []string{b.dir}}, compiler.Options{Today: today})
	require.NoError(t, err)
	books, err := original.Note([]string{b.dir})
	require.NoError(t, err)
	marked := mark.Books(books.Names, res.Findings)
	got := links(b.get("findings"))
	require.Len(t, got, len(marked))
	require.NotEmpty(t, got)
	for i, book := range marked {
		src, err := books.Bytes(book.Name)
		require.NoError(t, err)
		want, err := book.Copy(src)
		require.NoError(t, err)
		assert.Equal(t, want.Bytes, b.download(got[i], strings.TrimSuffix(book.Name, ".xlsx")+" (marked).xlsx"))
	}
	assert.Equal(t, before, b.files())
}

// Copies are for who has come in, of workbooks of the catalogue only, and a form has an end.
func TestCopiesAreGuarded(t *testing.T) {
	b := newBench(t)
	slips(b)
	key := keys(b.get("repairs"))["HPR-1101"]
	_, page := b.post("repairs", url.Values{"take": {key}})
	made := links(page)
	require.Len(t, made, 1)
	ask := func(client *http.Client, method, view, body string, head map[string]string) (int, string) {
		r, err := http.NewRequestWithContext(t.Context(), method, b.base+view, strings.NewReader(body))
		require.NoError(t, err)
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		for k, v := range head {
			r.Header.Set(k, v)
		}
		r.Host = head["Host"]
		res, err := client.Do(r)
		require.NoError(t, err)
		defer res.Body.Close() //nolint:errcheck // it was only read
		said, err := io.ReadAll(res.Body)
		require.NoError(t, err)
		return res.StatusCode, string(said)
	}
	stranger, form := &http.Client{}, url.Values{"take": {key}}.Encode()
	for name, c := range map[string]struct {
		client       *http.Client
		method, view string
		body         string
		head         map[string]string
		want         int
	}{
		"a stranger's choice":         {stranger, "POST", "repairs", form, nil, http.StatusForbidden},
		"a stranger's copy":           {stranger, "GET", made[0], "", nil, http.StatusForbidden},
		"a stranger's marked copy":    {stranger, "GET", "marked?workbook=parts.xlsx", "", nil, http.StatusForbidden},
		"a choice of another origin":  {b.client, "POST", "repairs", form, map[string]string{"Origin": "http://elsewhere.example"}, http.StatusForbidden},
		"a choice from another site":  {b.client, "POST", "repairs", form, map[string]string{"Sec-Fetch-Site": "cross-site"}, http.StatusForbidden},
		"a choice of the same site":   {b.client, "POST", "repairs", form, map[string]string{"Sec-Fetch-Site": "same-site"}, http.StatusForbidden},
		"a copy under another name":   {b.client, "GET", made[0], "", map[string]string{"Host": "elsewhere.example"}, http.StatusMisdirectedRequest},
		"no such copy":                {b.client, "GET", "made/x/0", "", nil, http.StatusNotFound},
		"no such workbook in a copy":  {b.client, "GET", strings.TrimSuffix(made[0], "/0") + "/1", "", nil, http.StatusNotFound},
		"up from the copies":          {b.client, "GET", "made/%2e%2e/%2e%2e", "", nil, http.StatusNotFound},
		"a workbook elsewhere":        {b.client, "GET", "marked?workbook=" + url.QueryEscape("../../../etc/passwd"), "", nil, http.StatusConflict},
		"a path in a workbook's name": {b.client, "GET", "marked?workbook=" + url.QueryEscape(filepath.Join(b.dir, "parts.xlsx")), "", nil, http.StatusConflict},
		"a form without an end":       {b.client, "POST", "repairs", "take=" + strings.Repeat("x", 1<<20), nil, http.StatusRequestEntityTooLarge},
		"a choice by its address":     {b.client, "GET", "repairs?" + form, "", nil, http.StatusOK}, // the list
		"folders of a desk with one":  {b.client, "POST", "folder", "look=/", nil, http.StatusNotFound},
	} {
		status, said := ask(c.client, c.method, c.view, c.body, c.head)
		assert.Equal(t, c.want, status, "%s: %s", name, said)
		assert.NotContains(t, said, "root:", name)
	}
}
