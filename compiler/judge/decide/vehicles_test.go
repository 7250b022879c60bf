package decide_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// world is a platform of four years with two traits, the first and the third of its
// catalogue; of the first the value 1 does not occur.
type world struct {
	guide  *decide.Guide
	traits []*model.Trait
}

// config is a configuration: the index of a year, and a value of each trait.
type config [3]int

// numbers are those that a Finder has for what a configuration is made of.
func numbers() []int { return []int{0, 1, 3} }

func newWorld() *world {
	trait := func(index int) *model.Trait { return &model.Trait{Index: index, Values: make([]*model.Value, 3)} }
	w := &world{traits: []*model.Trait{trait(0), trait(2)}}
	w.guide = &decide.Guide{
		Platform: &model.Platform{Years: []int{2004, 2005, 2007, 2008}},
		Traits:   []model.TraitSet{{Trait: w.traits[0], Values: space.SetOf(0, 2, 3)}, {Trait: w.traits[1], Values: space.All(4)}},
	}
	return w
}

// configs gives the configurations of some boxes whose values occur.
func (w *world) configs(boxes ...model.Box) []config {
	var out []config
	for year := range 4 {
		for _, a := range []int{0, 2, 3} {
			for b := range 4 {
				if c := (config{year, a, b}); w.in(boxes, c) {
					out = append(out, c)
				}
			}
		}
	}
	return out
}

// in tells by the words of boxes alone whether one of them holds a configuration.
func (w *world) in(boxes []model.Box, c config) bool {
	return slices.ContainsFunc(boxes, func(b model.Box) bool {
		for i := range c {
			if !w.allows(b, i, c[i]) {
				return false
			}
		}
		return true
	})
}

// allows tells whether a box leaves a year or a value possible, whatever else it says.
func (w *world) allows(b model.Box, i, value int) bool {
	if i == 0 {
		year := w.guide.Platform.Years[value]
		return b.Years == nil || slices.ContainsFunc(b.Years, func(s model.Span) bool { return s.From <= year && year <= s.To })
	}
	return !slices.ContainsFunc(b.Traits, func(t model.TraitSet) bool { return t.Trait == w.traits[i-1] && !t.Values.Has(value) })
}

// boxes draws boxes of which each holds a value that occurs; with besides, of others too.
func (w *world) boxes(t *rapid.T, least int, besides ...int) []model.Box {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) model.Box {
		var b model.Box
		if rapid.Bool().Draw(t, "years") {
			from := rapid.SampledFrom(w.guide.Platform.Years).Draw(t, "from")
			b.Years = []model.Span{{From: from, To: rapid.IntRange(from, 2009).Draw(t, "to")}}
		}
		for _, has := range w.guide.Traits {
			if rapid.Bool().Draw(t, "restricts") {
				b.Traits = append(b.Traits, model.TraitSet{Trait: has.Trait, Values: some(t, has.Values).Or(space.SetOf(besides...))})
			}
		}
		return b
	}), least, 3).Draw(t, "boxes")
}

// some draws one or more of the values of a set.
func some(t *rapid.T, of space.Set) space.Set {
	return space.SetOf(rapid.SliceOfN(rapid.SampledFrom(slices.Collect(of.Values())), 1, 3).Draw(t, "values")...)
}

// values lists what configurations have in one respect.
func values(cs []config, i int) []int {
	var out []int
	for _, c := range cs {
		out = append(out, c[i])
	}
	slices.Sort(out)
	return slices.Compact(out)
}

func list(in decide.Values) []int { return slices.Collect(space.Set(in).Values()) }

// Vehicles say of their boxes what is true of the configurations in them.
func TestVehicles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := newWorld()
		w.guide.Vehicles = w.boxes(t, 0)
		all := w.configs(w.guide.Vehicles...)
		w.same(t, w.guide.Exist(), all, model.Box{})

		b := w.boxes(t, 1, 1)[0]
		here := slices.DeleteFunc(slices.Clone(all), func(c config) bool { return !w.in([]model.Box{b}, c) })
		w.same(t, w.guide.Exist().Among(b), here, b)

		i := rapid.IntRange(1, 2).Draw(t, "trait")
		chosen := model.Box{Traits: []model.TraitSet{{Trait: w.traits[i-1], Values: some(t, w.guide.Traits[i-1].Values)}}}
		with := slices.DeleteFunc(slices.Clone(all), func(c config) bool { return !w.in([]model.Box{chosen}, c) })
		w.same(t, w.guide.Exist().With(numbers()[i], decide.Values(chosen.Traits[0].Values)), with, chosen)
	})
}

// same holds vehicles that a box chose against configurations.
func (w *world) same(t *rapid.T, got decide.Vehicles, want []config, by model.Box) {
	require.Equal(t, len(want) == 0, got.None())
	said := w.configs(by)
	for i, trait := range numbers() {
		is := values(want, i)
		require.Equal(t, is, list(got.Possible(trait)))
		require.Equal(t, len(is) < len(list(w.guide.Occur(trait))), got.Restrict(trait))
		in, follows := got.Follows(trait)
		require.Equal(t, is, list(in))
		require.Equal(t, len(is) < len(values(said, i)), follows)
		var each []int
		for _, box := range got.Boxes() {
			each = append(each, list(box.Possible(trait))...)
		}
		slices.Sort(each)
		require.Equal(t, is, slices.Compact(each))
	}
}

// Vehicles meet boxes that hold one of them, and are inside of one box that leaves nothing
// out that is possible on any of them.
func TestVehiclesAndBoxes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := newWorld()
		w.guide.Vehicles = w.boxes(t, 1)
		v, all := w.guide.Exist(), w.configs(w.guide.Vehicles...)
		boxes := w.boxes(t, 1, 1)
		require.Equal(t, slices.ContainsFunc(all, func(c config) bool { return w.in(boxes, c) }), v.Meet(w.guide.Of(boxes...)))
		inside := slices.ContainsFunc(boxes, func(b model.Box) bool {
			for i := range numbers() {
				if slices.ContainsFunc(values(all, i), func(value int) bool { return !w.allows(b, i, value) }) {
					return false
				}
			}
			return true
		})
		require.Equal(t, inside, v.Inside(w.guide.Of(boxes...)))
	})
}

func TestVehiclesOfNoBoxes(t *testing.T) {
	w := newWorld()
	assert.False(t, w.guide.Exist().Meet(w.guide.Of()), "nothing is known to exist")
	w.guide.Vehicles = []model.Box{{}}
	assert.True(t, w.guide.Exist().Meet(w.guide.Of()), "no boxes are everything")
	assert.True(t, w.guide.Exist().Inside(w.guide.Of()))
	assert.Empty(t, w.guide.Occur(2), "no vehicle has the trait")
	assert.Equal(t, []model.Span{{From: 2005, To: 2005}, {From: 2007, To: 2008}}, w.guide.Years(decide.Values(space.SetOf(1, 2, 3))))
}
