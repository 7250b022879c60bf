package judge_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/judge"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// TestARuleOfRaggedVehicles holds that what a guide says of a compatibility row leaves out
// none of its vehicles where they stand so ragged that it takes too many boxes to list them.
func TestARuleOfRaggedVehicles(t *testing.T) {
	const values = 30
	r := rand.New(rand.NewPCG(1, 2))
	cat := shape{platforms: 1, traits: 3, values: values, positions: 1, rows: 2, seed: 3}.make()
	cat.Vehicles, cat.Fitments = nil, nil
	var vehicles [][]int
	for range 3000 {
		v := &model.Vehicles{When: model.When{Platforms: cat.Platforms}}
		var at []int
		for _, trait := range cat.Traits {
			at = append(at, r.IntN(values))
			v.When.Traits = append(v.When.Traits, model.TraitSet{Trait: trait, Values: space.SetOf(at[len(at)-1])})
		}
		cat.Vehicles, vehicles = append(cat.Vehicles, v), append(vehicles, at)
	}
	rule := &model.Rule{Part: cat.Parts[0], Effect: model.Forbid}
	for _, trait := range cat.Traits {
		rule.When.Traits = append(rule.When.Traits, model.TraitSet{Trait: trait, Values: space.SetOf(r.Perm(values)[:values/2]...)})
	}
	cat.Rules = []*model.Rule{rule}
	_, guides := findings(t, cat, judge.Options{Cases: true})
	require.Len(t, guides, 1)
	require.Len(t, guides[0].Rules, 1)
	where := guides[0].Rules[0].Where
	require.NotEmpty(t, where)
	for _, at := range vehicles {
		in := slices.ContainsFunc(where, func(b model.Box) bool { return holds(b.Traits, at) })
		assert.Equal(t, holds(rule.When.Traits, at), in, at)
	}
}

// holds tells whether a vehicle has a value of each set.
func holds(sets []model.TraitSet, at []int) bool {
	return !slices.ContainsFunc(sets, func(s model.TraitSet) bool { return !s.Values.Has(at[s.Trait.Index]) })
}
