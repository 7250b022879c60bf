package bind

import (
	"strconv"

	"ferrule/compiler/intake/table"
	"ferrule/compiler/measure"
	"ferrule/sheets"
)

// quantity reads a cell under a header that states a unit, or none.
func (b *binder) quantity(f *table.Field, unit measure.Unit) (measure.Quantity, error) {
	if f.Kind == sheets.Number {
		return measure.ParseQuantityIn(asShown(f.Number()), unit, measure.Options{})
	}
	return measure.ParseQuantityIn(f.Text, unit, b.sizes())
}

// asShown writes a stored number with the 15 digits that spreadsheet programs show: what
// was worked out is often a hair off (0.30000000000000004).
func asShown(n float64) string {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(n, 'g', 15, 64), 64)
	if err != nil {
		panic("bind: a number that was written cannot be read: " + err.Error())
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}

// headerUnit reads the unit of a header; NoUnit where it has none, or one that nobody
// knows.
func headerUnit(c table.Column) measure.Unit {
	u, _ := measure.ParseUnit(c.Unit)
	return u
}
