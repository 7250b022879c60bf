package measure

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestHas(t *testing.T) {
	yes := []string{
		// SAE J844, from memory; as decimals and in millimetres too.
		"1/8 in", "5/32 in", "3/16 in", "1/4 in", "5/16 in", "3/8 in", "1/2 in", "5/8 in", "3/4 in", "0.375 in", "12.7 mm",
		// DIN 74324 and ISO 7628, from memory; the wall makes no difference.
		"4x1 mm", "6x1 mm", "8x1 mm", "10x1 mm", "10x1.5 mm", "12x1.5 mm", "15x1.5 mm", "16x2 mm", "18x2 mm", "12 mm", "8x1.25 mm",
		// Common practice, no source.
		"13/32 in hose", "1 in hose", "13 mm hose",
	}
	for _, text := range yes {
		assert.True(t, Standard().Has(parse(t, text)), text)
	}
	no := []string{"7/16 in", "9 mm", "17 mm", "3/32 in hose", "1 in", "12 mm hose", "9.5 mm"}
	for _, text := range no {
		assert.False(t, Standard().Has(parse(t, text)) || Standard().Admits(parse(t, text)), text)
	}
	assert.False(t, Standard().Has(Size{}))
}

// A wall must be that of a row, or leave what metal tube must have inside.
func TestAdmits(t *testing.T) {
	for text, want := range map[string]bool{
		"8 mm": true, "8x1 mm": true, "8x1.25 mm": false, "10x1 mm": true, "10x1.5 mm": true, "10x1.25 mm": false, "12x1 mm": false,
		"1/4x0.04 in":   true,                        // SAE J844, from memory
		"1/4x0.05 in":   true,                        // leaves 0.15 in, the least of NAVEDTRA 14315, table 10-14
		"1/4x0.051 in":  false,                       // leaves 0.148 in
		"6.35x1.27 mm":  true,                        // 1/4 in and 0.05 in
		"5/32x0.032 in": true, "5/32x0.03 in": false, // no metal tube of that diameter is in the table
	} {
		assert.Equal(t, want, Standard().Admits(parse(t, text)), text)
	}
}

// A workbook's rows stand beside the built-in ones.
func TestNewTable(t *testing.T) {
	own := Row{System: "ours", Size: parse(t, "17x2 mm"), Tolerance: big.NewRat(1, 5), Source: "drawing 7"}
	more := NewTable(own, Row{System: "ours", Size: parse(t, "12x2 mm"), Source: "drawing 8"})
	assert.Len(t, more.Rows(), len(Standard().Rows())+2)
	assert.True(t, more.Admits(parse(t, "17 mm")) && more.Admits(parse(t, "17x2 mm")) && !more.Admits(parse(t, "17x1 mm")))
	assert.True(t, more.Admits(parse(t, "12x2 mm")) && more.Admits(parse(t, "12x1.5 mm")))
	assert.Equal(t, []string{"17 mm (0.669 in)", "18 mm (0.709 in)"}, said(more.Near(parse(t, "17.3 mm"))))
	assert.True(t, more.NearMiss(parse(t, "16.8 mm"), parse(t, "17 mm")), "within the tolerance of the row")
	assert.False(t, Standard().NearMiss(parse(t, "16.8 mm"), parse(t, "17 mm")))
	assert.False(t, Standard().Has(parse(t, "17 mm")), "the built-in tables are as they were")
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
		assert.True(t, s.Equal(parse(t, text)) && Standard().Has(s), stored)
	}
	third, err := ParseSizeIn("0.3333333333333333", Inch, Options{})
	require.NoError(t, err)
	assert.False(t, Standard().Has(third), "a rounded third is no nominal size")
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
		assert.Equal(t, want, said(Standard().Near(parse(t, text))), text)
	}
}

