// Command mutate changes the program in one small place after another, and says which
// changes no test notices:
//
//	nice go run ./cmd/mutate [-seed 1] [-from 0] [-n 20] [-tsv file] [packages]
//	go run ./cmd/mutate -at 'compiler/judge/check/run.go:40 compiler/judge/check/run.go:44' ./compiler/judge/check
//
// The tree is never written: a mutant is a file elsewhere that the go command is told to
// read in place of ours. The tests of its package are asked first, then those of -tests
// as far as they can see it; the first that fails ends the matter. The same seed draws
// the same mutants, so that -from goes on where an earlier run has stopped.
package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"strings"
	"time"
)

type options struct {
	seed     uint64
	from, n  int
	at       string
	tsv      string
	tests    string
	skip     string
	times    float64
	memory   int // MiB
	patterns []string
}

func main() {
	var o options
	flag.Uint64Var(&o.seed, "seed", 1, "what the choice of mutants begins with")
	flag.IntVar(&o.from, "from", 0, "how many mutants to pass over, for an earlier run has tried them")
	flag.IntVar(&o.n, "n", 20, "how many mutants to try")
	flag.StringVar(&o.at, "at", "", "only what stands on these lines, as file:line with spaces between")
	flag.StringVar(&o.tsv, "tsv", "", "a file to which each result is added, separated by tabs")
	flag.StringVar(&o.tests, "tests", "./compiler ./compiler/mistakes ./cmd/ferrule", "whose tests are asked after those of the package itself")
	flag.StringVar(&o.skip, "skip", "Browser|Lighthouse|NothingMoves", "tests not to run, a regular expression as go test takes it")
	flag.Float64Var(&o.times, "times", 10, "how many times as long as without a change tests may take")
	flag.IntVar(&o.memory, "memory", 8192, "MiB of address space that a test may have, held by prlimit; 0 for no limit")
	flag.Parse()
	if o.patterns = flag.Args(); len(o.patterns) == 0 {
		o.patterns = []string{"./sheets/...", "./schema/...", "./compiler/...", "./out/...", "./cmd/ferrule/..."}
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	if err := mutate(ctx, o, os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "mutate:", err)
		os.Exit(1)
	}
}

// mutate tries the mutants, and prints each with what became of it.
func mutate(ctx context.Context, o options, w io.Writer) error {
	pkgs, err := list(ctx, o.patterns)
	if err != nil {
		return err
	}
	root, err := filepath.Abs(".")
	if err != nil {
		return err
	}
	for _, p := range pkgs {
		if err := p.read(); err != nil {
			return err
		}
		p.only(root, strings.Fields(o.at))
	}
	b := bench{skip: o.skip, times: o.times, memory: o.memory << 20, usual: map[string]time.Duration{}}
	if o.tests != "" {
		if b.tests, err = list(ctx, strings.Fields(o.tests)); err != nil {
			return err
		}
	}
	if b.folder, err = os.MkdirTemp("", "mutants"); err != nil {
		return err
	}
	defer os.RemoveAll(b.folder)
	t := table{w: w, tsv: o.tsv, root: root, count: map[string]int{}}
	defer t.sum()
	return tryAll(ctx, o, &b, newChooser(o.seed, pkgs), &t)
}

func tryAll(ctx context.Context, o options, b *bench, c *chooser, t *table) error {
	for i := range o.from + o.n {
		p, s := c.next()
		switch {
		case s == nil:
			return nil
		case i < o.from:
			continue
		}
		fate, err := b.try(ctx, p, s)
		if err != nil {
			return err
		}
		if err := t.row(i, s, fate); err != nil {
			return err
		}
	}
	return nil
}
