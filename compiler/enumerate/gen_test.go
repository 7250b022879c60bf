package enumerate

import (
	"math/rand/v2"
	"strings"
)

// gen makes one random catalogue. All chance comes from its seed.
type gen struct {
	*rand.Rand
	c *catalogue
}

func (g *gen) chance(p float64) bool { return g.Float64() < p }

// between gives a whole number from lo to hi, both included.
func (g *gen) between(lo, hi int) int { return lo + g.IntN(hi-lo+1) }

func pick[T any](g *gen, from []T) T { return from[g.IntN(len(from))] }

// some gives n different things of a list in random order.
func some[T any](g *gen, from []T, n int) []T {
	var out []T
	for _, i := range g.Perm(len(from))[:n] {
		out = append(out, from[i])
	}
	return out
}

// odd writes a name as hands do: other case, more white space. Names are
// compared with case folded and white space collapsed.
func (g *gen) odd(name string) string {
	switch g.IntN(14) {
	case 0:
		return strings.ToUpper(name)
	case 1:
		return strings.ToLower(name)
	case 2:
		return strings.ReplaceAll(name, " ", "  ")
	case 3:
		return " " + name + " "
	}
	return name
}

// generate makes the catalogue of a seed. A draft whose spaces are too large
// to enumerate, or where a platform has nothing, is thrown away and made anew.
func generate(seed uint64) *catalogue {
	for try := uint64(0); ; try++ {
		g := &gen{Rand: rand.New(rand.NewPCG(seed, try)), c: &catalogue{seed: seed}}
		g.world()
		if !g.c.manageable() {
			continue
		}
		g.catalogue()
		g.layout()
		return g.c
	}
}

// largest is the greatest number of configurations a platform may have here.
const largest = 2000

func (c *catalogue) manageable() bool {
	for p := range c.platforms {
		if c.thinkable(p) > 12000 {
			return false
		}
	}
	for _, w := range c.worlds() {
		if len(w.configs) == 0 || len(w.configs) > largest {
			return false
		}
	}
	return true
}

func (c *catalogue) thinkable(p int) int {
	n := len(c.platforms[p].years())
	for _, t := range c.traits {
		n *= len(t.values) + 1
	}
	return n
}
