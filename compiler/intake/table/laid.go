package table

import (
	"ferrule/sheets/cell"
)

// Laid says how a table was read of a sheet in a shape of its own.
type Laid struct {
	By        []cell.Place // by column: the cell of a Layouts sheet that says what it holds
	Elsewhere []cell.Place // where values are written that stand in another sheet
	Several   bool         // a row of the sheet may be several records
	// Reader gives the cell of a Layouts sheet that says what a cell holds; the zero Place for
	// none.
	Reader func(cell.Pos) cell.Place
	// Number gives the cell with the number of the part that a mark means, where a cell is one.
	Number func(cell.Pos) (cell.Pos, bool)
}

// Elsewhere gives the position, for a field, of a place that is not in the table's sheet.
func (t *Table) Elsewhere(p cell.Place) cell.Pos {
	for i, known := range t.Laid.Elsewhere {
		if known == p {
			return cell.Pos{Row: int32(-1 - i)}
		}
	}
	t.Laid.Elsewhere = append(t.Laid.Elsewhere, p)
	return cell.Pos{Row: int32(-len(t.Laid.Elsewhere))}
}

// Here tells whether a position is one of the table's sheet.
func Here(p cell.Pos) bool { return p.Row >= 0 }

// In gives the place of a record's cell under a column, filled or not; its first cell where
// the column has none of its own.
func (t *Table) In(r *Record, c *Column) cell.Place {
	if !Here(c.At) || c.At.Col == 0 {
		return t.First(r)
	}
	return t.Place(cell.Pos{Row: r.Row, Col: c.At.Col})
}
