//go:build unix

package folder

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/tidy/share"
	"ferrule/out/folder/found"
)

// stand is a folder that is published over and over.
type stand struct {
	dir     string
	renames bool
	build   int // the last one
}

// newStand publishes a first build.
func newStand(t *testing.T, renames bool) *stand {
	t.Helper()
	s := &stand{dir: filepath.Join(t.TempDir(), "site"), renames: renames, build: 1}
	require.NoError(t, order{dir: s.dir, build: 1, renames: renames}.publish())
	return s
}

// kill publishes a further build, which is killed, and looks at what it leaves: the build
// before or the new one, whole, or nothing at all between two renames, and that only there.
func (s *stand) kill(t *testing.T, o order) (killed bool) {
	t.Helper()
	s.build++
	o.dir, o.build, o.renames = s.dir, s.build, s.renames
	killed = o.run(t)
	if s.renames && !exists(s.dir) {
		return killed
	}
	got := found.Files(t, s.dir)
	for _, name := range pages() {
		assert.Contains(t, []string{text(s.build), text(s.build - 1)}, got[name], "%s after %+v", name, o)
		assert.Equal(t, got[pages()[0]], got[name], "%s after %+v", name, o)
	}
	return killed
}

// mend publishes once more, after which nothing is left beside the folder.
func (s *stand) mend(t *testing.T) {
	t.Helper()
	s.build++
	require.NoError(t, order{dir: s.dir, build: s.build, renames: s.renames}.publish())
	got := found.Files(t, s.dir)
	assert.Len(t, got, len(pages())+1)
	for _, name := range pages() {
		assert.Equal(t, text(s.build), got[name], name)
	}
	found.Alone(t, s.dir)
}

// steps gives the names of all steps of replacing the folder.
func (s *stand) steps(t *testing.T) []string {
	t.Helper()
	s.build++
	o := order{dir: s.dir, build: s.build, renames: s.renames}
	d := o.disk()
	var mu sync.Mutex
	var out []string
	h, err := hold(t.Context(), disk{before: func(step, path string) error {
		mu.Lock()
		out = append(out, step)
		mu.Unlock()
		return d.before(step, path)
	}}, s.dir, nil, func() {})
	require.NoError(t, err)
	require.NoError(t, fill(h, s.build))
	require.NoError(t, h.Close())
	return out
}

// ways are both ways in which folders change places.
func ways(t *testing.T, test func(t *testing.T, renames bool)) {
	for _, renames := range []bool{false, true} {
		t.Run(fmt.Sprintf("renames=%t", renames), func(t *testing.T) { test(t, renames) })
	}
}

// TestKilledAtEachStep kills a build before each step that it takes on the file system, and a
// hundred times before each that is a rename, an exchange or a wait for the disk.
func TestKilledAtEachStep(t *testing.T) {
	ways(t, func(t *testing.T, renames bool) {
		s := newStand(t, renames)
		steps := s.steps(t)
		require.Equal(t, renames, slices.Contains(steps, stepRename))
		r := watch(s.dir, renames)
		kills, again, step, seen := 0, few(t, 100), share.Step(t), map[string]bool{}
		for i, name := range steps {
			if first := !seen[name]; !first && i%step > 0 {
				continue
			}
			seen[name] = true
			require.True(t, s.kill(t, order{at: i + 1}), "step %d", i+1)
			s.mend(t)
			kills++
		}
		repeated := []string{stepSyncFile, stepSyncFolder, stepExchange}
		if renames { // which is all that differs
			repeated = []string{stepRename}
		}
		for _, step := range repeated {
			kills += s.killAt(t, step, count(steps, step), again)
		}
		t.Logf("%d kills, %d looks", kills, r.stop(t))
	})
}

// few gives how many of n kills are tried: a small share at hand, since each waits for the disk.
func few(t *testing.T, n int) int {
	t.Helper()
	if share.All() {
		return n
	}
	t.Logf("%d of %d, since CI is not set", n/100, n)
	return n / 100
}

// killAt kills builds at the n steps of a name, again and again: at the first, at the last, and
// at those in between by turns, which are taken at once.
func (s *stand) killAt(t *testing.T, step string, n, again int) int {
	t.Helper()
	kills := 0
	for i := range again {
		for _, at := range moments(n, i) {
			require.True(t, s.kill(t, order{step: step, at: at}), "%s %d", step, at)
			s.mend(t)
			kills++
		}
	}
	return kills
}

func moments(n, turn int) []int {
	switch n {
	case 0, 1, 2, 3:
		return []int{1, 2, 3}[:n]
	}
	return []int{1, 2 + turn%(n-2), n}
}

func count(all []string, one string) (n int) {
	for _, s := range all {
		if s == one {
			n++
		}
	}
	return n
}

// TestKilledAtRandom kills builds at a random moment, while a reader looks on.
func TestKilledAtRandom(t *testing.T) {
	ways(t, func(t *testing.T, renames bool) {
		s := newStand(t, renames)
		steps := len(s.steps(t))
		random := rand.New(rand.NewPCG(1, 2))
		r := watch(s.dir, renames)
		kills, builds := 0, few(t, 500)
		looks := int64(builds) * 200
		for i := 0; kills < builds || r.looks.Load() < looks && r.alive(); i++ {
			if s.kill(t, order{at: 1 + random.IntN(steps), spin: 1 + random.Uint64N(1<<(8+random.IntN(11)))}) {
				kills++
			}
			s.mend(t)
		}
		t.Logf("%d kills, %d looks", kills, r.stop(t))
	})
}

// TestPairs starts two builds at once, into a new folder or over an earlier one: both end
// well, one after the other, and the later one stands.
func TestPairs(t *testing.T) {
	for i := range share.Of(t, 100) {
		root := t.TempDir()
		dir, log := filepath.Join(root, "deep", "site"), filepath.Join(root, "log")
		if i%2 == 0 {
			require.NoError(t, order{dir: dir, build: 3}.publish())
		}
		one, two := order{dir: dir, build: 1, log: log}.start(t), order{dir: dir, build: 2, log: log}.start(t)
		require.NoError(t, one.Wait(), "%v", one.Stderr)
		require.NoError(t, two.Wait(), "%v", two.Stderr)
		told, err := os.ReadFile(log)
		require.NoError(t, err)
		inTurn := map[string]string{
			"1 begins\n1 ends\n2 begins\n2 ends\n": text(2),
			"2 begins\n2 ends\n1 begins\n1 ends\n": text(1),
		}
		require.Contains(t, inTurn, string(told))
		for _, name := range pages() {
			assert.Equal(t, inTurn[string(told)], found.Files(t, dir)[name])
		}
		found.Alone(t, dir)
	}
}
