package enumerate

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"sync"
	"testing"

	"ferrule/compiler/ask/gaps"
	picklist "ferrule/compiler/ask/pick"

	"github.com/stretchr/testify/require"
)

// manyAsked is how many random catalogues are asked questions at most.
const manyAsked = 110

// fewestAsked is how many it takes for kinds of answers that are seldom.
const fewestAsked = 14

// askedSeeds is how many are asked: a part of -seeds, since each is asked much.
func askedSeeds() int { return min(manyAsked, max(2, *seeds/4)) }

// askedOf scales how often something must be met, given how often in manyAsked catalogues.
// A single one may have none of it.
func askedOf(times int) int { return times * askedSeeds() / manyAsked / 2 }

// asked is a random catalogue that is asked questions, with what the enumeration says.
type asked struct {
	seed uint64
	checker
	desk *picklist.Lookup
	gaps *gaps.Ranking
}

// everyAsked makes them once for all tests that only ask.
var everyAsked = sync.OnceValues(func() ([]*asked, error) {
	var out []*asked
	for seed := range uint64(askedSeeds()) {
		c := generate(seed)
		desk, ranking, err := bindOnce(c)
		if err != nil {
			return nil, err
		}
		out = append(out, &asked{seed, checker{c: c, o: c.enumerate()}, desk, ranking})
	}
	return out, nil
})

// eachAsked gives every catalogue to a test, which notes its problems in it.
func eachAsked(t *testing.T, f func(*asked)) {
	t.Helper()
	all, err := everyAsked()
	require.NoError(t, err)
	for _, a := range all {
		a.problems = nil
		f(a)
		require.Empty(t, a.problems, "seed %d\n%s", a.seed, lines(a.problems))
	}
}

// TestPickIsTheVerdict asks for the pick list of every configuration of random
// catalogues, every trait answered, and holds it against the enumeration.
func TestPickIsTheVerdict(t *testing.T) {
	vehicles := 0
	eachAsked(t, func(k *asked) {
		for _, w := range k.o.worlds {
			for i, g := range w.configs {
				l := picked(t, k.desk, k.c.platforms[w.platform].name, k.c.answers(g)...)
				require.Equal(t, "1", l.Configurations.String())
				k.pickedOne(w, i, l)
				vehicles++
			}
		}
	})
	t.Logf("%d vehicles", vehicles)
}

// answers tells all of a vehicle, as a user would.
func (c *catalogue) answers(g config) []string {
	out := []string{fmt.Sprintf("Years=%d", g.year)}
	for i := range c.traits {
		out = append(out, c.answer(g, i))
	}
	return out
}

func (c *catalogue) answer(g config, i int) string {
	if v := g.vals[i]; v != never {
		return c.traits[i].name + "=" + c.traits[i].values[v].name
	}
	return c.traits[i].name + "=n/a"
}

// pickedOne compares the list of one configuration with its verdicts.
func (k *checker) pickedOne(w *world, i int, l *picklist.List) {
	told := map[string]*picklist.Position{}
	for n := range l.Positions {
		told[l.Positions[n].Position.Name] = &l.Positions[n]
	}
	for pos, at := range k.c.positions {
		v, p := k.o.verdicts[w][i][pos], told[at.name]
		if (p != nil) != v.exists {
			k.failf("pick", "%s is told %v where %s", at.name, p != nil, k.c.show(w.configs[i]))
			continue
		}
		if !v.exists {
			continue
		}
		way := p.Certain()
		if way == nil {
			k.failf("pick", "%s: %d ways where %s", at.name, len(p.Ways), k.c.show(w.configs[i]))
			continue
		}
		k.sameCase("pick "+at.name, w, i, pos, asCase(way))
		if way.Case.Quantity != v.quantity && v.outcome != "gap" {
			k.failf("pick", "%s: quantity %d, want %d", at.name, way.Case.Quantity, v.quantity)
		}
	}
}

// asCase gives a way as a guide would print it.
func asCase(w *picklist.Way) guideCase {
	out := guideCase{Outcome: w.Case.Outcome.String(), Text: strings.Join(w.Case.Texts, "; ")}
	if !w.Settled() {
		out.Settled = new(bool)
	}
	if w.Case.With != nil {
		out.With = w.Case.With.Name
	}
	for _, n := range w.Case.Notes {
		text := n.Text
		if n.Caution != nil {
			text = n.Caution.Text
		}
		out.Notes = append(out.Notes, text)
	}
	for _, a := range w.Case.Alternatives {
		var alt []offer
		for _, it := range a {
			alt = append(alt, offer{it.Part.Number, it.Quantity})
		}
		out.Alternatives = append(out.Alternatives, alt)
	}
	return out
}

