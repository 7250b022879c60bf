package measure

import (
	"math/big"
	"sync"
)

// definition is a row of the table of units.
type definition struct {
	unit   Unit
	symbol string // as guides print it
	names  string // what else people write, as key spells it, parted by blanks
	dim    Dimension
	si     *big.Rat // how many coherent SI units (m, kg, s, rad, K) a step of one is
	ucum   string
	rec20  string // UN/CEFACT Recommendation 20, "" where it has no code
	system System
	other  Unit // in which the other system shows it
}

// The exact definitions are those of NIST SP 811 (2008), appendix B: the inch, the pound,
// standard gravity, the US gallon of 231 cubic inches, the mile of 5280 feet.
var units = sync.OnceValue(func() []definition {
	q := func(text string) *big.Rat {
		r, ok := new(big.Rat).SetString(text)
		if !ok {
			panic("measure: no number in the table of units: " + text)
		}
		return r
	}
	mul := func(rs ...*big.Rat) *big.Rat {
		out := big.NewRat(1, 1)
		for _, r := range rs {
			out.Mul(out, r)
		}
		return out
	}
	quo := func(a, b *big.Rat) *big.Rat { return new(big.Rat).Quo(a, b) }
	in, ft, mi := q("0.0254"), q("0.3048"), q("1609.344")
	mm, cm, one, kilo := q("0.001"), q("0.01"), q("1"), q("1000")
	lb, gravity := q("0.45359237"), q("9.80665")
	lbf, gallon, litre, hour := mul(lb, gravity), mul(q("231"), in, in, in), q("0.001"), q("3600")
	// A radian is no whole part of a turn: π to 60 digits stands for it. Degrees among
	// themselves stay exact, since the factor cancels.
	degree := quo(q("3.14159265358979323846264338327950288419716939937510582097494"), q("180"))

	length, mass, force := Dimension{Length: 1}, Dimension{Mass: 1}, Dimension{Mass: 1, Length: 1, Time: -2}
	torque, pressure, rate := force.Mul(length), force.Quo(length).Quo(length), force.Quo(length)
	angle, area, speed := Dimension{Angle: 1}, length.Mul(length), Dimension{Length: 1, Time: -1}
	temperature := Dimension{Temperature: 1}
	volume, torsional := area.Mul(length), torque.Quo(angle)
	return []definition{
		{unit: NoUnit},
		{Inch, "in", "", length, in, "[in_i]", "INH", InchSystem, Millimetre},
		{Millimetre, "mm", "", length, mm, "mm", "MMT", MetricSystem, Inch},
		{Foot, "ft", "", length, ft, "[ft_i]", "FOT", InchSystem, Metre},
		{Yard, "yd", "", length, mul(q("3"), ft), "[yd_i]", "YRD", InchSystem, Metre},
		{Mile, "mi", "", length, mi, "[mi_i]", "SMI", InchSystem, Kilometre},
		{Centimetre, "cm", "", length, cm, "cm", "CMT", MetricSystem, Inch},
		{Metre, "m", "", length, one, "m", "MTR", MetricSystem, Foot},
		{Kilometre, "km", "", length, kilo, "km", "KMT", MetricSystem, Mile},
		{Micrometre, "µm", "μm um micron", length, q("0.000001"), "um", "4H", MetricSystem, Inch},

		{Pound, "lb", "lbm", mass, lb, "[lb_av]", "LBR", InchSystem, Kilogram},
		{Ounce, "oz", "", mass, quo(lb, q("16")), "[oz_av]", "ONZ", InchSystem, Gram},
		{Kilogram, "kg", "", mass, one, "kg", "KGM", MetricSystem, Pound},
		{Gram, "g", "", mass, mm, "g", "GRM", MetricSystem, Ounce},
		{Tonne, "t", "", mass, kilo, "t", "TNE", MetricSystem, Pound},

		{PoundForce, "lbf", "", force, lbf, "[lbf_av]", "C78", InchSystem, Newton},
		{Newton, "N", "", force, one, "N", "NEW", MetricSystem, PoundForce},
		{Kilonewton, "kN", "", force, kilo, "kN", "B47", MetricSystem, PoundForce},
		{KilogramForce, "kgf", "kp", force, gravity, "kgf", "B37", MetricSystem, PoundForce},

		{Decanewton, "daN", "", force, q("10"), "daN", "", MetricSystem, PoundForce},

		{PoundForceFoot, "lb·ft", "ft·lb lbf·ft ft·lbf", torque, mul(lbf, ft), "[lbf_av].[ft_i]", "M92", InchSystem, NewtonMetre},
		{PoundForceInch, "lb·in", "in·lb lbf·in in·lbf", torque, mul(lbf, in), "[lbf_av].[in_i]", "F21", InchSystem, NewtonMetre},
		{NewtonMetre, "N·m", "", torque, one, "N.m", "NU", MetricSystem, PoundForceFoot},
		{NewtonCentimetre, "N·cm", "", torque, cm, "N.cm", "F88", MetricSystem, PoundForceInch},
		{NewtonMillimetre, "N·mm", "", torque, mm, "N.mm", "", MetricSystem, PoundForceInch},
		{DecanewtonMetre, "daN·m", "", torque, q("10"), "daN.m", "", MetricSystem, PoundForceFoot},
		{KilonewtonMetre, "kN·m", "", torque, kilo, "kN.m", "B48", MetricSystem, PoundForceFoot},
		{KilogramForceMetre, "kgf·m", "kg·m m·kg m·kgf kp·m", torque, gravity, "kgf.m", "B38", MetricSystem, PoundForceFoot},
		{KilogramForceCentimetre, "kgf·cm", "kg·cm cm·kg kp·cm", torque, mul(gravity, cm), "kgf.cm", "", MetricSystem, PoundForceInch},

		{PoundForcePerSquareInch, "psi", "psig lb/in2 lbf/in2 lb/sqin lbf/sqin", pressure, quo(lbf, mul(in, in)), "[psi]", "PS", InchSystem, Kilopascal},
		{Kilopascal, "kPa", "kn/m2", pressure, kilo, "kPa", "KPA", MetricSystem, PoundForcePerSquareInch},
		{Bar, "bar", "barg bars", pressure, q("100000"), "bar", "BAR", MetricSystem, PoundForcePerSquareInch},
		{Millibar, "mbar", "", pressure, q("100"), "mbar", "MBR", MetricSystem, PoundForcePerSquareInch},
		{Hectopascal, "hPa", "", pressure, q("100"), "hPa", "A97", MetricSystem, PoundForcePerSquareInch},
		{Pascal, "Pa", "", pressure, one, "Pa", "PAL", MetricSystem, PoundForcePerSquareInch},
		{Megapascal, "MPa", "n/mm2", pressure, q("1000000"), "MPa", "MPA", MetricSystem, PoundForcePerSquareInch},
		{KilogramForcePerSquareCentimetre, "kgf/cm²", "kg/cm2 kp/cm2", pressure, quo(gravity, mul(cm, cm)), "kgf/cm2", "E42", MetricSystem, PoundForcePerSquareInch},

		{PoundForcePerInch, "lb/in", "lbf/in", rate, quo(lbf, in), "[lbf_av]/[in_i]", "F48", InchSystem, NewtonPerMillimetre},
		{NewtonPerMillimetre, "N/mm", "", rate, kilo, "N/mm", "F47", MetricSystem, PoundForcePerInch},
		{NewtonPerMetre, "N/m", "", rate, one, "N/m", "4P", MetricSystem, PoundForcePerInch},
		{KilonewtonPerMetre, "kN/m", "", rate, kilo, "kN/m", "N31", MetricSystem, PoundForcePerInch},
		{KilogramForcePerMillimetre, "kgf/mm", "kg/mm", rate, quo(gravity, mm), "kgf/mm", "", MetricSystem, PoundForcePerInch},
		{KilogramForcePerCentimetre, "kgf/cm", "kg/cm", rate, quo(gravity, cm), "kgf/cm", "", MetricSystem, PoundForcePerInch},
		{DecanewtonPerMillimetre, "daN/mm", "", rate, q("10000"), "daN/mm", "", MetricSystem, PoundForcePerInch},

		{PoundForceFootPerDegree, "lb·ft/°", "ft·lb/deg lbf·ft/deg ft·lbf/deg", torsional, quo(mul(lbf, ft), degree), "[lbf_av].[ft_i]/deg", "", InchSystem, NewtonMetrePerDegree},
		{NewtonMetrePerDegree, "N·m/°", "", torsional, quo(one, degree), "N.m/deg", "F89", MetricSystem, PoundForceFootPerDegree},

		{Degree, "°", "", angle, degree, "deg", "DD", NoSystem, NoUnit},
		{Radian, "rad", "", angle, one, "rad", "C81", NoSystem, Degree},

		{CubicInch, "in³", "cuin cid", volume, mul(in, in, in), "[cin_i]", "INQ", InchSystem, CubicCentimetre},
		{FluidOunce, "fl oz", "fl·oz us·fl·oz fluid·oz", volume, quo(gallon, q("128")), "[foz_us]", "OZA", InchSystem, Millilitre},
		{Pint, "pt", "us·pt", volume, quo(gallon, q("8")), "[pt_us]", "PTL", InchSystem, Litre},
		{Quart, "qt", "us·qt", volume, quo(gallon, q("4")), "[qt_us]", "QTL", InchSystem, Litre},
		{Gallon, "gal", "us·gal", volume, gallon, "[gal_us]", "GLL", InchSystem, Litre},
		{CubicCentimetre, "cm³", "cc ccm", volume, mul(cm, cm, cm), "cm3", "CMQ", MetricSystem, CubicInch},
		{Millilitre, "mL", "", volume, mul(litre, mm), "mL", "MLT", MetricSystem, FluidOunce},
		{Litre, "L", "", volume, litre, "L", "LTR", MetricSystem, Quart},
		{CubicMetre, "m³", "", volume, one, "m3", "MTQ", MetricSystem, Gallon},

		{SquareInch, "in²", "sqin", area, mul(in, in), "[sin_i]", "INK", InchSystem, SquareMillimetre},
		{SquareMillimetre, "mm²", "", area, mul(mm, mm), "mm2", "MMK", MetricSystem, SquareInch},
		{SquareCentimetre, "cm²", "", area, mul(cm, cm), "cm2", "CMK", MetricSystem, SquareInch},
		{SquareMetre, "m²", "", area, one, "m2", "MTK", MetricSystem, SquareInch},

		{MilePerHour, "mph", "mi/h", speed, quo(mi, hour), "[mi_i]/h", "HM", InchSystem, KilometrePerHour},
		{FootPerSecond, "ft/s", "fps", speed, ft, "[ft_i]/s", "FS", InchSystem, MetrePerSecond},
		{InchPerSecond, "in/s", "ips", speed, in, "[in_i]/s", "IU", InchSystem, MillimetrePerSecond},
		{KilometrePerHour, "km/h", "kph kmh", speed, quo(kilo, hour), "km/h", "KMH", MetricSystem, MilePerHour},
		{MetrePerSecond, "m/s", "", speed, one, "m/s", "MTS", MetricSystem, FootPerSecond},
		{MillimetrePerSecond, "mm/s", "", speed, mm, "mm/s", "C16", MetricSystem, InchPerSecond},

		{DegreeCelsius, "°C", "degc celsius centigrade deg·celsius deg·centigrade", temperature, one, "Cel", "CEL", MetricSystem, DegreeFahrenheit},
		{DegreeFahrenheit, "°F", "degf fahrenheit deg·fahrenheit", temperature, q("5/9"), "[degF]", "FAH", InchSystem, DegreeCelsius},

		{One, "", "pc pcs piece pieces ea each", Count(), one, "1", "C62", NoSystem, NoUnit},
		{Percent, "%", "percent", Count(), cm, "%", "P1", NoSystem, NoUnit},
	}
})
