package bind

import (
	"errors"
	"strconv"

	"ferrule/compiler/measure"
	"ferrule/compiler/table"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// measured is what a column of quantities is about, of whatever sheets and cells.
type measured struct {
	dim   measure.Dimension
	unit  measure.Unit // of the first header or cell that states one; One for plain numbers
	known bool         // false: no header and no cell says
}

// entry is a cell of a column of quantities.
type entry struct {
	table.Field
	unit measure.Unit // that of the header; NoUnit where it has none
	at   cell.Place
}

// measuredBy finds out what a column is about: what its first header with a unit says,
// else the first cell that states one, else plain numbers.
func (b *binder) measuredBy(headers []measure.Unit, cells []entry) measured {
	for _, u := range headers {
		if u != measure.NoUnit {
			return measured{u.Dimension(), u, true}
		}
	}
	plain := false
	for _, c := range cells {
		switch q, err := b.quantity(&c.Field, measure.NoUnit); {
		case err == nil:
			return measured{q.Dimension(), q.Unit, true}
		case errors.Is(err, measure.ErrUnitless):
			plain = true
		}
	}
	return measured{measure.Count(), measure.One, plain}
}

// read reads a cell of the column. The error is a sentence that says what to write;
// errors.Is finds measure.ErrUnitless where only the unit is missing.
func (b *binder) read(m measured, c entry) (measure.Quantity, error) {
	unit := c.unit
	if unit == measure.NoUnit && m.dim == measure.Count() {
		unit = measure.One
	}
	return b.quantity(&c.Field, unit)
}

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
