package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// small is a package whose tests hold all of Least but which of two equal numbers it gives.
const small = "./testdata/small"

// tried runs the mutants on a line of the small package and gives the rows of the table.
func tried(t *testing.T, line string, n int) [][]string {
	t.Helper()
	tsv := filepath.Join(t.TempDir(), "mutants.tsv")
	var printed strings.Builder
	o := options{seed: 1, n: n, at: "testdata/small/small.go:" + line, tsv: tsv, times: 3, patterns: []string{small}}
	require.NoError(t, mutate(t.Context(), o, &printed))
	text, err := os.ReadFile(tsv)
	require.NoError(t, err)
	var rows [][]string
	for _, l := range strings.Split(strings.TrimSpace(string(text)), "\n") {
		rows = append(rows, strings.Split(l, "\t"))
		assert.Contains(t, printed.String(), rows[len(rows)-1][5])
	}
	return rows
}

// TestFates tries every change of a comparison: one that no input tells apart, and two
// that the test notices. The file itself stays as it is.
func TestFates(t *testing.T) {
	before, err := os.ReadFile(small + "/small.go")
	require.NoError(t, err)
	fates := map[string]string{}
	for _, row := range tried(t, "6", 10) {
		assert.Equal(t, "testdata/small/small.go:6", row[1])
		fates[row[3]+" → "+row[4]] = row[5]
	}
	const dead = "killed by ferrule/cmd/mutate/testdata/small TestLeast"
	assert.Equal(t, map[string]string{"< → <=": survived, "< → >=": dead, "a < b → !(a < b)": dead}, fates)
	after, err := os.ReadFile(small + "/small.go")
	require.NoError(t, err)
	assert.Equal(t, string(before), string(after))
}

// TestBroken holds that what does not compile is told as that, and is not called killed.
func TestBroken(t *testing.T) {
	fates := map[string]string{}
	for _, row := range tried(t, "27", 10) {
		fates[row[3]+" → "+row[4]] = row[5]
	}
	assert.Equal(t, map[string]string{"return 1 → {}": broken, "1 → 2": survived, "1 → 0": survived}, fates)
}

// everything has a place for each operator.
const everything = `package p

func f(xs []int, n int) bool {
	for i, x := range xs {
		if x < n && !g(i+7) {
			continue
		}
		xs = append(xs, x)
		n -= x
		g(n)
		if x == n {
			return true
		}
		break
	}
	return n >= 0
}
`

func TestSites(t *testing.T) {
	found, err := sites("p.go", everything)
	require.NoError(t, err)
	seen := map[string][]string{}
	for _, s := range found {
		seen[s.Operator] = append(seen[s.Operator], short(s.Before)+" → "+s.After)
		assert.Contains(t, strings.Split(everything, "\n")[s.Line-1], strings.Split(s.Before, "\n")[0])
	}
	assert.Equal(t, map[string][]string{
		"bound":      {"< → <=", ">= → >"},
		"flip":       {"< → >=", "== → !=", ">= → <"},
		"and/or":     {"&& → ||"},
		"negation":   {"!g(i+7) → g(i+7)"},
		"condition":  {"x < n && !g(i+7) → !(x < n && !g(i+7))", "x == n → !(x == n)"},
		"plus/minus": {"+ → -"},
		"constant":   {"7 → 8", "7 → 6", "0 → 1", "0 → -1"},
		"jump":       {"continue → {}", "continue → break", "break → {}"},
		"append":     {"xs = append(xs, x) → {}"},
		"statement":  {"n -= x → {}"},
		"call":       {"g(n) → {}"},
		"return":     {"return true → {}"},
		"truth":      {"true → false"},
	}, seen)
}

// TestDrawnAgain holds that a seed draws the same sites, each once, from every package.
func TestDrawnAgain(t *testing.T) {
	draw := func(seed uint64) (out []string) {
		pkgs := []*pkg{{ImportPath: "a", Lines: 30}, {ImportPath: "b", Lines: 60}}
		for _, p := range pkgs {
			found, err := sites(p.ImportPath, everything)
			require.NoError(t, err)
			p.Sites = map[string][]site{}
			for _, s := range found {
				p.Sites[s.Operator] = append(p.Sites[s.Operator], s)
			}
		}
		for c := newChooser(seed, pkgs); ; {
			p, s := c.next()
			if s == nil {
				return out
			}
			out = append(out, p.ImportPath+" "+s.apply(everything))
		}
	}
	first := draw(1)
	assert.Equal(t, first, draw(1))
	assert.NotEqual(t, first, draw(2))
	assert.ElementsMatch(t, first, draw(2))
	once := map[string]bool{}
	for _, s := range first {
		once[s] = true
	}
	assert.Len(t, once, 2*22)
}

// TestWhoSees holds that tests are asked which depend on a package only by themselves.
func TestWhoSees(t *testing.T) {
	pkgs, err := decode([]byte(`
		{"ImportPath": "m/a", "Deps": ["fmt"]}
		{"ImportPath": "m/b", "XTestGoFiles": ["b_test.go"]}
		{"ImportPath": "m/b_test [m/b.test]", "ForTest": "m/b"}
		{"ImportPath": "m/b.test", "Deps": ["m/a [m/b.test]", "m/b"]}
		{"ImportPath": "m/c", "TestGoFiles": ["c_test.go"]}`))
	require.NoError(t, err)
	require.Len(t, pkgs, 3)
	a, b, c := pkgs[0], pkgs[1], pkgs[2]
	assert.Equal(t, []*pkg{b}, (&bench{tests: []*pkg{c, b}}).order(a))
	assert.Equal(t, []*pkg{c}, (&bench{tests: []*pkg{c, b}}).order(c))
}
