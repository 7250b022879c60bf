package enumerate

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// gateSeeds is how many pairs of releases are held against their findings: a part of
// -seeds, since each takes two runs.
func gateSeeds() int { return max(atLeast(30), *seeds/16) }

// TestDiffAndCheckHoldTheSameAcceptances compares pairs of random releases, whose Accepted
// rows aim at what is found in the newer one and often miss it. On every configuration of
// every difference it is told as accepted exactly if `check` tells each finding behind it
// as accepted there.
func TestDiffAndCheckHoldTheSameAcceptances(t *testing.T) {
	seen := map[string]int{}
	for seed := range uint64(gateSeeds()) {
		old, new := generate(seed), aimed(t, seed)
		from, to := old.folder(t), new.folder(t)
		out := diffOf(t, from, to)
		k := &gate{diffChecker: &diffChecker{differ: newDiffer(old, new, out.names()), out: out}, seen: seen}
		k.hear(checkOf(t, to))
		for _, p := range k.pairings() {
			k.platform(p)
		}
		require.Empty(t, k.problems, "seed %d\n%s", seed, strings.Join(k.problems, "\n"))
	}
	t.Log(seen)
	if *seeds >= enoughSeeds {
		for _, what := range []string{"accepted", "accepted unsettled", "open", "one of several", "two of several", "for a dispute"} {
			require.Positive(t, seen[what], "%s: never met", what)
		}
	}
}

// gate holds a diff against what check tells of the newer release.
type gate struct {
	*diffChecker
	told map[key][]finding
	seen map[string]int
}

// hear sorts what check tells.
func (k *gate) hear(out since) {
	c := &checker{c: k.new, o: k.b}
	k.told = map[key][]finding{}
	for _, f := range out.Findings {
		if slices.Contains(setCodes(), f.Code) {
			id := c.keyOf(f.finding)
			k.told[id] = append(k.told[id], f.finding)
		}
	}
}

func (k *gate) platform(p *pairing) {
	if p.a == nil || p.b == nil {
		return
	}
	positions := k.positions()
	for _, j := range k.joints(p) {
		for i := range k.out.Changes {
			c := &k.out.Changes[i]
			if j.a >= 0 && j.b >= 0 && c.Platform == p.name && inAny(c.Where, p, j) {
				k.one(p, c, j, positions[c.Position][1])
			}
		}
	}
}

// one looks at one configuration of a difference.
func (k *gate) one(p *pairing, c *diffChange, j jointly, pos int) {
	var stands []*expected
	if pos >= 0 {
		stands = k.new.saidBehind(k.b, spotAt{p.b, j.b, pos})
	}
	n := 0
	for _, e := range stands {
		if k.quiet(e, p.b.configs[j.b]) {
			n++
		}
	}
	accepted := n > 0 && n == len(stands)
	if accepted != (c.Accepted != nil) {
		k.failf("%s, %s: %v: diff tells accepted %v, and check accepts %d of %d findings", p.name, c.Position, j, c.Accepted, n, len(stands))
	}
	k.note(c, n, stands)
}

// quiet tells whether check tells a finding as accepted on a configuration.
func (k *gate) quiet(e *expected, g config) bool {
	var in []finding
	for _, f := range k.told[e.key] {
		if slices.ContainsFunc(f.Where, func(b box) bool { return k.new.holds(b, g) }) {
			in = append(in, f)
		}
	}
	if len(in) != 1 {
		k.failf("%v: check tells it %d times where %s", e.key, len(in), k.new.show(g))
		return false
	}
	return in[0].Accepted != nil
}

// note counts what was met.
func (k *gate) note(c *diffChange, n int, stands []*expected) {
	switch {
	case n == 0:
		k.seen["open"]++
	case n < len(stands):
		k.seen["one of several"]++
	default:
		k.seen["accepted"]++
		if len(stands) > 1 {
			k.seen["two of several"]++
		}
		if strings.HasSuffix(names{}.saidBy(c.New), " unsettled") {
			k.seen["accepted unsettled"]++
		}
		if slices.ContainsFunc(stands, func(e *expected) bool { return e.code == "fact-conflict" }) {
			k.seen["for a dispute"]++
		}
	}
}

// aimed is the catalogue of a seed after some changes, with Accepted rows about what is
// found in it.
func aimed(t *testing.T, seed uint64) *catalogue {
	t.Helper()
	c := mutant(seed, 9, 1+int(seed%9))
	if len(c.accepts) == 0 {
		return c
	}
	g := &gen{Rand: rand.New(rand.NewPCG(seed, 13)), c: c}
	c.folder(t) // findings are told apart by where their cells stand
	o := c.enumerate()
	var all []*expected
	for _, e := range (&checker{c: c, o: o}).ids() {
		code := o.findings[e].code
		if ofOnePart(code) || code == "fact-conflict" || code == "fitment-conflict" || strings.HasPrefix(code, "coverage-") {
			all = append(all, o.findings[e])
		}
	}
	for range min(len(all), g.between(2, 8)) {
		g.aim(pick(g, all))
	}
	return c
}

// aim adds an Accepted row for a finding, which may name another code, part or position.
func (g *gen) aim(e *expected) {
	a := &accept{row: newRow(), code: e.code, conds: conds{traits: make([]cond, len(g.c.traits))}}
	if g.chance(0.15) {
		a.code = pick(g, []string{"part-forbidden", "line-size-mismatch", "companion-forbidden", "limit-broken", "limit-undefined", "fact-conflict"})
	}
	if g.chance(0.3) {
		a.conds = g.conds(a.row, false)
	}
	if e.position != "" && g.chance(0.5) || g.chance(0.05) {
		a.position = pick(g, g.c.positions).name
		if e.position != "" && g.chance(0.9) {
			a.position = e.position
		}
		a.cells["Position"] = a.position
	}
	if len(e.parts) > 0 && g.chance(0.5) {
		a.part = e.parts[0]
		a.cells["Part"] = a.part
	}
	a.cells["Finding"], a.cells["Reason"], a.cells["By"] = a.code, "seen", "workshop"
	g.insert(g.c.accepts[0].row, a.row)
	g.c.accepts = append(g.c.accepts, a)
}
