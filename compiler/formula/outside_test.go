package formula

import (
	"fmt"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/measure"
)

// in works a formula out and gives the result in a unit, rounded half to even.
func (b *bench) in(t *testing.T, text string, unit measure.Unit, places int) string {
	t.Helper()
	f := b.parse(t, text)
	require.Equal(t, unit.Dimension(), f.Dimension(), text)
	v, err := f.Eval(b.of(f.Uses))
	require.NoError(t, err)
	require.True(t, v.Single())
	return measure.Decimal(new(big.Rat).Quo(v.Low, unit.SI()), places)
}

// T = K F d: NASA RP-1228, Fastener Design Manual, pp. 15-17. The values are those of
// Speck, Mechanical Fastening, Joining, and Assembly, p. 85: a preload of 1275 lb on a
// screw of 0.190 in, in lbf·in with one decimal. 48.45 is printed as 48.5 there, so the
// difference may be half of the last digit.
func TestTorqueOfPreload(t *testing.T) {
	for k, printed := range map[string]string{"0.3": "72.7", "0.25": "60.6", "0.2": "48.5", "0.15": "36.3", "0.1": "24.2"} {
		b := newBench(t, given{"Nut factor", k}, given{"Preload", "1275 lbf"}, given{"Diameter", "0.190 in"}, given{"Printed", printed + " lbf·in"})
		for _, must := range []Must{AtLeast, AtMost} {
			sign := map[Must]string{AtLeast: "-", AtMost: "+"}[must]
			r := b.rule(t, "Nut factor * Preload * Diameter", must, "Printed "+sign+" 0.05 lbf·in")
			v, err := r.Judge(b.of(r.Uses))
			require.NoError(t, err)
			assert.True(t, v.Holds, "K %s: %s", k, r.Left.Words(v.Left, measure.InchSystem))
		}
	}
}

// φ = TL/(JG): Philpot, MecMovies, example M6.19: 675.7 N·m on 1000 mm with J 308 102 mm⁴
// and G 26 000 N/mm² turn it by 0.08435 rad, 4.83°. What is over a length over a length
// is a plain number; 1 rad makes an angle of it.
func TestTorsion(t *testing.T) {
	b := newBench(t, given{"Torque", "675.7 N·m"}, given{"Length", "1000 mm"}, given{"Shear modulus", "26000 N/mm²"})
	const twist = "Torque * Length / (308102 mm² * 1 mm² * Shear modulus)"
	assert.Equal(t, "0.08435", b.in(t, twist, measure.One, 5))
	assert.Equal(t, "0.08435", b.in(t, twist+" * 1 rad", measure.Radian, 5))
	assert.Equal(t, "4.83", b.in(t, twist+" * 1 rad", measure.Degree, 2))
	assert.Regexp(t, `^0\.08435 rad \(4\.83\d?°\)$`, b.words(t, twist+" * 1 rad"))
}

// The rate of a bar goes with the fourth power of its diameter: a tenth more is 46.41 %
// more, exactly. Computed.
func TestBarRate(t *testing.T) {
	b := newBench(t, given{"Thin", "50 mm"}, given{"Thick", "55 mm"})
	const ratio = "Thick * Thick * Thick * Thick / (Thin * Thin * Thin * Thin) - 1"
	assert.Equal(t, "46.41", b.in(t, ratio, measure.Percent, 10))
}

// The stroke of a damper is its extended less its compressed length. By definition.
func TestStroke(t *testing.T) {
	b := newBench(t, given{"Extended length", "24 1/8 in"}, given{"Compressed length", "378 mm"})
	assert.Equal(t, "234.775", b.in(t, "Extended length - Compressed length", measure.Millimetre, 10))
}

// The inside of a tube is what two walls leave, and what flows through goes with its
// square: against 6x1, 8x1 has 2.25 times the area, 10x1 4, 12x1.5 5.0625, 16x2 9.
// Computed; the sizes are those of DIN 74324 and ISO 7628, from memory.
func TestFlowArea(t *testing.T) {
	for size, want := range map[[2]string]string{
		{"6 mm", "1 mm"}: "1", {"8 mm", "1 mm"}: "2.25", {"10 mm", "1 mm"}: "4", {"12 mm", "1.5 mm"}: "5.0625", {"16 mm", "2 mm"}: "9",
	} {
		b := newBench(t, given{"Outside diameter", size[0]}, given{"Wall", size[1]})
		inside := "(Outside diameter - 2 * Wall)"
		area := func(inside string) string { return fmt.Sprintf("pi / 4 * %s * %s", inside, inside) }
		assert.Equal(t, want, b.in(t, fmt.Sprintf("(%s) / (%s)", area(inside), area("4 mm")), measure.One, 10))
		assert.Equal(t, want, b.in(t, fmt.Sprintf("%s * %s / (4 mm * 4 mm)", inside, inside), measure.One, 10))
	}
	b := newBench(t, given{"Bore", "4 mm"})
	// 4π to 30 places: four times the digits of π.
	assert.Equal(t, "12.566370614359172953850573533118", b.in(t, "pi / 4 * Bore * Bore", measure.SquareMillimetre, 30))
}

// TestPi works π out by Machin's formula, 16 arctan(1/5) - 4 arctan(1/239), and holds
// that the number in formulas is π rounded to its last digit.
func TestPi(t *testing.T) {
	arctan := func(n int64) *big.Rat {
		sum, x := new(big.Rat), big.NewRat(1, n)
		power, square := new(big.Rat).Set(x), new(big.Rat).Mul(x, x)
		for k := int64(0); k < 40; k++ { // 1/5 to the 79th is below 10⁻⁵⁵
			term := new(big.Rat).Quo(power, big.NewRat(2*k+1, 1))
			if k%2 == 1 {
				term.Neg(term)
			}
			sum.Add(sum, term)
			power.Mul(power, square)
		}
		return sum
	}
	pi := new(big.Rat).Sub(new(big.Rat).Mul(big.NewRat(16, 1), arctan(5)), new(big.Rat).Mul(big.NewRat(4, 1), arctan(239)))
	assert.Equal(t, piDigits, measure.Decimal(pi, len(piDigits)-2))
}
