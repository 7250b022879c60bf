package main

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"time"
)

// The fates of a mutant. One that is killed is followed by the test that did it.
const (
	killed   = "killed by"
	survived = "survived"
	broken   = "did not compile"
	late     = "timed out"
)

// bench is where mutants are tried, and how.
type bench struct {
	tests  []*pkg // whose tests are asked after those of the package itself, in order
	skip   string // tests that are not run, as `go test -skip` takes them
	times  float64
	memory int // bytes that a test may have; 0 for no limit
	folder string
	usual  map[string]time.Duration // what the tests of a package take without a change
}

// grace is added to each limit, for a machine that does something else for a while.
const grace = 20 * time.Second

// failed finds the name of the first test that failed.
var failed = regexp.MustCompile(`(?m)^\s*--- FAIL: (\S+)`)

// try says what became of a site's mutant.
func (b *bench) try(ctx context.Context, p *pkg, s *site) (string, error) {
	overlay, err := b.write(s)
	if err != nil {
		return "", err
	}
	if out, err := b.run(ctx, "build", "-overlay", overlay, "-o", os.DevNull, p.ImportPath); err != nil {
		return broken, fatal(ctx, out, err)
	}
	for _, tests := range b.order(p) {
		limit, err := b.limit(ctx, tests)
		if err != nil {
			return "", err
		}
		out, err := b.test(ctx, tests, "-overlay", overlay, "-timeout", limit.String())
		if err != nil {
			return fate(tests, out), fatal(ctx, out, err)
		}
	}
	return survived, nil
}

// order gives the packages whose tests could see a change of p.
func (b *bench) order(p *pkg) []*pkg {
	var out []*pkg
	if p.tested() {
		out = append(out, p)
	}
	for _, t := range b.tests {
		if t.ImportPath != p.ImportPath && t.sees(p) {
			out = append(out, t)
		}
	}
	return out
}

func fate(tests *pkg, out string) string {
	if strings.Contains(out, "panic: test timed out after") {
		return late
	}
	if m := failed.FindStringSubmatch(out); m != nil {
		return fmt.Sprintf("%s %s %s", killed, tests.ImportPath, m[1])
	}
	return fmt.Sprintf("%s %s", killed, tests.ImportPath)
}

// limit gives how long the tests of a package may take on a mutant. They are run once
// as they are to know; where they fail then, no mutant can be judged.
func (b *bench) limit(ctx context.Context, tests *pkg) (time.Duration, error) {
	if _, ok := b.usual[tests.ImportPath]; !ok {
		start := time.Now()
		if out, err := b.test(ctx, tests, "-timeout", "30m"); err != nil {
			return 0, fmt.Errorf("the tests of %s fail without any change: %w\n%s", tests.ImportPath, err, out)
		}
		b.usual[tests.ImportPath] = time.Since(start)
	}
	limit := time.Duration(b.times * float64(b.usual[tests.ImportPath]))
	return limit.Round(time.Second) + grace, nil
}

func (b *bench) test(ctx context.Context, tests *pkg, args ...string) (string, error) {
	args = append([]string{"test", "-p", "1", "-count", "1", "-vet", "off", "-failfast"}, args...)
	if b.skip != "" {
		args = append(args, "-skip", b.skip)
	}
	if b.memory > 0 {
		args = append(args, "-exec", fmt.Sprintf("prlimit --as=%d", b.memory))
	}
	return b.run(ctx, append(args, tests.ImportPath)...)
}

func (b *bench) run(ctx context.Context, args ...string) (string, error) {
	out, err := exec.CommandContext(ctx, "go", args...).CombinedOutput()
	return string(out), err
}

// write puts the mutant into a file of its own, and into another what the go command
// is to read it for.
func (b *bench) write(s *site) (overlay string, err error) {
	text, err := os.ReadFile(s.File)
	if err != nil {
		return "", err
	}
	changed := filepath.Join(b.folder, "mutant.go")
	if err := os.WriteFile(changed, []byte(s.apply(string(text))), 0o600); err != nil {
		return "", err
	}
	list, err := json.Marshal(map[string]any{"Replace": map[string]string{s.File: changed}})
	if err != nil {
		return "", err
	}
	overlay = filepath.Join(b.folder, "overlay.json")
	return overlay, os.WriteFile(overlay, list, 0o600)
}

// fatal gives the error that ends the run: one of the go command is the answer that was
// asked for, unless it could not run or was stopped.
func fatal(ctx context.Context, out string, err error) error {
	if ctx.Err() != nil {
		return ctx.Err()
	}
	if _, ran := err.(*exec.ExitError); !ran {
		return fmt.Errorf("%w\n%s", err, out)
	}
	return nil
}
