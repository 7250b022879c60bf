//go:build unix

package folder

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
)

// text is what each page of a build holds: its number over and over, so that half a page is
// none.
func text(build int) string { return strings.Repeat(fmt.Sprintf("build %09d\n", build), 200) }

func page(build int) func(io.Writer) error {
	return func(w io.Writer) error { _, err := io.WriteString(w, text(build)); return err }
}

// buildOf gives the number of the build that a whole page is of.
func buildOf(page string) (int, error) {
	var build int
	if _, err := fmt.Sscanf(page, "build %d\n", &build); err != nil || page != text(build) {
		return 0, fmt.Errorf("no whole page: %.40q, %d bytes", page, len(page))
	}
	return build, nil
}

// reader looks at a folder over and over while it is replaced. A look opens a page by its
// path, or opens the folder and reads all pages in it.
type reader struct {
	dir   string
	gaps  bool // there may be moments without a folder
	looks atomic.Int64
	last  int // build seen

	fault error
	done  chan struct{}
	ended chan struct{}
}

func watch(dir string, gaps bool) *reader {
	r := &reader{dir: dir, gaps: gaps, done: make(chan struct{}), ended: make(chan struct{})}
	go r.run()
	return r
}

func (r *reader) run() {
	defer close(r.ended)
	names := pages()
	for i := 0; ; i++ {
		select {
		case <-r.done:
			return
		default:
		}
		err := r.one(names[i%len(names)])
		if i%len(names) == 0 && (err == nil || r.gap(err)) {
			err = r.all(names)
		}
		if err != nil && !r.gap(err) {
			r.fault = err
			return
		}
		r.looks.Add(1)
	}
}

// gap tells whether an error is that of a moment without a folder, where there may be one.
func (r *reader) gap(err error) bool { return r.gaps && errors.Is(err, fs.ErrNotExist) }

// one opens a page by its path: it is there, whole, and never of an earlier build than one
// that was seen.
func (r *reader) one(name string) error {
	text, err := os.ReadFile(filepath.Join(r.dir, name))
	if err != nil {
		return err
	}
	build, err := buildOf(string(text))
	if err == nil && build < r.last {
		err = fmt.Errorf("%s is of build %d, after build %d was seen", name, build, r.last)
	}
	r.last = max(r.last, build)
	return err
}

// all opens the folder and reads all pages in it: they are of one build. Where one is missing,
// the folder is no longer the one that is published.
func (r *reader) all(names []string) error {
	root, err := os.OpenRoot(r.dir)
	if err != nil {
		return err
	}
	defer root.Close()
	seen := map[int]bool{}
	for _, name := range names {
		text, err := root.ReadFile(name)
		if err != nil {
			return r.replaced(root, err)
		}
		build, err := buildOf(string(text))
		if err != nil {
			return err
		}
		seen[build] = true
	}
	if len(seen) != 1 {
		return fmt.Errorf("pages of several builds: %v", seen)
	}
	return nil
}

func (r *reader) replaced(root *os.Root, cause error) error {
	had, err := root.Stat(".")
	if err != nil {
		return err
	}
	has, err := os.Stat(r.dir)
	if err != nil {
		return err
	}
	if os.SameFile(had, has) {
		return fmt.Errorf("the published folder lacks a page: %v", cause)
	}
	return nil
}

// stop ends the looks and says how many there were.
func (r *reader) stop(t *testing.T) int64 {
	t.Helper()
	close(r.done)
	<-r.ended
	assert.NoError(t, r.fault, "after %d looks", r.looks.Load())
	return r.looks.Load()
}

// alive tells whether it still looks: it ends where something is wrong.
func (r *reader) alive() bool {
	select {
	case <-r.ended:
		return false
	default:
		return true
	}
}
