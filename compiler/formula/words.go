package formula

import (
	"ferrule/compiler/measure"
)

// Words says a value of the formula in both systems: `96 mm (3.78 in)`. Its unit is
// that of the first operand that has one, else the usual one of the system.
func (f *Formula) Words(v Value, usual measure.System) string {
	unit := f.Unit(usual)
	if unit == measure.NoUnit {
		return measure.FromSI(v.Low, v.High, measure.One).String() + " SI units of " + f.dim.String()
	}
	return measure.FromSI(v.Low, v.High, unit).String()
}

// Unit gives the unit in which values of the formula are shown; NoUnit where no unit
// has their dimension.
func (f *Formula) Unit(usual measure.System) measure.Unit {
	if f.unit != measure.NoUnit {
		return f.unit
	}
	return f.dim.Unit(usual)
}

// Short says by how much a rule does not hold: `short by 4 mm (0.157 in)`.
func (r *Rule) Short(v Verdict, usual measure.System) string {
	how := [...]string{"short by", "over by", "off by"}[r.Must]
	if r.Left.dim.Temperature != 0 {
		return how + " " + measure.Degrees(v.Margin, r.Left.Unit(usual))
	}
	return how + " " + r.Left.Words(Value{Low: v.Margin, High: v.Margin}, usual)
}
