package enumerate

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ferrule/compiler/ask/gaps"

	"github.com/stretchr/testify/require"
)

// TestGapsAreRanked holds the ranking of gaps against the enumeration: each gap less what
// someone accepted, in pieces that count every configuration once.
func TestGapsAreRanked(t *testing.T) {
	pieces := 0
	eachAsked(t, func(k *asked) {
		told := map[key]*gaps.Platform{}
		for i := range k.gaps.Positions {
			p := &k.gaps.Positions[i]
			require.True(t, i == 0 || ordered(k.gaps.Positions[i-1].Amount, p.Amount), "seed %d", k.seed)
			for j := range p.Platforms {
				require.True(t, j == 0 || ordered(p.Platforms[j-1].Amount, p.Platforms[j].Amount), "seed %d", k.seed)
				told[key{"", p.Platforms[j].Platform.Name, p.Position.Name, ""}] = &p.Platforms[j]
			}
		}
		for _, w := range k.o.worlds {
			for pos, at := range k.c.positions {
				id := key{"", k.c.platforms[w.platform].name, at.name, ""}
				pieces += k.gap(w, k.openGap(w, pos), told[id], id)
			}
		}
	})
	require.Greater(t, pieces, askedOf(600))
}

// ordered tells whether a may stand before b.
func ordered(a, b gaps.Amount) bool {
	if d := a.OnTheRoad.Cmp(b.OnTheRoad); d != 0 {
		return d > 0
	}
	return a.Configurations.Cmp(b.Configurations) >= 0
}

// openGap lists the configurations without a cell that nobody accepted; those of an
// optional position can be accepted as well.
func (k *checker) openGap(w *world, pos int) []int {
	e := &expected{key: key{"coverage-gap", k.c.platforms[w.platform].name, k.c.positions[pos].name, ""}, world: w}
	for i := range w.configs {
		if v := k.o.verdicts[w][i][pos]; v.exists && v.outcome == "gap" {
			e.set = append(e.set, i)
		}
	}
	return k.c.split(e).open
}

// gap compares one gap, and gives the number of its pieces.
func (k *checker) gap(w *world, want []int, told *gaps.Platform, id key) int {
	if told == nil {
		if len(want) > 0 {
			k.failf("gaps", "%v: not told, %d configurations", id, len(want))
		}
		return 0
	}
	k.sameAmount(id, "gap", told.Amount, w, want)
	open := map[int]bool{}
	for _, i := range want {
		open[i] = true
	}
	for n, p := range told.Pieces {
		var holds []int
		for i, g := range w.configs {
			if k.c.holds(asBox(p.Where), g) && open[i] {
				holds = append(holds, i)
				delete(open, i)
			}
		}
		k.sameAmount(id, fmt.Sprintf("piece %d", n), p.Amount, w, holds)
		if n > 0 && !ordered(told.Pieces[n-1].Amount, p.Amount) {
			k.failf("gaps", "%v: piece %d is larger than the one before", id, n)
		}
	}
	if len(open) > 0 {
		k.failf("gaps", "%v: %d configurations in no piece", id, len(open))
	}
	return len(told.Pieces)
}

func (k *checker) sameAmount(id key, what string, a gaps.Amount, w *world, set []int) {
	road, _ := a.OnTheRoad.Float64()
	if a.Configurations.String() != fmt.Sprint(len(set)) || !near(road, w.share(set)) {
		k.failf("gaps", "%v, %s: %s configurations, %v on the road; want %d, %v", id, what, a.Configurations, road, len(set), w.share(set))
	}
}

// TestTriedRows takes a fitment row out of random catalogues, tries it with --if, and
// holds what is told against the catalogue that does have the row: the coverage that a
// build of it publishes, and the verdict on every configuration with and without it.
func TestTriedRows(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 1))
	seen := map[string]int{}
	for seed := range uint64(max(usual(fewestAsked, 2*fewestAsked), askedSeeds())) {
		c := generate(seed)
		f := c.readable(r)
		if f == nil {
			continue
		}
		dir := t.TempDir()
		after := written(t, c, filepath.Join(dir, "with"))
		with := c.enumerate()
		f.gone = true
		before := written(t, c, filepath.Join(dir, "without"))
		without := c.enumerate()
		texts, _ := c.asTried(f)
		e := tried(t, filepath.Join(dir, "without"), texts)
		f.gone = false
		k := &checker{c: c, o: with}
		for _, change := range e.Changes {
			k.sameCoverage(change, before, after)
		}
		k.triedRow(f, without, e, seen)
		require.Empty(t, k.problems, "seed %d: %q\n%s", seed, texts, lines(k.problems))
	}
	for _, what := range []string{"covered", "conflicts", "still", "agrees", "replaces", "overruled"} {
		require.Greater(t, seen[what], askedOf(40), what)
	}
}

