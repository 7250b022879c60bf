package measure

import (
	"errors"
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func quantity(t *testing.T, text string) Quantity {
	t.Helper()
	q, err := ParseQuantity(text, Options{})
	require.NoError(t, err, text)
	return q
}

func TestParseQuantity(t *testing.T) {
	tests := []struct {
		text      string
		unit      Unit
		low, high string // high "" for one value
	}{
		{"1 1/2 in", Inch, "3/2", ""},
		{`12-1/2"`, Inch, "25/2", ""},
		{"318 mm", Millimetre, "318", ""},
		{"31.8cm", Centimetre, "31.8", ""},
		{"8 ft 6 in", Inch, "102", ""},
		{`8' 6 1/2"`, Inch, "205/2", ""},
		{"40'", Foot, "40", ""},
		{"10000 lbs", Pound, "10000", ""},
		{"10 000 lb", Pound, "10000", ""},
		{"1 250 lbf", PoundForce, "1250", ""},
		{"6 kN", Kilonewton, "6", ""},
		{"65 lb·ft", PoundForceFoot, "65", ""},
		{"65 lb-ft", PoundForceFoot, "65", ""},
		{"65 ft-lb", PoundForceFoot, "65", ""},
		{"65 ft lbs", PoundForceFoot, "65", ""},
		{"65 ft.-lbs.", PoundForceFoot, "65", ""},
		{"65 foot-pounds", PoundForceFoot, "65", ""},
		{"65ftlb", PoundForceFoot, "65", ""},
		{"65 lbf·ft", PoundForceFoot, "65", ""},
		{"72 lbf in", PoundForceInch, "72", ""},
		{"88 N·m", NewtonMetre, "88", ""},
		{"88 Nm", NewtonMetre, "88", ""},
		{"88 N.m", NewtonMetre, "88", ""},
		{"88 N*m", NewtonMetre, "88", ""},
		{"88 newton-metres", NewtonMetre, "88", ""},
		{"120 PSI", PoundForcePerSquareInch, "120", ""},
		{"120 lb/in²", PoundForcePerSquareInch, "120", ""},
		{"120 pounds per square inch", PoundForcePerSquareInch, "120", ""},
		{"8.3 bar", Bar, "8.3", ""},
		{"830 kPa", Kilopascal, "830", ""},
		{"250 lb/in", PoundForcePerInch, "250", ""},
		{"250 lbs per inch", PoundForcePerInch, "250", ""},
		{"44 N/mm", NewtonPerMillimetre, "44", ""},
		{"-1.5 deg", Degree, "-1.5", ""},
		{"1.5°", Degree, "1.5", ""},
		{"12 qt", Quart, "12", ""},
		{"2.2 L", Litre, "2.2", ""},
		{"350 cu. in.", CubicInch, "350", ""},
		{"350 in3", CubicInch, "350", ""},
		{"65 mph", MilePerHour, "65", ""},
		{"105 km/h", KilometrePerHour, "105", ""},
		{"40 %", Percent, "40", ""},
		{"4 pcs", One, "4", ""},
		{"12.0-12.4 in", Inch, "12", "12.4"},
		{"12.0 – 12.4 in", Inch, "12", "12.4"},
		{"12 in to 12.4 in", Inch, "12", "12.4"},
		{"1/4-1/2 in", Inch, "1/4", "1/2"},
		{"0-1/4 in", Inch, "0", "1/4"},
		{"2-1/4-2-1/2 in", Inch, "9/4", "5/2"},
		{"1.0-1 1/4 in", Inch, "1", "5/4"},
		{"-2 to -1°", Degree, "-2", "-1"},
		{"10 mm ±0.1", Millimetre, "9.9", "10.1"},
		{"10 ±0.1 mm", Millimetre, "9.9", "10.1"},
		{"10 mm +/- 0.1 mm", Millimetre, "9.9", "10.1"},
		{"12 N/mm ±5 %", NewtonPerMillimetre, "11.4", "12.6"},
		{"10 mm +0.2/-0.1", Millimetre, "9.9", "10.2"},
		{"10 +0.2 -0 mm", Millimetre, "10", "10.2"},
		{"±2°", Degree, "-2", "2"},
		{"10 mm ±0", Millimetre, "10", ""},
		{"65 lb·ft (88 N·m)", PoundForceFoot, "65", ""},
		{"12.0-12.4 in (305-315 mm)", Inch, "12", "12.4"},
		{"10 mm ±0.1 (0.394 in ±0.004)", Millimetre, "9.9", "10.1"},
		{"2 bar (200 kPa)", Bar, "2", ""},
	}
	for _, tt := range tests {
		q, err := ParseQuantity(" "+tt.text+" ", Options{})
		require.NoError(t, err, tt.text)
		if tt.high == "" {
			tt.high = tt.low
		}
		assert.Equal(t, tt.unit, q.Unit, tt.text)
		assert.Zero(t, q.Low.Cmp(rat(tt.low)), "%s begins at %s", tt.text, q.Low)
		assert.Zero(t, q.High.Cmp(rat(tt.high)), "%s ends at %s", tt.text, q.High)
		assert.Equal(t, tt.text, q.Text)
		assert.True(t, q.Known())
		assert.Equal(t, tt.low == tt.high, q.Single(), tt.text)
	}
}

func TestQuantityRefused(t *testing.T) {
	tests := []struct{ text, sentence string }{
		{"", "a measured value is missing; write 12.5 in or 318 mm"},
		{"n/a", `"n/a": a measured value begins with a number; write 12.5 in or 318 mm`},
		{"12 in front", `"12 in front": front is not understood here; write a number and its unit, such as 12.5 in, 318 mm or 12-12.5 in`},
		{"3/8-inch tube", `"3/8-inch tube": a measured value is a number and its unit alone; leave tube out, as in 3/8 in (a Line size may have it)`},
		{"10,000 lb", `"10,000 lb": 10,000 may be read in two ways where the decimal sign is a point; write 10000 or 10.000`},
		{"-+5 mm", `"-+5 mm": a measured value begins with a number; write 12.5 in or 318 mm`},
		{"5 tons", `"5 tons": there are several tons; write t for 1000 kg, or 2000 lb for a short ton`},
		{"1 in ±0.0000000001", `"1 in ±0.0000000001": a measured value is at most a million million, and not below a thousand-millionth; write it in a unit of another size`},
		{"12.4-12.0 in", `"12.4-12.0 in": this runs downwards; write the smaller end first, as in 12-12.5 in`},
		{"12 in-310 mm", `"12 in-310 mm": the ends have different units; write both in one, as in 12-12.5 in`},
		{"10 mm ±0.01 in", `"10 mm ±0.01 in": value and tolerance have different units; write both in one, as in 10 mm ±0.1`},
		{"10 mm +0.2", `"10 mm +0.2": behind + belongs - as well; write ±0.1 or +0.2/-0.1`},
		{"8 ft 14 in", `"8 ft 14 in": behind feet belong inches, less than 12 of them; write 8 ft 6 in or 102 in`},
		{"65 lb·ft (88 N·m", `"65 lb·ft (88 N·m": a bracket is not closed; write 12.5 in (318 mm)`},
		{"65 lb (29 N)", `"65 lb (29 N)": in brackets belongs the same value in another unit, as in 12.5 in (318 mm)`},
		{"65 lb·ft (88)", `"65 lb·ft (88)": in brackets belongs the same value in another unit, as in 12.5 in (318 mm)`},
	}
	for _, tt := range tests {
		q, err := ParseQuantity(tt.text, Options{})
		if assert.EqualError(t, err, tt.sentence) {
			assert.NotErrorIs(t, err, ErrUnitless)
			assert.NotErrorIs(t, err, ErrDisagree)
		}
		assert.False(t, q.Known())
	}
}

func TestNoValue(t *testing.T) {
	for _, text := range []string{"n/a", "M16x1.5", "see the drawing", "(5 mm)", "x 5 mm", strings.Repeat("5 mm for the left side, ", 9)} {
		_, err := ParseQuantity(text, Options{})
		assert.ErrorIs(t, err, ErrNoValue, text)
	}
	for _, text := range []string{"61O", "3/4-16 UNF", "-", "5", "± 5 mm wide"} {
		_, err := ParseQuantity(text, Options{})
		require.Error(t, err, text)
		assert.Equal(t, text == "-", errors.Is(err, ErrNoValue), text)
	}
}

func TestQuantityWithoutUnit(t *testing.T) {
	_, err := ParseQuantity("3.5", Options{})
	require.ErrorIs(t, err, ErrUnitless)
	assert.EqualError(t, err, `"3.5" has no unit; write it behind the number, as in 3.5 mm or 3.5 lb`)
	_, err = ParseQuantity("1 1/2", Options{})
	assert.EqualError(t, err, `"1 1/2" has no unit; write it behind the number, as in 1 1/2 in`, "what is told to write is read")
	q, err := ParseQuantityIn("3.5", One, Options{})
	require.NoError(t, err)
	assert.Equal(t, Count(), q.Dimension())
	assert.Equal(t, "3.5", q.String())
	q, err = ParseQuantityIn("12-14 in", Millimetre, Options{})
	require.NoError(t, err)
	assert.Equal(t, Inch, q.Unit, "a cell's own unit holds")
	q, err = ParseQuantityIn("3,5 (0.138 in)", Millimetre, Options{Comma: true})
	require.NoError(t, err)
	assert.Zero(t, q.Low.Cmp(rat("3.5")))
}

func TestQuantityWords(t *testing.T) {
	tests := []struct{ text, inch, metric string }{
		{"1/2 in", "1/2 in (12.7 mm)", "12.7 mm (1/2 in)"},
		{"12.7 mm", "1/2 in (12.7 mm)", "12.7 mm (1/2 in)"},
		{"12-12.4 in", "12–12.4 in (304.8–314.96 mm)", "304.8–314.96 mm (12–12.4 in)"},
		{"10 mm ±0.1", "0.394 ±0.004 in (10 ±0.1 mm)", "10 ±0.1 mm (0.394 ±0.004 in)"},
		{"12 N/mm ±5 %", "69 ±3 lb/in (12 ±0.6 N/mm)", "12 ±0.6 N/mm (69 ±3 lb/in)"},
		{"65 ft-lb", "65 lb·ft (88 N·m)", "88 N·m (65 lb·ft)"},
		{"1 lb·ft", "1 lb·ft (1.4 N·m)", "1.4 N·m (1 lb·ft)"},
		{"10000 lb", "10000 lb (4536 kg)", "4536 kg (10000 lb)"},
		{"1234 lb", "1234 lb (560 kg)", "560 kg (1234 lb)"},
		{"8 bar", "116 psi (8 bar)", "8 bar (116 psi)"},
		{"120 psi", "120 psi (827 kPa)", "827 kPa (120 psi)"},
		{"250 lb/in", "250 lb/in (43.8 N/mm)", "43.8 N/mm (250 lb/in)"},
		{"0.5 lb", "0.5 lb (0.23 kg)", "0.23 kg (0.5 lb)"},
		{"0 psi", "0 psi (0 kPa)", "0 kPa (0 psi)"},
		{"-2 to 1 deg", "-2 to 1°", "-2 to 1°"},
		{"40 %", "40 %", "40 %"},
	}
	for _, tt := range tests {
		q := quantity(t, tt.text)
		assert.Equal(t, tt.inch, q.Words(InchSystem), tt.text)
		assert.Equal(t, tt.metric, q.Words(MetricSystem), tt.text)
	}
	assert.Equal(t, "n/a", Quantity{Text: "n/a"}.String())
}

func TestComputedQuantity(t *testing.T) {
	stroke := New(rat("178.05"), rat("178.05"), Millimetre)
	assert.Equal(t, "178.05 mm (7.01 in)", stroke.String())
	third := FromSI(rat("1/3"), rat("2/3"), NewtonMetre)
	assert.Equal(t, "0.33333–0.66667 N·m (0.2459–0.4917 lb·ft)", third.String())
	assert.True(t, quantity(t, "12.7 mm").Equal(quantity(t, "1/2 in").In(Centimetre)))
	assert.False(t, quantity(t, "1 N·m").Equal(quantity(t, "1 N")))
	assert.False(t, Quantity{}.Equal(Quantity{}))
	require.PanicsWithValue(t, "measure.New: low is above high", func() { New(big.NewRat(2, 1), big.NewRat(1, 1), Inch) })
}

func TestDimension(t *testing.T) {
	for text, want := range map[string]string{
		"1 mm": "length", "1 lb": "mass", "1 lbf": "force", "1 lb·ft": "torque", "1 psi": "pressure", "1 lb/in": "spring rate",
		"1°": "angle", "1 qt": "volume", "1 mph": "speed", "1 in²": "area", "1 %": "count", "1 N·m/°": "torsional rate",
	} {
		assert.Equal(t, want, quantity(t, text).Dimension().String(), text)
	}
	length, mass := Dimension{Length: 1}, Dimension{Mass: 1}
	assert.Equal(t, "mass²/length", mass.Mul(mass).Quo(length).String())
	assert.Equal(t, "1/length", Count().Quo(length).String())
	assert.Equal(t, "length^4", length.Mul(length).Mul(length).Mul(length).String())
	assert.Equal(t, "mass/(length·time·angle²)", Dimension{Mass: 1, Length: -1, Time: -1, Angle: -2}.String())
	assert.NotEqual(t, Pound.Dimension(), PoundForce.Dimension(), "a mass is no force")
	assert.Equal(t, PoundForceFoot.Dimension(), PoundForce.Dimension().Mul(length))
	assert.Equal(t, PoundForcePerInch, PoundForce.Dimension().Quo(length).Unit(InchSystem))
	assert.Equal(t, NoUnit, mass.Mul(mass).Unit(MetricSystem))
}

func TestUnitTable(t *testing.T) {
	for i, u := range Units() {
		assert.Equal(t, Unit(i+1), u, "the table is in the order of the constants")
		assert.Positive(t, u.SI().Sign(), u)
		assert.NotEmpty(t, u.UCUM(), u)
		if u != One {
			back, ok := ParseUnit(u.String())
			assert.True(t, ok && back == u, "%s reads back", u)
		}
		if other := u.Other(); other != NoUnit {
			assert.Equal(t, u.Dimension(), other.Dimension(), u)
			assert.True(t, u.System() != other.System() || u == Radian, u)
		}
	}
	assert.Len(t, Units(), int(lastUnit))
	for d, n := range named() {
		assert.Equal(t, d, n.inch.Dimension(), n.name)
		assert.Equal(t, d, n.metric.Dimension(), n.name)
	}
}
