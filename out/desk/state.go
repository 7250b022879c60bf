package desk

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"ferrule/compiler"
	"ferrule/compiler/ask/gaps"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/watch"
	"ferrule/out/fix"
	"ferrule/out/site"
)

// state is one state of the catalogue, with what views have asked of it.
type state struct {
	paths []string
	res   *compiler.Result
	look  watch.Look
	took  *stages
	at    time.Time
	whole time.Duration // from the first look to all findings

	counts  lazy[[]*decide.Guide]
	ranking lazy[*gaps.Ranking]
	repairs lazy[[]*fix.Proposal]
	pages   lazy[*site.Preview]
	all     lazy[string] // folder that all pages were published to

	mu      sync.Mutex
	guides  map[*model.Platform]*decide.Guide
	dropped bool // nothing more is published
}

func newState(paths []string, res *compiler.Result, look watch.Look, took *stages, at time.Time, whole time.Duration) *state {
	return &state{paths: paths, res: res, look: look, took: took, at: at, whole: whole, guides: map[*model.Platform]*decide.Guide{}}
}

// lazy is worked out when somebody asks for it first; who asks meanwhile waits. After an error the
// next one tries again.
type lazy[T any] struct {
	mu    sync.Mutex
	done  bool
	value T
}

func (l *lazy[T]) get(work func() (T, error)) (T, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if !l.done {
		value, err := work()
		if err != nil {
			return value, err
		}
		l.value, l.done = value, true
	}
	return l.value, nil
}

// Took says what the time went into.
func (s *state) Took() string {
	return fmt.Sprintf("%s in all (%s)", rounded(s.whole), strings.Join(s.took.words(), ", "))
}

// stages are what parts of a run took.
type stages struct {
	mu   sync.Mutex
	list []compiler.Stage
}

func (s *stages) add(stage compiler.Stage) {
	if !stage.Done {
		return
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	for i := range s.list {
		if s.list[i].Name == stage.Name {
			s.list[i].Took += stage.Took
			return
		}
	}
	s.list = append(s.list, stage)
}

func (s *stages) words() []string {
	s.mu.Lock()
	defer s.mu.Unlock()
	out := make([]string, len(s.list))
	for i, st := range s.list {
		out[i] = st.Name + " " + rounded(st.Took)
	}
	return out
}

func rounded(d time.Duration) string {
	if d < time.Second {
		return fmt.Sprintf("%d ms", d.Milliseconds())
	}
	return fmt.Sprintf("%.1f s", d.Seconds())
}

// drop removes what was published for the state, as soon as nobody is at it.
func (s *state) drop() {
	s.all.mu.Lock()
	defer s.all.mu.Unlock()
	if s.all.value != "" {
		os.RemoveAll(s.all.value) //nolint:errcheck // a folder in the system's place for such
	}
	s.all.value, s.all.done, s.dropped = "", false, true
}

// counted gives how many vehicles there are of each outcome.
func (s *state) counted(ctx context.Context) ([]*decide.Guide, error) {
	return s.counts.get(func() ([]*decide.Guide, error) { return s.res.Counts(ctx) })
}

// ranked gives the gaps.
func (s *state) ranked(ctx context.Context, today string) (*gaps.Ranking, error) {
	return s.ranking.get(func() (*gaps.Ranking, error) {
		return gaps.Rank(ctx, s.res.Catalogue, gaps.Options{Today: today})
	})
}

// guide gives the guide of a platform with its cases.
func (s *state) guide(p *model.Platform) *decide.Guide {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.guides[p] == nil {
		s.guides[p] = s.res.Guide(p)
	}
	return s.guides[p]
}

// platform finds a platform by its name, nil for none.
func (s *state) platform(name string) *model.Platform {
	for _, p := range s.res.Catalogue.Platforms {
		if p.Name == name {
			return p
		}
	}
	return nil
}

// same tells whether a workbook is what it was when it was compiled.
func (s *state) same(path string) bool {
	now := watch.At([]string{path})
	at := slices.IndexFunc(s.look, func(f watch.File) bool { return filepath.Clean(f.Path) == filepath.Clean(path) })
	return at >= 0 && now.Equal(s.look[at:at+1])
}
