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
	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/watch"
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

	mu      sync.Mutex
	counts  []*decide.Guide
	ranking *gaps.Ranking
	guides  map[*model.Platform]*decide.Guide
	site    string // folder that all pages were published to, "" where they were not
}

func newState(paths []string, res *compiler.Result, look watch.Look, took *stages, at time.Time, whole time.Duration) *state {
	return &state{paths: paths, res: res, look: look, took: took, at: at, whole: whole, guides: map[*model.Platform]*decide.Guide{}}
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

// drop removes what was published for the state.
func (s *state) drop() {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.site != "" {
		os.RemoveAll(s.site) //nolint:errcheck // a folder in the system's place for such
		s.site = ""
	}
}

// counted gives how many vehicles there are of each outcome.
func (s *state) counted(ctx context.Context) ([]*decide.Guide, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.counts == nil {
		guides, err := s.res.Counts(ctx)
		if err != nil {
			return nil, err
		}
		s.counts = guides
	}
	return s.counts, nil
}

// ranked gives the gaps.
func (s *state) ranked(ctx context.Context, today string) (*gaps.Ranking, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.ranking == nil {
		r, err := gaps.Rank(ctx, s.res.Catalogue, gaps.Options{Today: today})
		if err != nil {
			return nil, err
		}
		s.ranking = r
	}
	return s.ranking, nil
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

// published gives the folder with all pages as they would be published, as a draft where errors
// stand.
func (s *state) published(ctx context.Context, today string) (string, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.site != "" {
		return s.site, nil
	}
	res, err := compiler.Compile(ctx, compiler.Input{Paths: s.paths}, compiler.Options{Today: today, Guides: true})
	if err != nil {
		return "", err
	}
	if !res.Whole {
		return "", fmt.Errorf("%s", unreadable(res))
	}
	dir, err := os.MkdirTemp("", "ferrule-desk-")
	if err != nil {
		return "", err
	}
	worst, any := finding.Worst(res.Findings)
	_, err = site.Publish(ctx, filepath.Join(dir, "site"), s.paths, res, site.Options{Draft: any && worst == finding.Error})
	if err != nil {
		os.RemoveAll(dir) //nolint:errcheck // a folder in the system's place for such
		return "", err
	}
	s.site = dir
	return dir, nil
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
