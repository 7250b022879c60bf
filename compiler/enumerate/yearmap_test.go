package enumerate

import (
	"context"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/ask/yearmap"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// TestYearMaps holds every square of the maps of random catalogues against what is said on each
// single vehicle.
func TestYearMaps(t *testing.T) {
	maps, squares, mixed, bare := 0, 0, 0, 0
	for seed := range uint64(max(4, *seeds/8)) {
		c := generate(seed)
		dir := t.TempDir()
		require.NoError(t, c.write(dir))
		res, err := compiler.Compile(context.Background(), compiler.Input{Paths: []string{dir}}, compiler.Options{Today: "2027-03-01", Guides: true})
		require.NoError(t, err)
		told := map[string]*decide.Guide{}
		for _, g := range res.Guides {
			open := g.Open()
			told[open.Platform.Name] = open
		}
		for _, w := range c.worlds() {
			g := told[c.platforms[w.platform].name]
			require.NotNil(t, g, "seed %d", seed)
			for pos, at := range c.positions {
				m := mapAt(g, at.name)
				if m == nil {
					require.Empty(t, w.configs, "seed %d: no map of %s", seed, at.name)
					bare++
					continue
				}
				maps++
				want := c.squares(w, pos, m)
				got := map[square]yearmap.States{}
				for _, r := range m.Rows {
					for i, s := range r.Squares {
						if s != 0 {
							got[square{m.Years[i], r.Value}] = settled(s)
							squares++
						}
						if s.Mixed() {
							mixed++
						}
					}
				}
				require.Equal(t, want, got, "seed %d: %s on %s", seed, at.name, c.platforms[w.platform].name)
				c.holdChart(t, w, g, pos)
			}
		}
	}
	t.Logf("%d maps, %d squares, %d of them mixed; %d without vehicles", maps, squares, mixed, bare)
	require.NotZero(t, mixed)
}

// square is a year and the value of the trait that a map is drawn by.
type square struct {
	year  int
	value string
}

func mapAt(g *decide.Guide, position string) *yearmap.Map {
	if a := answerAt(g, position); a != nil {
		return yearmap.Of(g, a)
	}
	return nil
}

func answerAt(g *decide.Guide, position string) *decide.Answer {
	for _, a := range g.Answers {
		if a.Position.Name == position {
			return a
		}
	}
	return nil
}

// squares works out what each square of a map must say, vehicle by vehicle.
func (c *catalogue) squares(w *world, pos int, m *yearmap.Map) map[square]yearmap.States {
	states := map[string]yearmap.State{"fitted": yearmap.Fitted, "none": yearmap.None, "planned": yearmap.Planned, "ask": yearmap.Ask,
		"conflict": yearmap.Conflict, "gap": yearmap.Gap}
	out := map[square]yearmap.States{}
	for _, g := range w.configs {
		at := square{year: g.year}
		if m.Trait != nil {
			at.value = c.valueOf(g, m.Trait.Name)
		}
		state := yearmap.Away
		if v := c.judge(w.platform, g, pos); v.exists {
			state = states[v.outcome]
		}
		out[at] |= 1 << state
	}
	return out
}

// valueOf gives the value of a trait as a condition says it.
func (c *catalogue) valueOf(g config, trait string) string {
	for i, t := range c.traits {
		if t.name != trait {
			continue
		}
		if v := g.vals[i]; v != never {
			return t.values[v].name
		}
		return "does not apply"
	}
	return ""
}

// holdChart holds a position's chart by cases against the case of each single vehicle.
func (c *catalogue) holdChart(t *testing.T, w *world, g *decide.Guide, pos int) {
	t.Helper()
	a := answerAt(g, c.positions[pos].name)
	chart := yearmap.GroundOf(g, a).Chart(func(c int) int { return a.Cases[c].Class })
	type at struct{ year, value int }
	want, got := map[at]map[int]bool{}, map[at]map[int]bool{}
	put := func(in map[at]map[int]bool, to at, of int) {
		if in[to] == nil {
			in[to] = map[int]bool{}
		}
		in[to][of] = true
	}
	for _, v := range w.configs {
		to := at{year: v.year}
		if chart.Trait != nil {
			to.value = c.numberOf(v, chart.Trait)
		}
		put(want, to, slices.IndexFunc(a.Cases, func(k decide.Case) bool { return c.inside(v, k.Where) }))
	}
	for _, l := range chart.Rows {
		for y, s := range l.Squares {
			for _, of := range s.Cases {
				put(got, at{chart.Years[y], l.Value}, of)
			}
			if s.Away {
				put(got, at{chart.Years[y], l.Value}, -1)
			}
		}
	}
	require.Equal(t, want, got)
}

// numberOf gives the value that a vehicle has of a trait, by its number.
func (c *catalogue) numberOf(v config, t *model.Trait) int {
	for i, own := range c.traits {
		if own.name == t.Name && v.vals[i] != never {
			return slices.IndexFunc(t.Values, func(x *model.Value) bool { return x.Name == own.values[v.vals[i]].name })
		}
	}
	return t.Absent()
}

// inside tells whether a vehicle is in a box.
func (c *catalogue) inside(v config, b model.Box) bool {
	if b.Years != nil && !slices.ContainsFunc(b.Years, func(s model.Span) bool { return s.From <= v.year && v.year <= s.To }) {
		return false
	}
	return !slices.ContainsFunc(b.Traits, func(s model.TraitSet) bool { return !s.Values.Has(c.numberOf(v, s.Trait)) })
}

// settled takes what a check is against as what cells say of it.
func settled(s yearmap.States) yearmap.States {
	if s.Has(yearmap.Unsettled) {
		return s&^(1<<yearmap.Unsettled) | 1<<yearmap.Fitted
	}
	return s
}
