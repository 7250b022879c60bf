package mistakes

import (
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/tidy/share"
	"ferrule/out/fix"
)

// TestRepairs makes each mistake and repairs what can be repaired: whatever is, must be what the
// catalogue said without the mistake, for every vehicle.
func TestRepairs(t *testing.T) {
	clean := [...]*original{demo: newOriginal(t, demo), starter: newOriginal(t, starter), spoken: newOriginal(t, spoken)}
	var mu sync.Mutex
	mended, dropped, tried := 0, 0, 0
	t.Run("each", func(t *testing.T) {
		step := share.Step(t)
		for i, m := range corpus() {
			if m.harmless || i%step > 0 && !named() {
				continue
			}
			t.Run(m.name, func(t *testing.T) {
				t.Parallel()
				some, lost := repaired(t, &m, clean[m.from])
				mu.Lock()
				defer mu.Unlock()
				tried, mended, dropped = tried+1, mended+some, dropped+lost
			})
		}
	})
	if tried > 50 {
		t.Logf("%d mistakes: %d are mended and none wrongly, %d repairs are dropped", tried, mended, dropped)
		assert.Positive(t, mended)
	}
}

// otherwise are cells of mistakes that say another thing than the catalogue did, with what they say.
var otherwise = map[string]string{
	"2 HPR-1101 or 2 HPR-1102": "2 x HPR-1101 or 2 x HPR-1102",
	"HPR-1101, HPR-1102":       "HPR-1101 or HPR-1102",
	"HPR-1101; HPR-1102":       "HPR-1101 or HPR-1102",
}

// repaired tells whether a mistake is mended, and how many repairs were dropped.
func repaired(t *testing.T, m *mistake, clean *original) (mended, dropped int) {
	b := open(t, m.from)
	m.do(b)
	dir := b.write(m.from)
	before := compiled(t, dir)
	all := fix.Proposals(fresh(clean.res.Findings, before.Findings))
	if len(all) == 0 || !before.Whole {
		return 0, 0
	}
	c := &fix.Catalogue{Paths: []string{dir}, Before: before, Today: today,
		Bytes: func(name string) ([]byte, error) { return os.ReadFile(filepath.Join(dir, name)) }}
	copies, err := c.Copies(t.Context(), all)
	require.NoError(t, err)
	said := ""
	for _, p := range all {
		said += fmt.Sprintf("%s: %q becomes %q, since %s; %s\n", p.At, p.Old, p.New, p.Why, p.Dropped)
		if p.Dropped != "" {
			dropped++
		}
	}
	t.Log(said)
	if len(copies) == 0 {
		return 0, dropped
	}
	instead, to := map[string]string{}, t.TempDir()
	for name, c := range copies {
		instead[name] = filepath.Join(to, name)
		require.NoError(t, os.WriteFile(instead[name], c.Bytes, 0o600))
	}
	after, err := compiler.Compile(t.Context(), compiler.Input{Paths: []string{dir}, Instead: instead}, options())
	require.NoError(t, err)
	assert.Empty(t, fresh(before.Findings, after.Findings), "no new finding comes of a repair")
	if otherwise[all[0].Old] != "" {
		assert.Equal(t, otherwise[all[0].Old], all[0].New)
		return 1, dropped
	}
	if dropped == 0 && len(fresh(clean.res.Findings, after.Findings)) == 0 {
		assert.Equal(t, clean.guides, guides(t, after), "a repair is wrong:\n%s", said)
		return 1, 0
	}
	return 0, dropped
}
