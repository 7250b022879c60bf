package bind

import (
	"errors"

	"ferrule/compiler/intake/table"
	"ferrule/compiler/measure"
	"ferrule/sheets/cell"
)

// measured is what a column of quantities measures, over all sheets that have it.
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

// measuredBy finds out what a column measures: what its first header with a unit says,
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

// read reads a cell of the column. The error is that of measure.
func (b *binder) read(m measured, c *entry) (measure.Quantity, error) {
	unit := c.unit
	if unit == measure.NoUnit && m.dim == measure.Count() {
		unit = measure.One
	}
	return b.quantity(&c.Field, unit)
}
