package model

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"github.com/stretchr/testify/require"
)

var (
	d1 = &Part{Number: "D-1"}
	d2 = &Part{Number: "D-2"}
	k2 = &Part{Number: "K-2", Contents: []Component{{Part: d2, Quantity: 3}}}
	k1 = &Part{Number: "K-1", Contents: []Component{{Part: k2, Quantity: 1}, {Part: d1, Quantity: 2}}}
)

func fitted(as ...Alternative) *Fits { return &Fits{Outcome: Fitted, Alternatives: as} }

// TestAgree holds which cells say the same where the position takes two.
func TestAgree(t *testing.T) {
	damper := &Position{Name: "Damper"}
	for name, c := range map[string]struct {
		a, b  *Fits
		agree bool
	}{
		"quantity filled in":     {fitted(Alternative{{d1, 0}}), fitted(Alternative{{d1, 2}}), true},
		"another quantity":       {fitted(Alternative{{d1, 0}}), fitted(Alternative{{d1, 1}}), false},
		"order of +":             {fitted(Alternative{{d1, 1}, {d2, 2}}), fitted(Alternative{{d2, 2}, {d1, 1}}), true},
		"added up":               {fitted(Alternative{{d1, 1}, {d1, 1}}), fitted(Alternative{{d1, 2}}), true},
		"order of or":            {fitted(Alternative{{d1, 0}}, Alternative{{d2, 0}}), fitted(Alternative{{d2, 0}}, Alternative{{d1, 0}}), false},
		"one choice more":        {fitted(Alternative{{d1, 0}}), fitted(Alternative{{d1, 0}}, Alternative{{d2, 0}}), false},
		"or is not +":            {fitted(Alternative{{d1, 1}, {d2, 1}}), fitted(Alternative{{d1, 1}}, Alternative{{d2, 1}}), false},
		"a kit is not its parts": {fitted(Alternative{{k2, 1}}), fitted(Alternative{{d2, 3}}), false},
		"reasons":                {&Fits{Outcome: None, Text: "no mounts"}, &Fits{Outcome: None}, true},
		"none and planned":       {&Fits{Outcome: None}, &Fits{Outcome: Planned}, false},
		"planned and ask":        {&Fits{Outcome: Planned}, &Fits{Outcome: Ask}, false},
		"with":                   {&Fits{Outcome: Fitted, With: damper}, &Fits{Outcome: Fitted, With: damper}, true},
		"with another":           {&Fits{Outcome: Fitted, With: damper}, &Fits{Outcome: Fitted, With: &Position{Name: "Tag damper"}}, false},
	} {
		assert.Equal(t, c.agree, c.a.Key(2) == c.b.Key(2), name)
	}
}

// TestFilledAddsUp holds that filling in keeps the number of each part, and names each
// once.
func TestFilledAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := rapid.IntRange(1, 9).Draw(t, "quantity")
		a := Alternative(rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Item {
			return Item{rapid.SampledFrom([]*Part{d1, d2, k1}).Draw(t, "part"), rapid.IntRange(0, 3).Draw(t, "n")}
		}), 1, 6).Draw(t, "items"))
		want := map[*Part]int{}
		for _, i := range a {
			want[i.Part] += i.Count(q)
		}
		got := map[*Part]int{}
		for _, i := range a.Filled(q) {
			require.Zero(t, got[i.Part])
			got[i.Part] = i.Quantity
		}
		require.Equal(t, want, got)
	})
}

func TestPartsOfKits(t *testing.T) {
	var got []string
	fitted(Alternative{{d1, 0}}, Alternative{{k1, 1}, {d2, 1}}).Parts(func(p *Part) { got = append(got, p.Number) })
	assert.Equal(t, []string{"D-1", "K-1", "K-2", "D-2"}, got)
	got = nil
	k2.Within(func(p *Part) { got = append(got, p.Number) })
	assert.Equal(t, []string{"K-2", "D-2"}, got)
}

func TestRuleIsAbout(t *testing.T) {
	part := &Part{Number: "D-1", Family: "Road  Damper"}
	for _, c := range []struct {
		rule Rule
		want bool
	}{
		{Rule{Part: part}, true},
		{Rule{Part: d2}, false},
		{Rule{Family: "road damper"}, true},
		{Rule{Family: "Bushing"}, false},
		{Rule{Part: part, Family: "Road damper"}, true},
		{Rule{Part: part, Family: "Bushing"}, false},
		{Rule{Part: d2, Family: "Road damper"}, false},
	} {
		assert.Equal(t, c.want, c.rule.About(part), "%+v", c.rule)
	}
}
