package finding

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ferrule/compiler/line"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// regions gives regions in the terms of a few traits, with and without each thing that they may say.
func regions(traits []*model.Trait) *rapid.Generator[*Region] {
	trait := rapid.SampledFrom(traits)
	number := rapid.Custom(func(t *rapid.T) *big.Int {
		if rapid.Bool().Draw(t, "none") {
			return nil
		}
		return new(big.Int).Lsh(big.NewInt(rapid.Int64().Draw(t, "number")), rapid.UintRange(0, 90).Draw(t, "shift"))
	})
	sets := rapid.Custom(func(t *rapid.T) []model.TraitSet {
		var out []model.TraitSet
		for range rapid.IntRange(0, 3).Draw(t, "sets") {
			set := model.TraitSet{Trait: trait.Draw(t, "trait"), Values: space.SetOf(rapid.SliceOf(rapid.IntRange(0, 130)).Draw(t, "values")...)}
			if rapid.Bool().Draw(t, "on a line") {
				set.Line = &model.Line{Not: rapid.Bool().Draw(t, "not"), Ranges: line.SetOf(line.Range{From: rapid.Int64Range(-9, 0).Draw(t, "from"), To: rapid.Int64Range(1, 1<<62).Draw(t, "to")})}
			}
			out = append(out, set)
		}
		return out
	})
	year := rapid.IntRange(model.FirstYear, model.LastYear)
	boxes := rapid.Custom(func(t *rapid.T) []model.Box {
		var out []model.Box
		for range rapid.IntRange(0, 3).Draw(t, "boxes") {
			b := model.Box{Traits: sets.Draw(t, "traits"), So: sets.Draw(t, "so")}
			if rapid.Bool().Draw(t, "years") {
				b.Years = []model.Span{}
			}
			for range rapid.IntRange(0, 2).Draw(t, "spans") {
				b.Years = append(b.Years, model.Span{From: year.Draw(t, "from"), To: year.Draw(t, "to")})
			}
			out = append(out, b)
		}
		return out
	})
	return rapid.Custom(func(t *rapid.T) *Region {
		r := &Region{Exact: rapid.Bool().Draw(t, "exact"), Configurations: number.Draw(t, "configurations"), Rest: number.Draw(t, "rest"),
			Where: boxes.Draw(t, "where"), Tight: boxes.Draw(t, "tight")}
		if n := number.Draw(t, "on the road"); n != nil {
			r.OnTheRoad = new(big.Rat).SetFrac(n, big.NewInt(rapid.Int64Range(1, 1<<40).Draw(t, "denominator")))
		}
		if rapid.Bool().Draw(t, "example") {
			r.Example = &model.Example{Year: year.Draw(t, "year")}
			for range rapid.IntRange(0, 4).Draw(t, "has") {
				r.Example.Traits = append(r.Example.Traits, model.TraitValue{Trait: trait.Draw(t, "trait"), Value: rapid.IntRange(0, 300).Draw(t, "value")})
			}
		}
		return r
	})
}

// same holds that two regions say the same: numbers by value, traits and lines by identity.
func same(t require.TestingT, want, got *Region) {
	require.Equal(t, want.OnTheRoad == nil, got.OnTheRoad == nil)
	if want.OnTheRoad != nil {
		require.Zero(t, want.OnTheRoad.Cmp(got.OnTheRoad))
	}
	for _, n := range [][2]*big.Int{{want.Configurations, got.Configurations}, {want.Rest, got.Rest}} {
		require.Equal(t, n[0] == nil, n[1] == nil)
		if n[0] != nil {
			require.Zero(t, n[0].Cmp(n[1]))
		}
	}
	require.Equal(t, want.Exact, got.Exact)
	require.Equal(t, want.Example, got.Example)
	require.Equal(t, want.Where, got.Where)
	require.Equal(t, want.Tight, got.Tight)
}

// TestPackedRegionsSayTheSame holds that what is packed comes out as it went in, whatever else
// was packed with it before and after.
func TestPackedRegionsSayTheSame(t *testing.T) {
	var traits []*model.Trait
	for i := range 70 {
		traits = append(traits, &model.Trait{Index: 69 - i})
	}
	rapid.Check(t, func(t *rapid.T) {
		in := rapid.SliceOfN(regions(traits), 1, 4).Draw(t, "regions")
		p := NewPacker()
		var packed []*Packed
		for _, r := range in {
			packed = append(packed, p.Pack(r))
		}
		for i, r := range in {
			require.Equal(t, r.Exact, packed[i].Exact)
			same(t, r, packed[i].Open())
		}
	})
}

func TestNoRegionIsPackedAsNone(t *testing.T) {
	assert.Nil(t, Pack(nil))
	assert.Nil(t, (*Packed)(nil).Open())
}

// TestARegionIsPackedSmall holds that a region as firms have them, two boxes and an example in eight traits, takes
// less than the numbers alone do in full.
func TestARegionIsPackedSmall(t *testing.T) {
	r := &Region{Exact: true, Configurations: big.NewInt(1152), OnTheRoad: big.NewRat(621, 2), Example: &model.Example{Year: 2008}}
	var sets []model.TraitSet
	for i := range 8 {
		trait := &model.Trait{Index: i}
		r.Example.Traits = append(r.Example.Traits, model.TraitValue{Trait: trait, Value: i % 4})
		sets = append(sets, model.TraitSet{Trait: trait, Values: space.Range(1, 3)})
	}
	r.Where = []model.Box{{Years: []model.Span{{From: 2004, To: 2012}}, Traits: sets[:4]}, {Traits: sets[3:]}}
	assert.LessOrEqual(t, len(Pack(r).said), 80)
}
