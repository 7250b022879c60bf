package desk_test

import (
	"bufio"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/tidy/share"
	"ferrule/out/desk"
)

// state saves a workbook that says a number, by a part that nothing declares.
func (b *bench) state(n int) {
	b.t.Helper()
	b.mistype("fitment.xlsx", "Fitment H7", map[string]string{"J2": fmt.Sprintf("HPR-77%04d", n)})
}

// shown reads the number on a page; false where none of the states is shown.
func shown(page string) (n int, ok bool) {
	m := regexp.MustCompile(`HPR-77(\d{4})`).FindStringSubmatch(page)
	if m == nil {
		return 0, false
	}
	n, err := strconv.Atoi(m[1])
	return n, err == nil
}

func fresh(page string) bool { return !strings.Contains(page, "Not up to date") }

// Saves come in bursts, half of them broken, the workbook is renamed away and back, and lies locked beside what
// programs write for themselves, in a folder that tells of nothing. What is shown is never older than what was shown
// before, what is shown as fresh is the last whole one in the end, and the workbooks are only read.
func TestBurstsWhereNothingTells(t *testing.T) {
	for _, deaf := range []bool{true, false} {
		b := demoBench(t)
		b.open(desk.Options{Paths: []string{b.dir}, Deaf: deaf})
		b.until("findings", has("Bell crank"))
		path, last, versions := filepath.Join(b.dir, "fitment.xlsx"), 0, 0
		for burst := range 1 + share.Of(t, 12) {
			for range 3 {
				last++
				b.state(last)
				whole, err := os.ReadFile(path)
				require.NoError(t, err)
				require.NoError(t, os.WriteFile(filepath.Join(b.dir, ".~lock.fitment.xlsx#"), []byte("someone"), 0o600))
				require.NoError(t, os.WriteFile(filepath.Join(b.dir, "~$fitment.xlsx"), []byte("someone"), 0o600))
				b.put("fitment.xlsx", whole[:len(whole)/(burst+2)])
				require.NoError(t, os.Rename(path, path+".away"))
				require.NoError(t, os.Rename(path+".away", path))
				require.NoError(t, os.Chmod(path, 0))
				require.NoError(t, os.Chmod(path, 0o600))
				b.put("fitment.xlsx", whole)
				require.NoError(t, os.Remove(filepath.Join(b.dir, "~$fitment.xlsx")))
			}
			before := b.files()
			seen := 0
			b.until("findings", func(p string) bool {
				n, ok := shown(p)
				version, err := strconv.Atoi(regexp.MustCompile(`data-version="(\d+)"`).FindStringSubmatch(p)[1])
				require.NoError(t, err)
				assert.GreaterOrEqual(t, version, versions)
				versions = version
				assert.LessOrEqual(t, n, last)
				if ok {
					assert.GreaterOrEqual(t, n, seen, "an older state after a newer one")
					seen = n
				}
				return ok && n == last && fresh(p)
			})
			assert.Equal(t, before, b.files(), "workbooks are only read")
		}
		require.Positive(t, last)
	}
}

// What a save leaves in memory is let go of with the next one.
func TestMemoryStaysFlat(t *testing.T) {
	b := newBench(t)
	b.until("findings", has("Bell crank"))
	inUse := func() uint64 {
		runtime.GC()
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	saves := max(24, share.Of(t, 200))
	var early uint64
	for n := 1; n <= saves; n++ {
		b.state(n)
		b.until("findings", func(p string) bool { at, ok := shown(p); return ok && at == n && fresh(p) })
		for _, view := range []string{"coverage", "gaps", "guides/index.html"} {
			b.get(view)
		}
		if n == saves/3 {
			early = inUse()
		}
	}
	late := inUse()
	t.Logf("%d saves: %d KB in use after a third of them, %d KB at the end", saves, early>>10, late>>10)
	assert.Less(t, late, early+early/2+4<<20)
}

// Fifty tabs that each hold a stream are all told, and let the server go.
func TestFiftyStreams(t *testing.T) {
	b := newBench(t)
	b.until("findings", has("Bell crank"))
	client := &http.Client{Jar: b.client.Jar, Transport: &http.Transport{MaxConnsPerHost: 0}}
	var streams []*bufio.Scanner
	next := func(s *bufio.Scanner) string {
		for s.Scan() {
			if data, ok := strings.CutPrefix(s.Text(), "data: "); ok {
				return data
			}
		}
		require.FailNow(t, "a stream has ended", "%v", s.Err())
		return ""
	}
	first := map[string]bool{}
	for range 50 {
		res, err := client.Get(b.base + "events")
		require.NoError(t, err)
		t.Cleanup(func() { res.Body.Close() }) //nolint:errcheck // it was only read
		s := bufio.NewScanner(res.Body)
		first[next(s)] = true
		streams = append(streams, s)
	}
	assert.Len(t, first, 1, "nothing has changed meanwhile")
	b.state(1)
	for _, s := range streams {
		assert.NotContains(t, first, next(s))
	}
	b.until("findings", has("HPR-770001"))
}

// Filters show what meets all of them and count it; what they are set to stays chosen, and pages after the first keep it.
func TestFiltersOfFindings(t *testing.T) {
	b := newBench(t)
	for _, name := range []string{"fitment.xlsx"} {
		require.NoError(t, os.Remove(filepath.Join(b.dir, name)))
	}
	count := func(p string) int { return strings.Count(p, `<li class="finding `) }
	page := b.until("findings", func(p string) bool { return count(p) == 60 })
	all, err := strconv.Atoi(regexp.MustCompile(`of (\d+) findings`).FindStringSubmatch(page)[1])
	require.NoError(t, err)
	require.Greater(t, all, 60)
	assert.Contains(t, page, "Later ones")
	assert.Equal(t, min(60, all-60), count(b.get("findings?from=60")))
	assert.Equal(t, count(b.get("findings?from=999999999")), (all-1)%60+1, "beyond the end is the end")

	of := func(query string) int {
		total := 0
		for from := 0; from < all; from += 60 {
			p := b.get("findings?" + query + "&from=" + strconv.Itoa(from))
			shown, err := strconv.Atoi(regexp.MustCompile(`(\d+) of \d+ findings`).FindStringSubmatch(p)[1])
			require.NoError(t, err)
			if from == 0 {
				total = shown
			}
			assert.Equal(t, total, shown)
		}
		return total
	}
	sum := 0
	for _, severity := range []string{"error", "warning", "note"} {
		sum += of("severity=" + severity)
	}
	assert.Equal(t, all, sum, "each finding has one severity")
	sum = 0
	for _, m := range regexp.MustCompile(`(?s)<select name="code">(.*?)</select>`).FindAllStringSubmatch(page, 1) {
		for _, code := range regexp.MustCompile(`<option>([^<]+)</option>`).FindAllStringSubmatch(m[1], -1) {
			n := of("code=" + code[1])
			assert.Positive(t, n, code[1])
			sum += n
		}
	}
	assert.Equal(t, all, sum, "each finding has one code")
	both := b.get("findings?severity=error&platform=H7&text=damper")
	assert.Contains(t, both, "<option selected>error</option>")
	assert.Contains(t, both, "<option selected>H7</option>")
	assert.Contains(t, both, `name="text" value="damper"`)
	assert.Less(t, count(both), all)
	assert.NotZero(t, count(both))
	assert.Zero(t, count(b.get("findings?code=no-such-code")))
}
