package measure

import (
	"fmt"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// NIST SP 811 (2008), appendix B.8 with its footnotes 22 and 23, and NIST HB 44, appendix
// C: factors that are exact by definition.
func TestExactFactors(t *testing.T) {
	for _, tt := range []struct {
		from, to Unit
		factor   string
	}{
		{Inch, Millimetre, "25.4"}, {Foot, Metre, "0.3048"}, {Mile, Kilometre, "1.609344"},
		{Pound, Kilogram, "0.45359237"}, {PoundForce, Newton, "4.4482216152605"}, {Bar, Kilopascal, "100"},
		{Gallon, CubicInch, "231"}, {Gallon, Litre, "3.785411784"},
		// From memory: standard gravity, the yard, the ounce.
		{KilogramForce, Newton, "9.80665"}, {Yard, Foot, "3"}, {Pound, Ounce, "16"}, {Gallon, Quart, "4"}, {Quart, Pint, "2"}, {Pint, FluidOunce, "16"},
	} {
		assert.Zero(t, Convert(big.NewRat(1, 1), tt.from, tt.to).Cmp(rat(tt.factor)), "1 %s in %s", tt.from, tt.to)
	}
}

// NIST SP 811 (2008), appendix B.8, prints these to seven digits.
func TestRoundedFactors(t *testing.T) {
	for _, tt := range []struct {
		unit   Unit
		factor string // in coherent SI units
		places int
	}{
		{PoundForcePerSquareInch, "6894.757", 3},
		{PoundForceFoot, "1.355818", 6},
		{PoundForceInch, "0.1129848", 7},
		// From memory.
		{PoundForcePerInch, "175.1268", 4},
		{Ounce, "0.02834952", 8},
		{FluidOunce, "0.00002957353", 11},
		{Pint, "0.0004731765", 10},
		{Quart, "0.0009463529", 10},
		{CubicInch, "0.00001638706", 11},
		{Degree, "0.01745329", 8},
	} {
		assert.Equal(t, tt.factor, Decimal(tt.unit.SI(), tt.places), tt.unit)
	}
	// 10 000 lb is a limit of 49 CFR 571; computed.
	assert.Zero(t, Convert(rat("10000"), Pound, Kilogram).Cmp(rat("4535.9237")))
	// SAE J844 JUN1998, scope: 150 psi, printed as 1030 kPa; computed.
	assert.Equal(t, "1034.21359", Decimal(Convert(rat("150"), PoundForcePerSquareInch, Kilopascal), 5))
	assert.Equal(t, "14.5037737730209", Decimal(Convert(big.NewRat(1, 1), Bar, PoundForcePerSquareInch), 13))
}

// Names and codes of UN/CEFACT Recommendation 20, as its code list has them: a name must
// be understood, and lead to its code.
func TestRecommendation20(t *testing.T) {
	names := map[string]string{
		"INH": "inch", "MMT": "millimetre", "FOT": "foot", "YRD": "yard", "CMT": "centimetre", "MTR": "metre", "KMT": "kilometre",
		"LBR": "pound", "KGM": "kilogram", "GRM": "gram", "TNE": "tonne", "ONZ": "ounce",
		"C78": "pound-force", "NEW": "newton", "B47": "kilonewton", "B37": "kilogram-force",
		"M92": "pound-force foot", "F21": "pound-force inch", "NU": "newton metre", "B48": "kilonewton metre", "B38": "kilogram-force metre",
		"PS": "pound-force per square inch", "KPA": "kilopascal", "BAR": "bar", "MBR": "millibar", "PAL": "pascal", "MPA": "megapascal",
		"E42": "kilogram-force per square centimetre",
		"F48": "pound-force per inch", "F47": "newton per millimetre", "4P": "newton per metre", "N31": "kilonewton per metre",
		"F89": "newton metre per degree", "DD": "degree", "C81": "radian",
		"INQ": "cubic inch", "4H": "micrometre", "F88": "newton centimetre", "A97": "hectopascal", "CEL": "degree Celsius", "FAH": "degree Fahrenheit", // from memory
		"OZA": "fluid ounce", "PTL": "pint", "QTL": "quart", "GLL": "gallon", "CMQ": "cubic centimetre", "MLT": "millilitre", "LTR": "litre", "MTQ": "cubic metre",
		"INK": "square inch", "MMK": "square millimetre", "CMK": "square centimetre", "MTK": "square metre",
		"SMI": "mile", "HM": "mile per hour", "FS": "foot per second", "IU": "inch per second", "KMH": "kilometre per hour", "MTS": "metre per second", "C16": "millimetre per second",
		"C62": "", "P1": "percent",
	}
	seen := 0
	for code, name := range names {
		u, ok := ParseUnit(name)
		if name == "" {
			u, ok = One, true // one has no name to write
		}
		if assert.True(t, ok, name) {
			assert.Equal(t, code, u.Code(), name)
		}
	}
	for _, u := range Units() {
		if u.Code() != "" {
			seen++
			assert.Contains(t, names, u.Code(), u)
		}
	}
	assert.Len(t, names, seen, "one unit a code")
}

// boltTorques are the rows of table F-1 of US Army TM 9-2320-362-14&P (clean dry threads),
// in lb·ft and N·m.
func boltTorques() [][2]string {
	return [][2]string{
		{"6", "8"}, {"26", "35"}, {"65", "88"}, {"130", "176"}, {"185", "251"}, {"440", "597"}, // Grade 5: 1/4, 3/8, 1/2, 5/8, 3/4, 1
		{"90", "122"}, {"260", "353"}, {"635", "861"}, // Grade 8: 1/2, 3/4, 1
		{"2000", "2712"}, // TM 10-3510-220-24
	}
}

func TestTorqueTables(t *testing.T) {
	for _, row := range boltTorques() {
		for _, text := range []string{
			fmt.Sprintf("%s lb·ft (%s N·m)", row[0], row[1]),
			fmt.Sprintf("%s N·m (%s lb·ft)", row[1], row[0]),
		} {
			_, err := ParseQuantity(text, Options{})
			assert.NoError(t, err)
		}
	}
	// As printed by the tables, except that 6 lb·ft is shown with two digits.
	for _, row := range boltTorques()[1:] {
		assert.Equal(t, row[0]+" lb·ft ("+row[1]+" N·m)", quantity(t, row[0]+" lb·ft").String())
	}
	// What they misprint: 7/8 Grade 5 of TM 9-2320-362-14&P, and 1-1/4-12 Grade 8 of TM
	// 10-4320-346-12&P, table H-1.
	for text, sentence := range map[string]string{
		"300 lb·ft (408 N·m)":   `"300 lb·ft (408 N·m)": 300 lb·ft is 407 N·m; write the one that is meant`,
		"1820 lb·ft (2712 N·m)": `"1820 lb·ft (2712 N·m)": 1820 lb·ft is 2468 N·m; write the one that is meant`,
	} {
		_, err := ParseQuantity(text, Options{})
		require.ErrorIs(t, err, ErrDisagree)
		assert.EqualError(t, err, sentence)
	}
}

// How two statements agree: within 6 % and half a unit of the last digit of both, where the
// second may have been rounded to tens or hundreds, and a whole number of more than three
// digits to its last zeros.
func TestAgreement(t *testing.T) {
	for _, text := range []string{
		"150 psi (1030 kPa)", // SAE J844 JUN1998, scope
		"10000 lb (4536 kg)", "10000 lb (4540 kg)", "12.5 in (318 mm)", "12.5 in (317.5 mm)", "1/2 in (13 mm)", "1/2 in (1.27 cm)",
		"120 psi (8.3 bar)", "100-120 psi (690-830 kPa)", "0 psi (0 kPa)", "100 psi (700 kPa)", "-40 mm (-1.57 in)",
	} {
		_, err := ParseQuantity(text, Options{})
		assert.NoError(t, err)
	}
	for text, is := range map[string]string{
		"1/2 in (12 mm)": "1/2 in is 12.7 mm", "100-120 psi (690-840 kPa)": "100–120 psi is 689–827 kPa",
		"5/8 in (12 mm)": "5/8 in is 15.875 mm", "5/16 in (8.0 mm)": "5/16 in is 7.938 mm", "40 mm (-1.57 in)": "40 mm is 1.575 in",
	} {
		_, err := ParseQuantity(text, Options{})
		if assert.ErrorIs(t, err, ErrDisagree, text) {
			assert.Contains(t, err.Error(), is)
		}
	}
}

// NIST Metric Style Guide (LC 1137): 36 inches are 91 cm, 40.1 inches 101.9 cm. NIST SP
// 811 (2008), B.7.1: 6.974 951 5 to 3, 5 and 7 digits.
func TestDigitsThatCount(t *testing.T) {
	for text, want := range map[string]string{"36": "91", "40.1": "101.9"} {
		n := decimal(text)
		cm := Convert(n.value, Inch, Centimetre)
		assert.Equal(t, want, significant(cm, figures(cm, n.value, n.digits)), text)
	}
	for count, want := range map[int]string{3: "6.97", 5: "6.975", 7: "6.974952"} {
		assert.Equal(t, want, significant(rat("6.9749515"), count))
	}
	for text, want := range map[string]int{"0.004": -3, "0.1": -1, "1": 0, "9.99": 0, "10": 1, "-250": 2, "0": 0} {
		assert.Equal(t, want, magnitude(rat(text)), text)
	}
}

// T = KFd (NASA RP-1228, pages 15 to 17): 1275 lb on a 0.190 in screw, Speck, Mechanical
// Fastening, Joining, and Assembly, page 85.
func TestTighteningTorque(t *testing.T) {
	force, diameter := quantity(t, "1275 lbf"), quantity(t, "0.190 in")
	require.Equal(t, PoundForceInch.Dimension(), force.Dimension().Mul(diameter.Dimension()))
	f, _ := force.SI()
	d, _ := diameter.SI()
	for k, want := range map[string]string{"0.3": "72.7", "0.25": "60.6", "0.2": "48.5", "0.15": "36.3", "0.1": "24.2"} {
		torque := new(big.Rat).Mul(new(big.Rat).Mul(rat(k), f), d)
		q := FromSI(torque, torque, PoundForceInch)
		off := new(big.Rat).Sub(q.Low, rat(want))
		// The book rounds some halves and more up: 72.675 to 72.7, 60.5625 to 60.6.
		assert.LessOrEqual(t, off.Abs(off).Cmp(rat("0.05")), 0, "K %s gives %s", k, q)
	}
}

// φ = TL/(JG): Philpot, MecMovies M6.19.
func TestTorsion(t *testing.T) {
	moment, length, shear := quantity(t, "675.7 N·m"), quantity(t, "1000 mm"), quantity(t, "26000 N/mm2")
	twist := moment.Dimension().Mul(length.Dimension()).Quo(shear.Dimension())
	require.Equal(t, Dimension{Length: 4}, twist, "what is left is that of the polar moment")
	m, _ := moment.SI()
	l, _ := length.SI()
	g, _ := shear.SI()
	j := new(big.Rat).Mul(rat("308102"), rat("1/1000000000000")) // mm⁴
	phi := new(big.Rat).Quo(new(big.Rat).Mul(m, l), new(big.Rat).Mul(j, g))
	assert.Equal(t, "0.08435", Decimal(phi, 5))
	assert.Equal(t, "4.83", Decimal(Convert(phi, Radian, Degree), 2))
}
