package walk_test

import (
	"context"
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/judge/identify"
	"ferrule/compiler/judge/identify/walk"
	"ferrule/compiler/space"
)

// ask answers for all of some configurations, but for what cannot be told, until nothing
// is left to ask, and gives the effort summed over them as they weigh. The end of each is told.
func (m *made) ask(t *testing.T, cs [][]int, s walk.State, untold space.Set, end func(walk.State, []int)) *big.Rat {
	next := m.asks.Next(s)
	if next < 0 {
		for _, c := range cs {
			end(s, c)
		}
		return new(big.Rat)
	}
	require.Nil(t, s.Known.At(next), "asked twice")
	require.False(t, s.Untold.Has(next), "asked twice")
	if untold.Has(next) {
		s.Untold = s.Untold.Or(space.SetOf(next))
		return m.ask(t, cs, s, untold, end)
	}
	spent := new(big.Rat)
	by := map[int][][]int{}
	for _, c := range cs {
		by[c[next]] = append(by[c[next]], c)
		spent.Add(spent, m.weight(c))
	}
	spent.Mul(spent, big.NewRat(int64(m.effort(next)), 1))
	for v, in := range by {
		spent.Add(spent, m.ask(t, in, walk.State{Known: s.Known.With(next, space.SetOf(v)), Untold: s.Untold}, untold, end))
	}
	return spent
}

// askAll asks about every configuration and holds the end of each against its classes. It
// gives the effort to be expected.
func (m *made) askAll(t *testing.T) *big.Rat {
	spent := m.ask(t, m.configs, walk.State{}, nil, func(s walk.State, c []int) {
		for i, a := range m.guide.Answers {
			require.Equal(t, space.SetOf(m.class(a, c)), m.asks.Ends(i, s), "%s of %v", a.Position.Name, c)
		}
	})
	weight := new(big.Rat)
	for _, c := range m.configs {
		weight.Add(weight, m.weight(c))
	}
	return spent.Quo(spent, weight)
}

// Every configuration of random platforms reaches its own class at every position, and
// where something cannot be told, its own class is among those that are left, with no
// other that the answers rule out.
func TestWalkReachesTheClass(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 1))
	for range 60 {
		m := newMade(t, r)
		m.askAll(t)
		untold := space.SetOf(r.IntN(len(m.cat.Traits) + 1))
		m.ask(t, m.configs, walk.State{}, untold, func(s walk.State, c []int) {
			for i, a := range m.guide.Answers {
				require.Equal(t, m.possible(a, s), m.asks.Ends(i, s), "%s of %v without %v", a.Position.Name, c, untold)
			}
		})
	}
}

// possible gives the classes of the configurations with the answers.
func (m *made) possible(a *decide.Answer, s walk.State) space.Set {
	var out space.Set
	for _, c := range m.configs {
		if s.Known.Has(c) {
			out = out.Or(space.SetOf(m.class(a, c)))
		}
	}
	return out
}

// least is the effort to be expected of the best tree for all positions at once; nil
// where it would take too long to find.
func (m *made) least(t *testing.T) *big.Rat {
	var out decide.Questions
	require.NoError(t, m.p.Try(func() {
		kits := []space.Region{m.p.All}
		for _, pos := range m.p.Cat.Positions {
			_, classes := decide.NewMount(m.p, pos).Cases()
			var next []space.Region
			for _, k := range kits {
				for _, c := range classes {
					if both := m.p.Intersect(k, c); both != space.Empty {
						next = append(next, both)
					}
				}
			}
			kits = next
		}
		if len(kits) > 300 {
			return
		}
		asks := identify.On(m.p)
		asks.Asking.States = 20_000
		out = asks.Place(kits, nil)
	}))
	if !out.Exact {
		return nil
	}
	return out.Expected
}

// The walk is not the best way to ask about a vehicle as a whole, and this says by how
// much: on random platforms, against the best tree of each.
func TestWalkTakesLittleMoreThanTheLeast(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 1))
	sum, worst, n := 0.0, 0.0, 0
	for range 120 {
		m := newMade(t, r)
		best := m.least(t)
		if best == nil || best.Sign() == 0 {
			continue
		}
		took := m.askAll(t)
		ratio, _ := took.Quo(took, best).Float64()
		require.GreaterOrEqual(t, ratio, 1.0)
		sum, worst, n = sum+ratio, max(worst, ratio), n+1
	}
	require.Greater(t, n, 80)
	t.Logf("on %d platforms the walk takes %.4f of the least effort, %.3f at worst", n, sum/float64(n), worst)
	assert.Less(t, sum/float64(n), 1.05)
	assert.Less(t, worst, 2.0)
}

// demo compiles the demo catalogue.
func demo(t *testing.T) []*made {
	res, err := compiler.Compile(context.Background(), compiler.Input{Paths: []string{"../../../../testdata/demo"}},
		compiler.Options{Today: "2027-03-01", Guides: true})
	require.NoError(t, err)
	var out []*made
	for _, p := range res.Guides {
		g := p.Open()
		m := &made{cat: res.Catalogue}
		m.decided(t, g)
		out = append(out, m)
	}
	return out
}

func TestWalkOfTheDemo(t *testing.T) {
	for _, m := range demo(t) {
		sum := m.askAll(t)
		alone := 0.0
		for _, a := range m.guide.Answers {
			require.NotNil(t, a.Questions.Tree)
			assert.True(t, a.Questions.Exact, a.Position.Name)
			expected, _ := a.Questions.Expected.Float64()
			alone += expected
		}
		said := "more than could be worked out"
		if best := m.least(t); best != nil {
			ratio, _ := new(big.Rat).Quo(sum, best).Float64()
			said = best.FloatString(2)
			assert.Less(t, ratio, 1.4, m.guide.Platform.Name)
		}
		t.Logf("%s: %d configurations, %d traits asked, effort %s on average; the least is %s; position by position %.2f",
			m.guide.Platform.Name, len(m.configs), len(m.guide.Finder.Order), sum.FloatString(2), said, alone)
		for _, trait := range m.guide.Finder.Order {
			assert.True(t, asked(m.guide, trait))
		}
	}
}

func asked(g *decide.Guide, trait int) bool {
	for _, a := range g.Answers {
		if slices.Contains(a.Questions.Tree.Traits(), trait) {
			return true
		}
	}
	return false
}
