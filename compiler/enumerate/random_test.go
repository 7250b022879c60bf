package enumerate

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// seeds is how many random catalogues one run makes; -seed runs one of them.
var (
	seeds = flag.Int("seeds", usual(fewSeeds, manySeeds), "random catalogues to compare")
	only  = flag.Int("seed", -1, "compare this one only")
)

// manySeeds is how many catalogues are compared where CI is set, fewSeeds elsewhere. Of fewSeeds
// every code must be told, of enoughSeeds everything that there is must be met.
const fewSeeds, enoughSeeds, manySeeds = 24, 60, 520

// atLeast gives a number for enough seeds, or a third of -seeds where those are fewer.
func atLeast(enough int) int {
	if *seeds < enoughSeeds {
		return (*seeds + 2) / 3
	}
	return enough
}

// usual gives a count for a run at hand, or the one where CI is set and there is time.
func usual(few, many int) int {
	if os.Getenv("CI") != "" {
		return many
	}
	return few
}

func TestRandomCatalogues(t *testing.T) {
	from, to := 0, *seeds
	if *only >= 0 {
		from, to = *only, *only+1
	}
	told, codes := 0, map[string]int{}
	for seed := from; seed < to; seed++ {
		c := generate(uint64(seed))
		out, problems := attempt(c, t.TempDir())
		for _, f := range out.findings {
			codes[f.Code]++
			if f.Code == "part-out-of-place" && f.Severity == "error" {
				codes["what Positions lists"]++
			}
		}
		if len(problems) == 0 {
			continue
		}
		told++
		t.Errorf("seed %d: %d disagreements\n%s", seed, len(problems), lines(problems))
		if told == 1 {
			dir := t.TempDir()
			t.Errorf("seed %d made smaller:\n%s", seed, shrink(c, problems[0].kind, dir))
		}
		if told >= 5 {
			t.Fatalf("stopped after seed %d", seed)
		}
	}
	for _, code := range append(setCodes(), "row-unreachable", "cell-redundant", "rows-mergeable", "position-unused", "trait-unused",
		"property-missing", "limit-unused", "fact-unused", "what Positions lists", "cell-dragged", "years-outside", "years-ahead", "reason-missing") {
		t.Logf("%s: told %d times", code, codes[code])
		switch n := to - from; {
		case n >= enoughSeeds:
			require.Greater(t, codes[code], n/12, "%s is hardly ever told", code)
		case n >= fewSeeds:
			require.Positive(t, codes[code], "%s is never told", code)
		}
	}
}

// try writes a catalogue, has it built and compares.
func try(c *catalogue, dir string) []problem {
	_, problems := attempt(c, dir)
	return problems
}

// attempt is try, and gives what was built as well.
func attempt(c *catalogue, dir string) (output, []problem) {
	in := filepath.Join(dir, "in")
	if err := os.RemoveAll(dir); err != nil {
		return output{}, []problem{{"harness", err.Error()}}
	}
	if err := os.MkdirAll(in, 0o750); err != nil {
		return output{}, []problem{{"harness", err.Error()}}
	}
	if err := c.write(in); err != nil {
		return output{}, []problem{{"harness", err.Error()}}
	}
	out, err := build(in, filepath.Join(dir, "out"))
	if err != nil {
		return output{}, []problem{{"build", err.Error()}}
	}
	out = c.unline(out)
	return out, compare(c, c.enumerate(), out)
}

func lines(problems []problem) string {
	var out []string
	for i, p := range problems {
		if i == 8 {
			out = append(out, fmt.Sprintf("  and %d more", len(problems)-i))
			break
		}
		out = append(out, "  "+p.String())
	}
	return strings.Join(out, "\n")
}

// shrink takes rows out for as long as a disagreement of the same kind stays,
// and describes what is left.
func shrink(c *catalogue, kind, dir string) string {
	left := 200
	for changed := true; changed && left > 0; {
		changed = false
		for _, r := range c.rows() {
			if r.gone || left == 0 {
				continue
			}
			left--
			r.gone = true
			if c.manageable() && fails(c, kind, dir) {
				changed = true
				continue
			}
			r.gone = false
		}
	}
	return c.describe() + lines(try(c, dir))
}

func fails(c *catalogue, kind, dir string) bool {
	for _, p := range try(c, dir) {
		if p.kind == kind {
			return true
		}
	}
	return false
}

// rows lists the rows that can be taken out on their own.
func (c *catalogue) rows() []*row {
	var out []*row
	for _, a := range c.accepts {
		out = append(out, a.row)
	}
	for _, r := range c.rules {
		out = append(out, r.row)
	}
	for _, f := range c.fits {
		out = append(out, f.row)
	}
	for _, p := range c.positions {
		for _, r := range p.rows[1:] {
			out = append(out, r.row)
		}
	}
	for _, l := range c.limits {
		out = append(out, l.row)
	}
	if len(c.factRows) > 0 {
		for _, r := range c.factRows[1:] { // the first says what the columns measure
			out = append(out, r.row)
		}
	}
	for _, v := range c.vehicles {
		out = append(out, v.row)
	}
	return out
}

// describe writes the sheets as they stand.
func (c *catalogue) describe() string {
	var b strings.Builder
	for _, s := range c.sheets {
		fmt.Fprintf(&b, "%s: %s\n", s.file, s.name)
		for _, r := range s.rows {
			if r.gone {
				continue
			}
			for _, col := range s.columns {
				if what := r.cells[col.name]; what != nil {
					fmt.Fprintf(&b, "  %s %s=%q", r.at[col.name].Cell, col.name, fmt.Sprint(what))
				}
			}
			b.WriteString("\n")
		}
	}
	return b.String()
}

// TestGenerator holds the generator to its promises: the same seed gives the
// same catalogue, and together the seeds reach every kind of answer.
func TestGenerator(t *testing.T) {
	seen, n := map[string]int{}, usual(40, 400)
	for seed := range uint64(n) {
		c := generate(seed)
		require.True(t, c.describe() == generate(seed).describe(), "seed %d differs from itself", seed)
		require.NoError(t, c.write(t.TempDir()))
		o := c.enumerate()
		for id, e := range o.findings {
			seen[id.code]++
			if entry := c.split(e); len(entry.accepted) > 0 {
				seen["accepted "+id.code]++
			}
		}
	}
	for _, code := range setCodes() {
		require.Greater(t, seen[code], n/40, code)
		if n >= 400 {
			require.Positive(t, seen["accepted "+code], code)
		}
	}
}
