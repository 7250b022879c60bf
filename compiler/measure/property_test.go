package measure

import (
	"fmt"
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// numbers draws numbers as people write them, none below 0; fractions where a unit has
// them.
func numbers(unit Unit) *rapid.Generator[string] {
	return rapid.Custom(func(t *rapid.T) string {
		whole := rapid.IntRange(0, 99999).Draw(t, "whole")
		most := 1
		if unit == Inch || unit == Foot {
			most = 3
		}
		switch rapid.IntRange(0, most).Draw(t, "form") {
		case 0:
			return fmt.Sprint(whole)
		case 1:
			return fmt.Sprintf("%d.%0*d", whole, rapid.IntRange(1, 6).Draw(t, "places"), rapid.IntRange(0, 9).Draw(t, "decimals"))
		case 2:
			return fmt.Sprintf("%d %d/%d", whole+1, rapid.IntRange(1, 15).Draw(t, "over"), rapid.SampledFrom([]int{16, 32, 64}).Draw(t, "under"))
		}
		return fmt.Sprintf("%d/%d", rapid.IntRange(1, 999).Draw(t, "over"), rapid.SampledFrom([]int{2, 4, 8, 16, 32, 64}).Draw(t, "under"))
	})
}

// quantities draws values of every unit in every form.
func quantities() *rapid.Generator[Quantity] {
	return rapid.Custom(func(t *rapid.T) Quantity {
		unit := rapid.SampledFrom(Units()).Draw(t, "unit")
		text, sign := numbers(unit).Draw(t, "number"), rapid.SampledFrom([]string{"", "-"}).Draw(t, "sign")
		switch rapid.IntRange(0, 4).Draw(t, "form") {
		case 0:
			text = sign + text
		case 1:
			end := numbers(unit).Draw(t, "end")
			if strings.Contains(text, "/") && !strings.ContainsAny(end, "/.") {
				end += ".0" // a whole number beside a fraction is refused
			} else if strings.Contains(end, "/") && !strings.ContainsAny(text, "/.") {
				text += ".0"
			}
			text = "-" + text + " to " + end
		case 2:
			text = sign + text + " ±" + numbers(unit).Draw(t, "tolerance")
		case 3:
			text = sign + text + " +" + numbers(unit).Draw(t, "up") + "/-" + numbers(unit).Draw(t, "down")
		case 4:
			text = "max " + sign + text
		}
		q, err := ParseQuantityIn(text, unit, Options{})
		if err != nil {
			t.Fatalf("%s %s: %v", text, unit, err)
		}
		return q
	})
}

// What is printed reads back to an equal value. That it reads back at all shows that the
// rounded value in brackets agrees with the exact one.
func TestQuantityReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := quantities().Draw(t, "quantity")
		back, err := ParseQuantityIn(q.String(), q.Unit, Options{})
		if err != nil {
			t.Fatalf("%s, from %s: %v", q, q.Text, err)
		}
		if !back.Equal(q) || back.own() != q.own() {
			t.Fatalf("%s, from %s, is read as %s", q, q.Text, back)
		}
	})
}

// What guides print first in the other system is a rounding of the value.
func TestOtherSystemIsNear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := quantities().Draw(t, "quantity")
		other := q.Unit.Other()
		if other == NoUnit || !q.Single() || q.Low.Sign() == 0 || !sane(Convert(q.Low, q.Unit, other)) {
			return
		}
		back, err := ParseQuantity(q.converted(other), Options{})
		if err != nil {
			t.Fatalf("%s: %v", q, err)
		}
		off := new(big.Rat).Sub(back.In(q.Unit).Low, q.Low)
		if other.zero() != nil {
			// A temperature keeps its decimals: half a degree of the other scale.
			off.Sub(back.Low, Convert(q.Low, q.Unit, other))
			if off.Abs(off).Cmp(big.NewRat(1, 2)) > 0 {
				t.Fatalf("%s", q)
			}
			return
		}
		// Two digits that count are within a twentieth.
		if off.Abs(off.Quo(off, q.Low)).Cmp(big.NewRat(1, 20)) > 0 {
			t.Fatalf("%s", q)
		}
	})
}

func TestConvertThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := quantities().Draw(t, "quantity")
		to := rapid.SampledFrom(Units()).Filter(func(u Unit) bool { return u.Dimension() == q.Dimension() }).Draw(t, "to")
		if q.Bound() != Exactly {
			return // a value in another unit is a computed one
		}
		if !q.In(to).Equal(q) || !q.In(to).In(q.Unit).Equal(q) {
			t.Fatalf("%s in %s", q, to)
		}
		low, high := q.SI()
		if !FromSI(low, high, q.Unit).Equal(q) {
			t.Fatalf("%s in SI units", q)
		}
	})
}

func FuzzParseQuantity(f *testing.F) {
	for _, s := range []string{
		"65 lb·ft (88 N·m)", "12.0-12.4 in", "10 mm ±0.1", "12 N/mm ±5 %", "10 +0.2/-0.1 mm", `8' 6 1/2"`, "-2 to 1°", "±2°", "1-1/4 in",
		"10 000 lb", "120 pounds per square inch", "0-1/4 in", "3", "1e9 mm", "\xff1 in", "(", "1/3 ft", "99999999999999999 mi", "1/99999999999999999 in",
		"1 in ±0.00000000000001", `1"±.00000000000000001`, `0"±100000000000`, "0.00001 N ±70000000000", ".00001 N ±7000000000", "70.000000000010971m2", "999999999999 N ±0.000000001", `0"±.00000010000000001`, "5 ton", "8 mm (5/16 in)",
	} {
		f.Add(s, false)
		f.Add(s, true)
	}
	f.Fuzz(func(t *testing.T, text string, comma bool) {
		q, err := ParseQuantity(text, Options{Comma: comma})
		if err != nil {
			require.NotEmpty(t, err.Error())
			require.False(t, q.Known())
			return
		}
		require.True(t, q.Known())
		require.LessOrEqual(t, q.Low.Cmp(q.High), 0, text)
		require.Less(t, len(q.String()), 500, text)
		back, err := ParseQuantityIn(q.String(), q.Unit, Options{})
		require.NoError(t, err, "%s, from %s", q, text)
		require.True(t, q.Equal(back), "%s, from %s, is read as %s", q, text, back)
	})
}

func FuzzParseUnit(f *testing.F) {
	for _, s := range []string{"lb·ft", "in2", "pounds per sq. in.", "N*m", `"`, "°", "\xff", "in^3", "sq", "per", "·", "²"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		u, ok := ParseUnit(text)
		require.Equal(t, ok, u != NoUnit)
		if ok && u != One {
			back, _ := ParseUnit(u.String())
			require.Equal(t, u, back)
		}
	})
}
