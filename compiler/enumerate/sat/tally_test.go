package sat

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"ferrule/compiler/model"
)

// tally counts what was asked.
type tally struct {
	checks, yes   map[string]int // by kind
	questions     int            // of the solver; a check may take several
	catalogues    int
	least, most   float64 // configurations of a platform
	skipped       int     // positions that were over the compiler's budget
	disagreements int
	problems      []string // the first of them
}

func newTally() *tally {
	return &tally{checks: map[string]int{}, yes: map[string]int{}, least: math.Inf(1)}
}

func (t *tally) total() int {
	n := 0
	for _, k := range t.checks {
		n += k
	}
	return n
}

// agree counts a check and notes where the two answers differ.
func (t *tally) agree(kind string, compiler, solver bool, about any) {
	t.checks[kind]++
	if solver {
		t.yes[kind]++
	}
	if compiler != solver {
		t.differ(fmt.Sprintf("%s: compiler %v, solver %v: %v", kind, compiler, solver, about))
	}
}

func (t *tally) differ(problem string) {
	if t.disagreements++; len(t.problems) < 200 {
		t.problems = append(t.problems, problem)
	}
}

func (t *tally) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d checks on %d catalogues, with platforms of %.0e to %.0e configurations (%d questions to the solver): %d disagreements, %d positions over the compiler's budget\n",
		t.total(), t.catalogues, t.least, t.most, t.questions, t.disagreements, t.skipped)
	for _, k := range slices.Sorted(maps.Keys(t.checks)) {
		fmt.Fprintf(&b, "  %-38s %8d checks, %8d yes\n", k, t.checks[k], t.yes[k])
	}
	return b.String()
}

// audit asks everything about one catalogue.
type audit struct {
	*tally
	*answers
	cat   *model.Catalogue
	needs map[*model.FitCell]bool // cells that decide something alone, on some platform
}

// enumerable is how many configurations might still be looked at one after another; a
// catalogue with so small a platform is passed over.
const enumerable = 1e8

// audit asks about the catalogue of a seed, and remembers which one it was.
func (t *tally) audit(seed uint64) {
	cat := generate(seed)
	answers := compile(cat)
	if slices.Min(answers.configurations) < enumerable {
		return
	}
	for _, n := range answers.configurations {
		t.least, t.most = min(t.least, n), max(t.most, n)
	}
	before := t.disagreements
	t.ask(cat, answers)
	if t.disagreements > before {
		t.problems = append(t.problems, fmt.Sprintf("  those were in the catalogue of seed %d", seed))
	}
}

// ask holds the answers about a catalogue against the solver's.
func (t *tally) ask(cat *model.Catalogue, answers *answers) {
	a := &audit{tally: t, answers: answers, cat: cat, needs: map[*model.FitCell]bool{}}
	told := a.redundant()
	for _, p := range cat.Platforms {
		a.platform(p, told)
	}
	a.reachable()
	a.kept(told)
	for _, s := range a.left() {
		a.differ(fmt.Sprintf("told and not asked for, or twice: %v", s))
	}
	t.catalogues++
}

// platform asks about each position alone, then about several together.
func (a *audit) platform(p *model.Platform, told map[*model.FitCell]bool) {
	for _, pos := range a.cat.Positions {
		if a.irregular[[2]string{p.Name, pos.Name}] || a.irregular[[2]string{p.Name, ""}] {
			a.skipped++
			a.skip(p.Name, pos.Name)
			continue
		}
		a.place(p, pos, told)
		a.apart(p, pos)
	}
	if !a.irregular[[2]string{p.Name, ""}] {
		a.company(p)
	}
}
