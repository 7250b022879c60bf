package model

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ferrule/compiler/space"
)

func trait(name string, values ...string) *Trait {
	t := &Trait{Name: name}
	for _, v := range values {
		t.Values = append(t.Values, &Value{Name: v})
	}
	return t
}

func TestBoxWords(t *testing.T) {
	front := trait("Suspension", "Air", "Steel", "Rubber", "Walking beam")
	lift := trait("Lift axle", "Pusher", "Tag")
	eight := trait("Colour", "a", "b", "c", "d", "e", "f", "g", "h")
	one := trait("Cab", "Long")
	for want, box := range map[string]Box{
		"all":                      {},
		"2004":                     {Years: []Span{{2004, 2004}}},
		"2004, 2007 to 2012":       {Years: []Span{{2004, 2004}, {2007, 2012}}},
		"Suspension Air":           {Traits: []TraitSet{{Trait: front, Values: space.SetOf(0)}}},
		"Suspension Air or Rubber": {Traits: []TraitSet{{Trait: front, Values: space.SetOf(0, 2)}}},
		"any Suspension but Steel": {Traits: []TraitSet{{Trait: front, Values: space.SetOf(0, 2, 3)}}},
		"any Suspension but Steel, or does not apply": {Traits: []TraitSet{{Trait: front, Values: space.SetOf(0, 2, 3, 4)}}},
		"any Suspension":                              {Traits: []TraitSet{{Trait: front, Values: space.SetOf(0, 1, 2, 3)}}},
		"Suspension does not apply":                   {Traits: []TraitSet{{Trait: front, Values: space.SetOf(4)}}},
		"Lift axle Tag, or does not apply":            {Traits: []TraitSet{{Trait: lift, Values: space.SetOf(1, 2)}}},
		"Colour a, b, d or h":                         {Traits: []TraitSet{{Trait: eight, Values: space.SetOf(0, 1, 3, 7)}}},
		"any Colour but c, d and g":                   {Traits: []TraitSet{{Trait: eight, Values: space.SetOf(0, 1, 4, 5, 7)}}},
		"any Cab":                                     {Traits: []TraitSet{{Trait: one, Values: space.SetOf(0)}}},
		"2004 to 2005, Suspension Air, any Lift axle": {Years: []Span{{2004, 2005}}, Traits: []TraitSet{{Trait: front, Values: space.SetOf(0)}, {Trait: lift, Values: space.SetOf(0, 1)}}},
	} {
		assert.Equal(t, want, box.String())
	}
}

// TestWordsTellApart holds that two conditions on a trait never read the same.
func TestWordsTellApart(t *testing.T) {
	for n := 1; n <= 6; n++ {
		tr := trait("T", []string{"A", "B", "C", "D", "E", "F"}[:n]...)
		seen := map[string]space.Set{}
		for mask := 1; mask < 1<<(n+1)-1; mask++ {
			var set space.Set
			for i := range n + 1 {
				if mask>>i&1 == 1 {
					set = set.Or(space.SetOf(i))
				}
			}
			words := TraitSet{Trait: tr, Values: set}.String()
			other, twice := seen[words]
			require.False(t, twice, "%q is said of %s and of %s", words, set, other)
			seen[words] = set
		}
	}
}

func TestExampleWords(t *testing.T) {
	front, lift := trait("Suspension", "Air", "Steel"), trait("Lift axle", "Pusher")
	assert.Equal(t, "2009, Suspension Steel", (&Example{2009, []TraitValue{{front, 1}, {lift, lift.Absent()}}}).String())
	assert.Equal(t, "2009", (&Example{Year: 2009}).String())
}

func TestSpansPassOverHoles(t *testing.T) {
	p := &Platform{Years: []int{2001, 2002, 2005, 2006, 2009}}
	for _, c := range []struct {
		set  space.Set
		want []Span
	}{
		{space.SetOf(), nil},
		{space.SetOf(0), []Span{{2001, 2001}}},
		{space.SetOf(1, 2), []Span{{2002, 2005}}},
		{space.SetOf(0, 2, 3), []Span{{2001, 2001}, {2005, 2006}}},
		{space.All(5), []Span{{2001, 2009}}},
	} {
		assert.Equal(t, c.want, p.Spans(c.set))
	}
}

// TestSpansHoldTheSet holds that the ranges hold the set's years and no other year of
// the platform, ascend, and cannot be joined.
func TestSpansHoldTheSet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := &Platform{}
		var set space.Set
		in := map[int]bool{}
		for y := 2000; y < 2000+rapid.IntRange(1, 70).Draw(t, "years"); y++ {
			if rapid.IntRange(0, 4).Draw(t, "hole") == 0 {
				continue
			}
			if rapid.Bool().Draw(t, "in") {
				set, in[y] = set.Or(space.SetOf(len(p.Years))), true
			}
			p.Years = append(p.Years, y)
		}
		spans := p.Spans(set)
		condition := &Years{Spans: spans}
		for _, y := range p.Years {
			require.Equal(t, in[y], condition.Has(y), "%d in %s", y, SpanWords(spans))
		}
		for i, s := range spans {
			require.LessOrEqual(t, s.From, s.To)
			require.True(t, in[s.From] && in[s.To])
			if i > 0 {
				between := &Years{Spans: []Span{{spans[i-1].To + 1, s.From - 1}}}
				var left int
				for _, y := range p.Years {
					if between.Has(y) {
						left++
					}
				}
				require.Positive(t, left, "%s could be joined", SpanWords(spans))
			}
		}
	})
}