// TestPickWithOpenQuestions leaves answers out at random. Every configuration that fits
// must lie in exactly one way, which says what the verdict says; configurations that
// agree in what a position depends on must lie in one way, and leaving out any of it must
// let two ways meet.
func TestPickWithOpenQuestions(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	several := 0
	eachAsked(t, func(k *asked) {
		for _, w := range k.o.worlds {
			for range 6 {
				g := w.configs[r.IntN(len(w.configs))]
				var open []bool
				var answers []string
				for i, a := range k.c.answers(g) {
					open = append(open, r.IntN(3) > 0)
					if !open[i] {
						answers = append(answers, a)
					}
				}
				l := picked(t, k.desk, k.c.platforms[w.platform].name, answers...)
				several += k.pickedSome(w, k.c.fitting(w, g, open), l)
			}
		}
	})
	require.Greater(t, several, askedOf(1000), "hardly any position depends on what was left open")
}

// fitting lists the configurations that have the answers of g where they are not open:
// the year first, then the traits.
func (c *catalogue) fitting(w *world, g config, open []bool) []int {
	var out []int
	for i, h := range w.configs {
		same := open[0] || g.year == h.year
		for t := range c.traits {
			same = same && (open[t+1] || g.vals[t] == h.vals[t])
		}
		if same {
			out = append(out, i)
		}
	}
	return out
}

// pickedSome compares a list with the configurations that it is about, and counts the
// positions with several ways.
func (k *checker) pickedSome(w *world, set []int, l *picklist.List) int {
	if l.Configurations.String() != fmt.Sprint(len(set)) {
		k.failf("pick", "%s configurations, want %d", l.Configurations, len(set))
	}
	told := map[string]*picklist.Position{}
	for n := range l.Positions {
		told[l.Positions[n].Position.Name] = &l.Positions[n]
	}
	several := 0
	for pos, at := range k.c.positions {
		ways := []picklist.Way{{Missing: true}}
		var depends []string
		if p := told[at.name]; p != nil {
			ways = p.Ways
			for _, t := range p.Depends {
				depends = append(depends, picklist.Name(t))
			}
		}
		of := map[int]int{}
		for _, i := range set {
			if of[i] = k.wayOf(w, i, ways, told[at.name] == nil); of[i] < 0 {
				k.failf("pick", "%s: no way, or several, where %s", at.name, k.c.show(w.configs[i]))
				return several
			}
			way, v := &ways[of[i]], k.o.verdicts[w][i][pos]
			if way.Missing == v.exists {
				k.failf("pick", "%s: missing %v where %s", at.name, way.Missing, k.c.show(w.configs[i]))
			} else if v.exists {
				k.sameCase("pick "+at.name, w, i, pos, asCase(way))
			}
		}
		k.distinctWays(at.name, w, pos, ways, of)
		if len(ways) > 1 {
			several++
			k.dependsOn(at.name, w, set, of, depends)
		}
	}
	k.ordered(w, set, l)
	return several
}

// wayOf finds the way that holds a configuration: -1 where not exactly one does.
func (k *checker) wayOf(w *world, i int, ways []picklist.Way, all bool) int {
	if all {
		return 0
	}
	found := -1
	for n := range ways {
		in := 0
		for _, b := range ways[n].Where {
			if k.c.holds(asBox(b), w.configs[i]) {
				in++
			}
		}
		if in > 0 && found >= 0 || in > 1 && !ways[n].Missing {
			return -1
		}
		if in > 0 {
			found = n
		}
	}
	return found
}

// dependsOn holds that the named traits settle the way, and no fewer of them would.
func (k *checker) dependsOn(name string, w *world, set []int, of map[int]int, depends []string) {
	settles := func(but int) bool {
		seen := map[string]int{}
		for _, i := range set {
			look := ""
			for n, trait := range depends {
				if n != but {
					look += k.c.said(w.configs[i], trait) + "|"
				}
			}
			if way, known := seen[look]; known && way != of[i] {
				return false
			}
			seen[look] = of[i]
		}
		return true
	}
	if !settles(-1) {
		k.failf("pick", "%s: %v do not settle it", name, depends)
	}
	for n := range depends {
		if settles(n) {
			k.failf("pick", "%s: %v settle it without %s", name, depends, depends[n])
		}
	}
}
