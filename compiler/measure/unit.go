package measure

import "math/big"

// System of units. Units of neither (degrees, plain numbers) are shown alone.
type System uint8

const (
	NoSystem System = iota
	InchSystem
	MetricSystem
)

func (s System) String() string { return [...]string{"", "inch", "metric"}[s] }

// Unit of measure; an index into the table of units.
type Unit uint8

const (
	NoUnit Unit = iota
	Inch
	Millimetre
	Foot
	Yard
	Mile
	Centimetre
	Metre
	Kilometre
	Micrometre
	Pound
	Ounce
	Kilogram
	Gram
	Tonne
	PoundForce
	Newton
	Kilonewton
	KilogramForce
	Decanewton
	PoundForceFoot
	PoundForceInch
	NewtonMetre
	NewtonCentimetre
	NewtonMillimetre
	DecanewtonMetre
	KilonewtonMetre
	KilogramForceMetre
	KilogramForceCentimetre
	PoundForcePerSquareInch
	Kilopascal
	Bar
	Millibar
	Hectopascal
	Pascal
	Megapascal
	KilogramForcePerSquareCentimetre
	PoundForcePerInch
	NewtonPerMillimetre
	NewtonPerMetre
	KilonewtonPerMetre
	KilogramForcePerMillimetre
	KilogramForcePerCentimetre
	DecanewtonPerMillimetre
	PoundForceFootPerDegree
	NewtonMetrePerDegree
	Degree
	Radian
	CubicInch
	FluidOunce
	Pint
	Quart
	Gallon
	CubicCentimetre
	Millilitre
	Litre
	CubicMetre
	SquareInch
	SquareMillimetre
	SquareCentimetre
	SquareMetre
	MilePerHour
	FootPerSecond
	InchPerSecond
	KilometrePerHour
	MetrePerSecond
	MillimetrePerSecond
	DegreeCelsius
	DegreeFahrenheit
	One
	Percent
	lastUnit = Percent
)

// Units gives every unit of the table, in its order.
func Units() []Unit {
	var out []Unit
	for _, d := range units()[1:] {
		out = append(out, d.unit)
	}
	return out
}

func (u Unit) def() definition { return units()[u] }

// String gives the unit's symbol as guides print it; "" for a plain number.
func (u Unit) String() string { return u.def().symbol }

// Dimension of the unit. NoUnit has none, and its zero value must not be asked for.
func (u Unit) Dimension() Dimension {
	u.must("measure.Unit.Dimension")
	return u.def().dim
}

// SI says how many coherent SI units (metre, kilogram, second, radian, kelvin and what
// they make) a step of one of the unit is, exactly. Temperatures do not begin at nothing:
// see FromSI and Quantity.SI.
func (u Unit) SI() *big.Rat {
	u.must("measure.Unit.SI")
	return new(big.Rat).Set(u.def().si)
}

// UCUM gives the unit's case-sensitive code in the Unified Code for Units of Measure.
func (u Unit) UCUM() string { return u.def().ucum }

// Code gives the unit's common code in UN/CEFACT Recommendation 20, which schema.org's
// unitCode takes; "" where the recommendation has none.
func (u Unit) Code() string { return u.def().rec20 }

// System of the unit; NoSystem for degrees and plain numbers.
func (u Unit) System() System { return u.def().system }

// Other gives the unit in which the other system shows a value; NoUnit where both use
// the same.
func (u Unit) Other() Unit { return u.def().other }

func (u Unit) must(name string) {
	if u == NoUnit || u > lastUnit {
		panic(name + ": no unit")
	}
}

// Convert gives a value of one unit in another, exactly. The units must be known and of
// one dimension.
func Convert(value *big.Rat, from, to Unit) *big.Rat {
	from.must("measure.Convert")
	to.must("measure.Convert")
	if from.Dimension() != to.Dimension() {
		panic("measure.Convert: " + from.String() + " and " + to.String() + " are of unlike dimensions")
	}
	if from == to {
		return new(big.Rat).Set(value)
	}
	return to.fromSI(from.toSI(value))
}

// toSI gives a value of the unit in coherent SI units: a temperature in kelvin.
func (u Unit) toSI(value *big.Rat) *big.Rat {
	out := new(big.Rat).Mul(value, u.def().si)
	if zero := u.zero(); zero != nil {
		out.Add(out, zero)
	}
	return out
}

func (u Unit) fromSI(value *big.Rat) *big.Rat {
	out := new(big.Rat).Set(value)
	if zero := u.zero(); zero != nil {
		out.Sub(out, zero)
	}
	return out.Quo(out, u.def().si)
}

// zero gives what 0 of a unit of temperature is in kelvin, nil for all other units, of
// which 0 is nothing. 0 °C is 273.15 K and 0 °F 459.67 steps of 5/9 K (NIST SP 811
// (2008), B.8, from memory).
func (u Unit) zero() *big.Rat {
	switch u {
	case DegreeCelsius:
		return big.NewRat(27315, 100)
	case DegreeFahrenheit:
		return big.NewRat(45967*5, 100*9)
	}
	return nil
}

// difference gives a difference of two values of one unit in another, exactly: 10 °C more
// are 18 °F more.
func difference(value *big.Rat, from, to Unit) *big.Rat {
	out := new(big.Rat).Mul(value, from.def().si)
	return out.Quo(out, to.def().si)
}
