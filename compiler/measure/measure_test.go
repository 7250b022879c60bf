package measure

import (
	"fmt"
	"math/big"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestEqual(t *testing.T) {
	// One inch is exactly 25.4 mm (NIST SP 811 (2008), appendix B.8).
	same := [][]string{
		{"0.5 in", `1/2"`, "½ in", "12.7 mm", "4/8 in", "12.70 mm"},
		{"1/2 in hose", "12.7 mm hose", `1/2" ID`},
		{"8 mm", "8x1 mm", "8.0 mm"},
		{"1/8 in", "3.175 mm"},
		{"5/32 in", "3.96875 mm"},
	}
	for i, group := range same {
		for j, other := range same {
			for _, a := range group {
				for _, b := range other {
					x, y := parse(t, a), parse(t, b)
					assert.Equal(t, i == j, x.Equal(y), "%s and %s", a, b)
				}
			}
		}
	}
	// Exactly apart, though near: 127/128.
	assert.False(t, parse(t, "5/16 in").Equal(parse(t, "8 mm")))
	// 49 CFR 571.106, S4: a hose by its inside, plastic tubing by its outside diameter.
	assert.False(t, parse(t, "1/2 in").Equal(parse(t, "1/2 in hose")))
	assert.NotEqual(t, parse(t, "1/2 in").Key(), parse(t, "1/2 in hose").Key())
	// Walls count only where both are stated.
	assert.False(t, parse(t, "10x1 mm").Equal(parse(t, "10x1.5 mm")))
	assert.Equal(t, parse(t, "10x1 mm").Key(), parse(t, "10x1.5 mm").Key())
	assert.True(t, parse(t, "8x1.5 mm").Equal(parse(t, "8 mm x 1.5 mm")))
	assert.True(t, parse(t, "25.4x1.27 mm").Equal(parse(t, "1x0.05 in")))
}

func TestUnknownSizeEqualsNothing(t *testing.T) {
	var none Size
	assert.False(t, none.Equal(none))
	assert.False(t, none.Equal(parse(t, "1/2 in")))
	assert.False(t, Size{Num: big.NewRat(1, 2)}.Known(), "no unit")
	assert.Empty(t, none.Key())
	assert.Nil(t, none.MM())
	assert.Negative(t, none.Compare(parse(t, "1/2 in")))
	assert.Equal(t, "½", Size{Text: "½"}.String())
	assert.Empty(t, Standard().Near(none))
	assert.False(t, Standard().NearMiss(none, parse(t, "8 mm")))
}

func TestCompare(t *testing.T) {
	want := []string{"3/16 in", "5 mm", "6 mm", "1/4 in", "5/16 in", "8 mm", "1/4 in hose", "1/2 in hose"}
	var sizes []Size
	for _, w := range want {
		sizes = append(sizes, parse(t, w))
	}
	slices.Reverse(sizes)
	slices.SortFunc(sizes, Size.Compare)
	for i, s := range sizes {
		assert.Equal(t, want[i], s.Text)
	}
}

func TestString(t *testing.T) {
	tests := []struct{ text, own, inch, mm string }{
		{"1/2 in", "1/2 in (12.7 mm)", "1/2 in (12.7 mm)", "12.7 mm (1/2 in)"},
		{"12.7 mm", "12.7 mm (1/2 in)", "1/2 in (12.7 mm)", "12.7 mm (1/2 in)"},
		{"8 mm", "8 mm (0.315 in)", "0.315 in (8 mm)", "8 mm (0.315 in)"},
		{"8x1 mm", "8x1 mm (0.315 in)", "0.315 in (8x1 mm)", "8x1 mm (0.315 in)"},
		{"1/2 in hose", "1/2 in hose (12.7 mm)", "1/2 in hose (12.7 mm)", "12.7 mm hose (1/2 in)"},
		{"1.25 in", "1 1/4 in (31.75 mm)", "1 1/4 in (31.75 mm)", "31.75 mm (1 1/4 in)"},
		{"1 in", "1 in (25.4 mm)", "1 in (25.4 mm)", "25.4 mm (1 in)"},
		{"1/64 in", "1/64 in (0.397 mm)", "1/64 in (0.397 mm)", "0.397 mm (1/64 in)"},
		// 0.0078125 is finer than rules go; 7.9375 and 3.96875 are halves at the fourth digit
		// or past it.
		{"0.0078125 in", "0.0078125 in (0.198 mm)", "0.0078125 in (0.198 mm)", "0.198 mm (0.0078125 in)"},
		{"5/16 in", "5/16 in (7.938 mm)", "5/16 in (7.938 mm)", "7.938 mm (5/16 in)"},
		{"5/32 in", "5/32 in (3.969 mm)", "5/32 in (3.969 mm)", "3.969 mm (5/32 in)"},
		{"0.01 mm", "0.01 mm (0.000394 in)", "0.000394 in (0.01 mm)", "0.01 mm (0.000394 in)"},
	}
	for _, tt := range tests {
		s := parse(t, tt.text)
		assert.Equal(t, tt.own, s.String())
		assert.Equal(t, tt.inch, s.Words(Inch))
		if tt.text != "0.0078125 in" {
			assert.Equal(t, tt.mm, s.Words(Millimetre))
		}
	}
}

func TestDecimalRoundsHalfToEven(t *testing.T) {
	tests := []struct {
		number string
		places int
		want   string
	}{
		// NIST SP 811 (2008), B.7.1: 6.974 951 5 to 3, 5 and 7 digits, and 6.974 950 5 to 7.
		{"6.9749515", 2, "6.97"},
		{"6.9749515", 4, "6.975"}, // printed 6.9750 there: trailing zeros are left out here
		{"6.9749515", 6, "6.974952"},
		{"6.9749505", 6, "6.97495"},
		// ISO 80000-1:2009, annex B, rule A, here a thousand times smaller.
		{"1.2250", 2, "1.22"},
		{"1.2350", 2, "1.24"},
		{"0.9999", 3, "1"},
		{"0.0005", 3, "0"},
		{"0.0015", 3, "0.002"},
		{"-1.5", 0, "-2"},
		{"-2.5", 0, "-2"},
		{"100", 0, "100"},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.want, Decimal(rat(tt.number), tt.places), tt.number)
	}
}

