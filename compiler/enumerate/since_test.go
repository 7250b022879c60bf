package enumerate

import (
	"bytes"
	"context"
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/cmd/ferrule/cli"
	"ferrule/schema"
)

// since is what `ferrule check NEW --since OLD --format json` prints, and without --since.
type since struct {
	Findings []struct {
		finding
		Known bool
	}
	Summary map[string]int
}

func sinceOf(t testing.TB, old, new string) since {
	t.Helper()
	return checkOf(t, new, "--since", old)
}

// checkOf gives what check tells of a folder.
func checkOf(t testing.TB, dir string, more ...string) since {
	t.Helper()
	var stdout, stderr bytes.Buffer
	args := append([]string{"check", dir, "--format", "json", "--today", "2027-03-01", "--fail-on", "never"}, more...)
	require.Zero(t, cli.Run(context.Background(), args, &stdout, &stderr), "%s", stderr.String())
	require.NoError(t, schema.ValidatePublished("findings.schema.json", stdout.Bytes()))
	var out since
	require.NoError(t, json.Unmarshal(stdout.Bytes(), &out))
	return out
}

// TestSinceAgreesWithEnumeration holds which vehicles of a coverage finding are new
// against the enumeration of both catalogues, and that the rest of the findings are
// those of a plain check.
func TestSinceAgreesWithEnumeration(t *testing.T) {
	known, fresh, grown := 0, 0, 0
	for seed := range diffSeeds() {
		old, new := generate(uint64(seed)), mutant(uint64(seed), 4, 1+seed%5)
		out := sinceOf(t, old.folder(t), new.folder(t))
		d := newDiffer(old, new, names{})
		for _, p := range d.pairings() {
			if p.b == nil {
				continue
			}
			all := d.joints(p)
			for _, pos := range new.positions {
				for _, code := range []string{"coverage-gap", "coverage-planned", "coverage-ask"} {
					k, f := d.since(t, seed, p, all, key{code, p.name, pos.name, ""}, &out)
					known, fresh = known+k, fresh+f
					if k > 0 && f > 0 {
						grown++
					}
				}
			}
		}
	}
	t.Log(known, fresh, grown)
	if *seeds >= fewSeeds {
		require.Greater(t, known, diffSeeds())
		require.Greater(t, fresh, diffSeeds()/2)
		require.Positive(t, grown)
	}
}

// since compares one finding, and gives how many of its configurations are known and new.
func (d *differ) since(t *testing.T, seed int, p *pairing, all []jointly, id key, out *since) (known, fresh int) {
	t.Helper()
	e := d.b.findings[id]
	var open, before []int
	if e != nil {
		open = d.new.split(e).open
		if o := d.a.findings[id]; o != nil && o.severity == e.severity {
			before = d.old.split(o).open
		}
	}
	said := p.throughout(all, before)
	for _, f := range out.Findings {
		if f.Code != id.code || f.Platform != id.platform || f.Position != id.position || f.Accepted != nil {
			continue
		}
		n := 0
		for i, g := range p.b.configs {
			in := slices.ContainsFunc(f.Where, func(b box) bool { return d.new.holds(b, g) })
			if !in {
				continue
			}
			n++
			require.True(t, holdsInt(open, i), "seed %d: %v tells of a configuration that it is not about", seed, id)
			require.Equal(t, said[i], f.Known, "seed %d: %v at %s", seed, id, d.new.show(g))
		}
		require.Equal(t, n, f.Configurations, "seed %d: %v", seed, id)
		if f.Known {
			known += n
		} else {
			fresh += n
		}
	}
	require.Equal(t, len(open), known+fresh, "seed %d: %v", seed, id)
	return known, fresh
}

// throughout gives the configurations of NEW that stand for some of OLD, all of which are
// in a set.
func (p *pairing) throughout(all []jointly, set []int) map[int]bool {
	in := map[string]bool{} // by what both see: whether all of OLD's are in the set
	for _, j := range all {
		if j.a < 0 {
			continue
		}
		key := p.shared(j)
		before, seen := in[key]
		in[key] = (before || !seen) && holdsInt(set, j.a)
	}
	out := map[int]bool{}
	for _, j := range all {
		if j.b >= 0 && in[p.shared(j)] {
			out[j.b] = true
		}
	}
	return out
}

// TestNothingIsNewSinceItself holds findings against those of the same catalogue, and of
// one in which every row has moved.
func TestNothingIsNewSinceItself(t *testing.T) {
	for seed := range diffSeeds() / 2 {
		c, moved := generate(uint64(seed)), generate(uint64(seed))
		for _, s := range moved.sheets {
			if len(s.lead) == 0 && !strings.HasPrefix(s.name, "_") {
				s.lead = []string{"A title", "of two lines"}
			}
		}
		a, b := c.folder(t), moved.folder(t)
		for _, pair := range [][2]string{{a, a}, {a, b}, {b, a}} {
			out := sinceOf(t, pair[0], pair[1])
			for _, f := range out.Findings {
				require.True(t, f.Known || f.Accepted != nil, "seed %d: %+v", seed, f)
			}
			require.Zero(t, out.Summary["error"]+out.Summary["warning"]+out.Summary["note"])
		}
	}
}
