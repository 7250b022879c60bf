package measure

import (
	"fmt"
	"strings"
	"sync"
)

// Dimension is what kind of quantity a value is: the exponents of length, mass, time,
// angle and temperature. Two values may be added or compared exactly if their dimensions are ==. A plain
// number is a Dimension{}, a count. An angle counts as a dimension of its own, so that a
// rate in N·m a degree is no torque.
type Dimension struct{ Length, Mass, Time, Angle, Temperature int8 }

// Count is the dimension of plain numbers.
func Count() Dimension { return Dimension{} }

// Mul gives the dimension of a product.
func (d Dimension) Mul(o Dimension) Dimension {
	return Dimension{d.Length + o.Length, d.Mass + o.Mass, d.Time + o.Time, d.Angle + o.Angle, d.Temperature + o.Temperature}
}

// Quo gives the dimension of a quotient.
func (d Dimension) Quo(o Dimension) Dimension {
	return Dimension{d.Length - o.Length, d.Mass - o.Mass, d.Time - o.Time, d.Angle - o.Angle, d.Temperature - o.Temperature}
}

// named holds the dimensions that have a name, with the unit of each system in which a
// computed value of it is shown.
var named = sync.OnceValue(func() map[Dimension]naming {
	return map[Dimension]naming{
		{}:                              {"count", One, One},
		{Length: 1}:                     {"length", Inch, Millimetre},
		{Length: 2}:                     {"area", SquareInch, SquareMillimetre},
		{Length: 3}:                     {"volume", CubicInch, CubicCentimetre},
		{Mass: 1}:                       {"mass", Pound, Kilogram},
		{Mass: 1, Length: 1, Time: -2}:  {"force", PoundForce, Newton},
		{Mass: 1, Length: 2, Time: -2}:  {"torque", PoundForceFoot, NewtonMetre},
		{Mass: 1, Length: -1, Time: -2}: {"pressure", PoundForcePerSquareInch, Kilopascal},
		{Mass: 1, Time: -2}:             {"spring rate", PoundForcePerInch, NewtonPerMillimetre},
		{Mass: 1, Length: 2, Time: -2, Angle: -1}: {"torsional rate", PoundForceFootPerDegree, NewtonMetrePerDegree},
		{Angle: 1}:            {"angle", Degree, Degree},
		{Length: 1, Time: -1}: {"speed", MilePerHour, KilometrePerHour},
		{Temperature: 1}:      {"temperature", DegreeFahrenheit, DegreeCelsius},
	}
})

type naming struct {
	name         string
	inch, metric Unit
}

// String names the dimension: `force`, or for one without a name its base quantities,
// such as `mass²/length`.
func (d Dimension) String() string {
	if n, ok := named()[d]; ok {
		return n.name
	}
	over, under := d.base(+1), d.base(-1)
	switch {
	case len(under) == 0:
		return strings.Join(over, "·")
	case len(over) == 0:
		over = []string{"1"}
	}
	if len(under) > 1 {
		return strings.Join(over, "·") + "/(" + strings.Join(under, "·") + ")"
	}
	return strings.Join(over, "·") + "/" + under[0]
}

// base gives the base quantities whose exponents have the sign.
func (d Dimension) base(sign int8) []string {
	var out []string
	for _, b := range []struct {
		name     string
		exponent int8
	}{{"mass", d.Mass}, {"length", d.Length}, {"time", d.Time}, {"angle", d.Angle}, {"temperature", d.Temperature}} {
		switch e := b.exponent * sign; {
		case e == 1:
			out = append(out, b.name)
		case e == 2:
			out = append(out, b.name+"²")
		case e == 3:
			out = append(out, b.name+"³")
		case e > 3:
			out = append(out, fmt.Sprintf("%s^%d", b.name, e))
		}
	}
	return out
}

// Unit gives the unit in which a computed value of the dimension is shown, and NoUnit
// where no unit of the table has that dimension.
func (d Dimension) Unit(s System) Unit {
	if s == InchSystem {
		return named()[d].inch
	}
	return named()[d].metric
}
