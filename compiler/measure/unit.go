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
	Pound
	Ounce
	Kilogram
	Gram
	Tonne
	PoundForce
	Newton
	Kilonewton
	KilogramForce
	PoundForceFoot
	PoundForceInch
	NewtonMetre
	KilonewtonMetre
	KilogramForceMetre
	KilogramForceCentimetre
	PoundForcePerSquareInch
	Kilopascal
	Bar
	Millibar
	Pascal
	Megapascal
	KilogramForcePerSquareCentimetre
	PoundForcePerInch
	NewtonPerMillimetre
	NewtonPerMetre
	KilonewtonPerMetre
	KilogramForcePerMillimetre
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

// SI says how many coherent SI units (metre, kilogram, second, radian and what they
// make) one of the unit is, exactly.
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
	out := new(big.Rat).Set(value)
	if from == to {
		return out
	}
	return out.Quo(out.Mul(out, from.def().si), to.def().si)
}
