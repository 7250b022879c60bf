package enumerate

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	picklist "ferrule/compiler/ask/pick"

	"github.com/stretchr/testify/require"
)

// TestNearestVehicles asks for vehicles that do not exist. What is told must differ in as
// few answers as any that exists, and name for each answer exactly the values that occur
// with all others as they are.
func TestNearestVehicles(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 8))
	changes := map[int]int{}
	eachAsked(t, func(k *asked) {
		for _, w := range k.o.worlds {
			all := k.c.candidates(w.platform)
			for range 8 {
				g := all[r.IntN(len(all))]
				if slices.Contains(w.configs, g) {
					continue
				}
				l := picked(t, k.desk, k.c.platforms[w.platform].name, k.c.answers(g)...)
				require.Zero(t, l.Configurations.Sign())
				least, ways := k.c.distance(w, g)
				require.Len(t, l.Near, ways)
				changes[least]++
				for _, n := range l.Near {
					require.Len(t, n.Changes, least, "seed %d: %s", k.seed, k.c.show(g))
					k.c.nearOne(t, w, g, n)
				}
			}
		}
	})
	require.Greater(t, changes[1], askedOf(200))
	require.Greater(t, changes[2], askedOf(40), "%v", changes)
}

// distance is in how many answers the nearest configurations differ, and how many
// choices of answers lead to one.
func (c *catalogue) distance(w *world, g config) (least, ways int) {
	least = len(c.traits) + 2
	choices := map[int]map[string]bool{}
	for _, h := range w.configs {
		n, which := 0, ""
		if g.year != h.year {
			n, which = n+1, "Years|"
		}
		for i, t := range c.traits {
			if g.vals[i] != h.vals[i] {
				n, which = n+1, which+t.name+"|"
			}
		}
		least = min(least, n)
		if choices[n] == nil {
			choices[n] = map[string]bool{}
		}
		choices[n][which] = true
	}
	return least, len(choices[least])
}

// nearOne wants the values of every change to be those of the configurations that have
// all other answers.
func (c *catalogue) nearOne(t *testing.T, w *world, g config, n picklist.Near) {
	changed := map[string]picklist.Change{}
	for _, ch := range n.Changes {
		changed[picklist.Name(ch.Trait)] = ch
	}
	want := map[string]map[string]bool{}
	for _, h := range w.configs {
		_, free := changed["Years"]
		fits := free || h.year == g.year
		for i, tr := range c.traits {
			_, free := changed[tr.name]
			fits = fits && (free || h.vals[i] == g.vals[i])
		}
		if !fits {
			continue
		}
		for name := range changed {
			if want[name] == nil {
				want[name] = map[string]bool{}
			}
			want[name][c.said(h, name)] = true
		}
	}
	for name, ch := range changed {
		for _, h := range c.varied(w.platform, g, name) {
			require.Equal(t, want[name][c.said(h, name)], c.holds(asBox(ch.Instead), h), "%s instead of %s: %s", ch.Instead, ch.Told, c.show(h))
		}
		require.True(t, c.holds(asBox(ch.Told), g))
	}
}

// varied gives the configuration with each value of one trait.
func (c *catalogue) varied(platform int, g config, name string) []config {
	var out []config
	if name == "Years" {
		for _, y := range c.platforms[platform].years() {
			g.year = y
			out = append(out, g)
		}
		return out
	}
	for i, t := range c.traits {
		if t.name != name {
			continue
		}
		for v := range t.values {
			g.vals[i] = v
			out = append(out, g)
		}
		g.vals[i] = never
		out = append(out, g)
	}
	return out
}

// said gives a configuration's year or value of a trait.
func (c *catalogue) said(g config, name string) string {
	if name == "Years" {
		return fmt.Sprint(g.year)
	}
	for i, t := range c.traits {
		if t.name == name {
			return fmt.Sprint(g.vals[i])
		}
	}
	panic("no such trait: " + name)
}
