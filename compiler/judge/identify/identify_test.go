package identify_test

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/judge/identify"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// heron is a platform on which a part depends on two traits, either of which settles
// one kind of vehicle by itself: 30 configurations of air, 10 of steel with the small
// pin, 10 of steel with the large one.
func heron(tell string, airOnRoad, smallOnRoad, largeOnRoad int64) *model.Catalogue {
	cat := &model.Catalogue{}
	pl := &model.Platform{Name: "Heron"}
	for y := 2001; y <= 2010; y++ {
		pl.Years = append(pl.Years, y)
	}
	cat.Platforms = []*model.Platform{pl}
	value := func(name, tell string) *model.Value {
		return &model.Value{Name: name, Tell: []model.Tell{{Text: tell}}}
	}
	spring := &model.Trait{Name: "Spring", Effort: 1, Values: []*model.Value{value("Air", "look"), value("Steel", "look")}}
	pin := &model.Trait{Index: 1, Name: "Pin", Effort: 1, Values: []*model.Value{value("Small", tell), value("Large", tell)}}
	cat.Traits = []*model.Trait{spring, pin}
	row := func(springs, pins space.Set, road int64) {
		v := &model.Vehicles{When: model.When{Traits: []model.TraitSet{{Trait: spring, Values: springs}, {Trait: pin, Values: pins}}}}
		if road >= 0 {
			v.Road = model.Number{Rat: big.NewRat(road, 1)}
		}
		cat.Vehicles = append(cat.Vehicles, v)
	}
	row(space.SetOf(0), space.SetOf(0, 1, 2), airOnRoad)
	row(space.SetOf(1), space.SetOf(0), smallOnRoad)
	row(space.SetOf(1), space.SetOf(1), largeOnRoad)
	return cat
}

// ask gives the questions where the part differs by the spring, and for steel by the
// pin.
func ask(t *testing.T, cat *model.Catalogue) (*decide.Platform, decide.Questions) {
	p, err := decide.NewPlatform(decide.NewIndex(cat), cat.Platforms[0], nil, 0)
	require.NoError(t, err)
	steel := p.Box(space.Box{nil, space.SetOf(1)})
	classes := []space.Region{
		p.Minus(p.All, steel),
		p.Intersect(p.All, p.Intersect(steel, p.Box(space.Box{nil, nil, space.SetOf(0)}))),
		p.Intersect(p.All, p.Intersect(steel, p.Box(space.Box{nil, nil, space.SetOf(1)}))),
		space.Empty,
	}
	return p, identify.On(p).Place(classes, decide.Mention{false, true, true})
}

func TestConfigurationsWeighWhereNothingIsStated(t *testing.T) {
	_, q := ask(t, heron("look", -1, -1, -1))
	require.True(t, q.Exact)
	assert.Equal(t, 1, q.Tree.Trait, "the spring first: 30 of 50 are then known")
	assert.Equal(t, "7/5", q.Expected.RatString(), "one question for 30, two for 20")
}

func TestVehiclesOnTheRoadWeigh(t *testing.T) {
	_, q := ask(t, heron("look", 0, 60, 40))
	assert.Equal(t, 1, q.Tree.Trait, "steel takes two questions in any order, and more configurations are of air")
	assert.Equal(t, "2", q.Expected.RatString(), "what is not on the road counts nothing")
	_, q = ask(t, heron("look", 300, 60, -1))
	assert.Equal(t, "7/6", q.Expected.RatString())
}

func TestEffortDecidesTheOrder(t *testing.T) {
	cat := heron("look", -1, -1, -1)
	cat.Traits[0].Effort = 5
	_, q := ask(t, cat)
	assert.Equal(t, 2, q.Tree.Trait, "the pin spares the spring for 10 of 50")
	assert.Equal(t, "5", q.Expected.RatString())
	cat.Traits[1].Values[0].Tell = append(cat.Traits[1].Values[0].Tell, model.Tell{Platform: cat.Platforms[0], Effort: 4})
	p, q := ask(t, cat)
	assert.Equal(t, []int{1, 5, 4}, identify.On(p).Asking.Effort)
	assert.Equal(t, 1, q.Tree.Trait)
	assert.Equal(t, "33/5", q.Expected.RatString(), "5, and 4 more for 20 of 50")
}

// What nobody can see is not asked: the end holds both parts.
func TestWhatCannotBeToldIsNotAsked(t *testing.T) {
	_, q := ask(t, heron("", -1, -1, -1))
	require.Len(t, q.Tree.Branches, 2)
	assert.Equal(t, []int{0}, q.Tree.Branches[0].Next.Classes)
	assert.Equal(t, []int{1, 2}, q.Tree.Branches[1].Next.Classes)
}

func TestWhole(t *testing.T) {
	cat := heron("look", -1, -1, -1)
	p, q := ask(t, cat)
	on := identify.On(p)
	f := on.Whole([]*decide.Answer{{Questions: q}, {}})
	assert.Equal(t, []int{1, 2}, f.Order)
	assert.Equal(t, []int{1, 1, 1}, f.Effort)
	assert.Nil(t, on.Whole([]*decide.Answer{{}}).Order, "nothing to ask")
}

// Positions whose vehicles are split alike cost one search.
func TestPositionsShareSearches(t *testing.T) {
	cat := heron("look", -1, -1, -1)
	p, err := decide.NewPlatform(decide.NewIndex(cat), cat.Platforms[0], nil, 0)
	require.NoError(t, err)
	on := identify.On(p)
	air := p.Intersect(p.All, p.Box(space.Box{nil, space.SetOf(0)}))
	steel := p.Minus(p.All, air)
	first := on.Place([]space.Region{air, steel}, decide.Mention{false, true, true})
	second := on.Place([]space.Region{steel, space.Empty, air}, decide.Mention{false, true, true})
	assert.Equal(t, 1, on.Asking.Shared.Searches())
	assert.Equal(t, first.Expected, second.Expected)
	assert.Equal(t, first.Expected, first.Least, "one question settles it, and none would not")
}
