package measure

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestNominal(t *testing.T) {
	yes := []string{
		// SAE J844, from memory; as decimals and in millimetres too.
		"1/8 in", "5/32 in", "3/16 in", "1/4 in", "5/16 in", "3/8 in", "1/2 in", "5/8 in", "3/4 in", "0.375 in", "12.7 mm",
		// DIN 74324 and ISO 7628, from memory; the wall makes no difference.
		"4x1 mm", "6x1 mm", "8x1 mm", "10x1 mm", "10x1.5 mm", "12x1.5 mm", "15x1.5 mm", "16x2 mm", "18x2 mm", "12 mm", "8x1.25 mm",
		// Common practice, no source.
		"13/32 in hose", "1 in hose", "13 mm hose",
	}
	for _, text := range yes {
		assert.True(t, Nominal(parse(t, text)), text)
	}
	no := []string{"7/16 in", "9 mm", "14 mm", "3/32 in hose", "1 in", "12 mm hose", "9.5 mm"}
	for _, text := range no {
		assert.False(t, Nominal(parse(t, text)), text)
	}
}

// NAVEDTRA 14315, table 10-14: the outside diameters of metal tube that are nominal
// for tubing as well.
func TestNominalNavy(t *testing.T) {
	for _, text := range []string{"1/8 in", "3/16 in", "1/4 in", "5/16 in", "3/8 in", "1/2 in", "5/8 in", "3/4 in"} {
		assert.True(t, Nominal(parse(t, text)), text)
	}
}

// A spreadsheet that shows a stored 0.3125 as a fraction with one digit shows 1/3: only
// the stored value is the size.
func TestStoredNumberIsTheFraction(t *testing.T) {
	for stored, text := range map[string]string{
		"0.125": "1/8 in", "0.15625": "5/32 in", "0.1875": "3/16 in", "0.25": "1/4 in", "0.3125": "5/16 in",
		"0.375": "3/8 in", "0.5": "1/2 in", "0.625": "5/8 in", "0.75": "3/4 in",
	} {
		s, err := ParseSizeIn(stored, Inch, Options{})
		require.NoError(t, err)
		assert.True(t, s.Equal(parse(t, text)) && Nominal(s), stored)
	}
	third, err := ParseSizeIn("0.3333333333333333", Inch, Options{})
	require.NoError(t, err)
	assert.False(t, Nominal(third) || third.Equal(parse(t, "1/3 in")), "a rounded third is no third")
}

func said(sizes []Size) []string {
	out := []string{}
	for _, s := range sizes {
		out = append(out, s.String())
	}
	return out
}

func TestNear(t *testing.T) {
	for text, want := range map[string][]string{
		"7.9 mm":      {"5/16 in (7.938 mm)", "8 mm (0.315 in)"},
		"5/16 in":     {"8 mm (0.315 in)"},
		"3 mm":        {"1/8 in (3.175 mm)"}, // +5.83 %, computed
		"9.8 mm":      {"10 mm (0.394 in)", "3/8 in (9.525 mm)"},
		"0.5 in hose": {"13 mm hose (0.512 in)"},
		"7 mm":        {},
		"2 in":        {},
	} {
		assert.Equal(t, want, said(Near(parse(t, text))), text)
	}
}

// The pairs and percentages are computed from 1 in = 25.4 mm.
func TestNearMiss(t *testing.T) {
	for _, pair := range [][2]string{{"5/32 in", "4 mm"}, {"5/16 in", "8 mm"}, {"5/8 in", "16 mm"}} {
		a, b := parse(t, pair[0]), parse(t, pair[1])
		assert.True(t, NearMiss(a, b) && NearMiss(b, a), pair)
		assert.Zero(t, new(big.Rat).Quo(a.MM(), b.MM()).Cmp(big.NewRat(127, 128)), pair)
	}
	apart := [][2]string{
		{"3/16 in", "5 mm"}, {"3/8 in", "10 mm"}, {"3/4 in", "20 mm"}, // −4.75 %
		{"1/8 in", "3 mm"}, {"1/4 in", "6 mm"}, {"1/2 in", "12 mm"}, {"3/4 in", "18 mm"}, // +5.83 %
		{"1/2 in", "12.7 mm"}, {"5/16 in", "8 mm hose"}, {"99 mm", "100.01 mm"},
	}
	for _, pair := range apart {
		assert.False(t, NearMiss(parse(t, pair[0]), parse(t, pair[1])), pair)
	}
	assert.True(t, NearMiss(parse(t, "99 mm"), parse(t, "100 mm")), "1 % exactly")
}