// written writes the catalogue into a folder and builds it.
func written(t *testing.T, c *catalogue, dir string) output {
	t.Helper()
	require.NoError(t, os.MkdirAll(dir, 0o750))
	require.NoError(t, c.write(dir))
	return compile(t, dir)
}

// readable picks a row that is not set aside and has a cell that can be read.
func (c *catalogue) readable(r *rand.Rand) *fit {
	for _, i := range r.Perm(len(c.fits)) {
		if texts, ok := c.asTried(c.fits[i]); ok && len(texts) > 0 {
			return c.fits[i]
		}
	}
	return nil
}

// asTried writes each cell of a row as --if has it; false where the row is set aside.
func (c *catalogue) asTried(f *fit) ([]string, bool) {
	if f.fault != "" {
		return nil, false
	}
	var conditions []string
	names := []string{"Platform", "Years"}
	for _, t := range c.traits {
		names = append(names, t.name)
	}
	for _, name := range append(names, "Precedence") {
		if what := f.cells[name]; what != nil {
			conditions = append(conditions, fmt.Sprintf("%s = %v", name, what))
		}
	}
	where := ""
	if len(conditions) > 0 {
		where = " where " + strings.Join(conditions, ", ")
	}
	var out []string
	for pos, st := range f.says {
		if st != nil && !st.unreadable {
			out = append(out, fmt.Sprintf("%v in %s%s", f.cells[f.columns[pos]], c.positions[pos].name, where))
		}
	}
	return out, true
}

// sameCoverage holds the counts before and after against two builds.
func (k *checker) sameCoverage(c gaps.Change, before, after output) {
	for _, side := range []struct {
		name string
		out  output
		told [6]gaps.Amount
	}{{"before", before, c.Before}, {"after", after, c.After}} {
		for _, p := range side.out.coverage {
			for _, pos := range p.Positions {
				if p.Platform != c.Platform.Name || pos.Position != c.Position.Name {
					continue
				}
				for o, name := range []string{"gap", "fitted", "none", "planned", "ask", "conflict"} {
					road, _ := side.told[o].OnTheRoad.Float64()
					if side.told[o].Configurations.String() != fmt.Sprint(pos.counts()[name]) || !near(road, pos.OnTheRoad[name]) {
						k.failf("if", "%s %s on %s, %s: %s, %v on the road; the build has %d, %v", side.name, pos.Position, p.Platform,
							name, side.told[o].Configurations, road, pos.counts()[name], pos.OnTheRoad[name])
					}
				}
			}
		}
	}
}

// triedRow holds every set of the changes against the verdicts with and without the row.
func (k *checker) triedRow(f *fit, without *outlook, e *gaps.Effect, seen map[string]int) {
	told := map[key]gaps.Change{}
	for _, c := range e.Changes {
		told[key{"", c.Platform.Name, c.Position.Name, ""}] = c
	}
	for n, w := range k.o.worlds {
		for pos, st := range f.says {
			if st == nil || st.unreadable {
				continue
			}
			id := key{"", k.c.platforms[w.platform].name, k.c.positions[pos].name, ""}
			sets := map[string][]int{}
			for i := range w.configs {
				if what := k.becomes(f, k.o.verdicts[w][i][pos], without.verdicts[without.worlds[n]][i][pos]); what != "" && f.meets(w.platform, w.configs[i]) {
					sets[what] = append(sets[what], i)
					sets["matched"] = append(sets["matched"], i)
				}
			}
			c, ok := told[id]
			if !ok {
				if len(sets) > 0 {
					k.failf("if", "%v: not told", id)
				}
				continue
			}
			k.sameAmount(id, "matched", c.Matched, w, sets["matched"])
			for name, s := range map[string]gaps.Set{"covered": c.Covered, "conflicts": c.Conflicts, "still": c.StillConflict,
				"agrees": c.Agrees, "replaces": c.Replaces, "overruled": c.Overruled} {
				k.sameTried(id, name, s, w, sets[name])
				seen[name] += len(sets[name])
			}
		}
	}
}

// becomes says what a row changes on a configuration that it matches.
func (k *checker) becomes(f *fit, with, without verdict) string {
	decides := false
	for _, d := range with.cells {
		decides = decides || d.fit == f
	}
	switch {
	case !with.exists:
		return ""
	case !decides:
		return "overruled"
	case with.outcome == "conflict" && without.outcome == "conflict":
		return "still"
	case with.outcome == "conflict":
		return "conflicts"
	case without.outcome == "gap":
		return "covered"
	case len(with.cells) > 1:
		return "agrees"
	}
	return "replaces"
}

func (k *checker) sameTried(id key, name string, s gaps.Set, w *world, want []int) {
	k.sameAmount(id, name, s.Amount, w, want)
	for i, g := range w.configs {
		in := false
		for _, b := range s.Where {
			in = in || k.c.holds(asBox(b), g)
		}
		if in != holdsInt(want, i) {
			k.failf("if", "%v, %s: holds %v where %s", id, name, in, k.c.show(g))
			return
		}
	}
}