// sizes draws sizes as people and programs write them, all of them and their walls above
// the least that is taken for one.
func sizes() *rapid.Generator[string] {
	return rapid.Custom(func(t *rapid.T) string {
		n := rapid.Int64Range(1, 3000).Draw(t, "n")
		d := rapid.SampledFrom([]int64{1, 2, 3, 4, 7, 8, 10, 16, 32, 64, 100, 128, 1000}).Draw(t, "d")
		unit := rapid.SampledFrom([]string{"in", "mm", "inches", `"`}).Draw(t, "unit")
		number := big.NewRat(n+d/25, d)
		text := number.FloatString(3)
		if unit != "mm" && rule(number.Denom()) {
			text = number.RatString() // a fraction in its least numbers, or a whole number
		}
		switch rapid.IntRange(0, 3).Draw(t, "form") {
		case 0:
			return fmt.Sprintf("%s %s hose", text, unit)
		case 1:
			return fmt.Sprintf("%s x %s %s", text, big.NewRat(n+d/25, 3*d).FloatString(3), unit)
		}
		return text + " " + unit
	})
}

func TestStringReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := sizes().Draw(t, "size")
		s, err := ParseSize(text, Options{})
		if err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		back, err := ParseSize(s.String(), Options{})
		if err != nil {
			t.Fatalf("%s, from %s: %v", s, text, err)
		}
		if !back.Equal(s) || (s.Wall == nil) != (back.Wall == nil) {
			t.Fatalf("%s, from %s, is another size", s, text)
		}
	})
}

func TestKeyCompareAndEqualAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, errA := ParseSize(sizes().Draw(t, "a"), Options{})
		b, errB := ParseSize(sizes().Draw(t, "b"), Options{})
		if errA != nil || errB != nil {
			t.Fatal(errA, errB)
		}
		if rapid.Bool().Draw(t, "the same in the other unit") {
			b = Size{Line: a.Line, Unit: a.Unit.Other(), Num: a.In(a.Unit.Other())}
		}
		if (a.Key() == b.Key()) != (a.Compare(b) == 0) || a.Compare(b) != -b.Compare(a) {
			t.Fatalf("%s and %s", a, b)
		}
		if a.Equal(b) != b.Equal(a) || a.Equal(b) && a.Key() != b.Key() || !a.Equal(a) {
			t.Fatalf("%s and %s", a, b)
		}
		if near := Standard().NearMiss(a, b); near != Standard().NearMiss(b, a) || near && a.Equal(b) {
			t.Fatalf("%s and %s", a, b)
		}
	})
}

// Without walls, Equal is an equivalence, and Compare an order that agrees with it.
func TestEqualIsAnEquivalence(t *testing.T) {
	few := rapid.Map(rapid.SampledFrom([]string{
		"1/2 in", "0.5 in", "12.7 mm", "12.7 mm hose", "1/2 in hose", "5/16 in", "7.9375 mm", "8 mm", "5/8 in", "15.875 mm", "16 mm",
	}), func(text string) Size {
		s, err := ParseSize(text, Options{})
		if err != nil {
			panic(err)
		}
		return s
	})
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := few.Draw(t, "a"), few.Draw(t, "b"), few.Draw(t, "c")
		switch {
		case !a.Equal(a), a.Equal(b) != b.Equal(a), a.Equal(b) && b.Equal(c) && !a.Equal(c):
			t.Fatalf("%s, %s, %s", a, b, c)
		case a.Equal(b) != (a.Key() == b.Key()), a.Equal(b) != (a.Compare(b) == 0):
			t.Fatalf("%s, %s", a, b)
		case a.Compare(b) <= 0 && b.Compare(c) <= 0 && a.Compare(c) > 0:
			t.Fatalf("%s, %s, %s", a, b, c)
		}
	})
}

func TestConvertNeedsUnits(t *testing.T) {
	require.PanicsWithValue(t, "measure.Convert: no unit", func() { Convert(big.NewRat(1, 1), NoUnit, Inch) })
}