// The pairs and percentages are computed from 1 in = 25.4 mm.
func TestNearMiss(t *testing.T) {
	for _, pair := range [][2]string{{"5/32 in", "4 mm"}, {"5/16 in", "8 mm"}, {"5/8 in", "16 mm"}} {
		a, b := parse(t, pair[0]), parse(t, pair[1])
		assert.True(t, Standard().NearMiss(a, b) && Standard().NearMiss(b, a), pair)
		assert.Equal(t, big.NewRat(127, 128), new(big.Rat).Quo(a.MM(), b.MM()), pair)
		assert.Equal(t, "-0.78", offPercent(a, b), pair)
	}
	apart := [][2]string{{"1/2 in", "12.7 mm"}, {"5/16 in", "8 mm hose"}, {"99 mm", "100.01 mm"}, {"8x1 mm", "8x1.25 mm"}}
	for _, pair := range [][2]string{{"3/16 in", "5 mm"}, {"3/8 in", "10 mm"}, {"3/4 in", "20 mm"}} {
		assert.Equal(t, "-4.75", offPercent(parse(t, pair[0]), parse(t, pair[1])), pair)
		apart = append(apart, pair)
	}
	for _, pair := range [][2]string{{"1/8 in", "3 mm"}, {"1/4 in", "6 mm"}, {"1/2 in", "12 mm"}, {"3/4 in", "18 mm"}} {
		assert.Equal(t, "5.83", offPercent(parse(t, pair[0]), parse(t, pair[1])), pair)
		apart = append(apart, pair)
	}
	for _, pair := range apart {
		assert.False(t, Standard().NearMiss(parse(t, pair[0]), parse(t, pair[1])), pair)
	}
	assert.True(t, Standard().NearMiss(parse(t, "99 mm"), parse(t, "100 mm")), "1 % exactly")
}

// offPercent is how far a is from b, in percent of b with two decimals.
func offPercent(a, b Size) string {
	off := new(big.Rat).Quo(new(big.Rat).Sub(a.MM(), b.MM()), b.MM())
	return off.Mul(off, big.NewRat(100, 1)).FloatString(2)
}

// No two nominal tubes of one system are a near miss, or the tables would warn of
// themselves; across the systems the three pairs are, and no other.
func TestNearMissesOfTheTables(t *testing.T) {
	var pairs []string
	rows := Standard().Rows()
	for i, a := range rows {
		for _, b := range rows[:i] {
			if text := b.Size.Text + " and " + a.Size.Text; a.Size.Line == Tube && Standard().NearMiss(a.Size, b.Size) && a.System != "metal tube" && b.System != "metal tube" {
				pairs = append(pairs, text)
			}
		}
	}
	assert.Equal(t, []string{"5/32x0.032 in and 4x1 mm", "5/16x0.04 in and 8x1 mm", "5/8x0.092 in and 16x2 mm"}, pairs)
}

func TestRounded(t *testing.T) {
	for text, want := range map[string]string{
		"0.312 in": "5/16 in (7.938 mm)", "7.94 mm": "5/16 in (7.938 mm)", "0.313x0.04 in": "5/16 in (7.938 mm)",
		"8 mm": "", "5/16 in": "", "7.9375 mm": "", "17 mm": "", "6.4 mm": "", "0.75 in hose": "", "19.1 mm hose": "3/4 in hose (19.05 mm)",
	} {
		got, ok := Rounded(parse(t, text))
		assert.Equal(t, want != "", ok, text)
		assert.Equal(t, want, got.String(), text)
	}
}

// Inside diameters and areas of flow, (ID1/ID2)², computed: ID = OD − 2 × wall.
func TestInside(t *testing.T) {
	six := parse(t, "6x1 mm").Inside()
	assert.Zero(t, six.Cmp(big.NewRat(4, 1)))
	for text, want := range map[string]*big.Rat{
		"8x1 mm": big.NewRat(225, 100), "10x1 mm": big.NewRat(4, 1), "12x1.5 mm": big.NewRat(50625, 10000), "16x2 mm": big.NewRat(9, 1),
	} {
		ratio := new(big.Rat).Quo(parse(t, text).Inside(), six)
		assert.Zero(t, ratio.Mul(ratio, ratio).Cmp(want), text)
	}
	assert.Zero(t, parse(t, "1/4x0.04 in").Inside().Cmp(big.NewRat(17*254, 1000)), "0.17 in")
	assert.Zero(t, parse(t, "1/2 in hose").Inside().Cmp(big.NewRat(127, 10)))
	assert.Nil(t, parse(t, "8 mm").Inside())
	assert.Nil(t, parse(t, "8 mm").WallMM())
	assert.Nil(t, Size{}.Inside())
}

func TestApart(t *testing.T) {
	for pair, want := range map[[2]string]string{
		{"5/16 in", "8x1 mm"}:         "5/16 in (7.938 mm) and 8x1 mm are 0.06 mm apart",
		{"4 mm", "5/32 in"}:           "4 mm and 5/32 in (3.969 mm) are 0.03 mm apart",
		{"19 mm hose", "3/4 in hose"}: "19 mm hose and 3/4 in hose (19.05 mm) are 0.05 mm apart",
		{"8 mm", "8.0004 mm"}:         "8 mm and 8.0004 mm are 0.0004 mm apart",
		{"8x1 mm", "8x1.25 mm"}:       "8x1 mm and 8x1.25 mm are 0 mm apart",
	} {
		assert.Equal(t, want, Apart(parse(t, pair[0]), parse(t, pair[1])))
	}
}
