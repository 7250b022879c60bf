package layout

import (
	"fmt"

	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// What a layout may make of a sheet: so many records, and more for each cell that the sheet
// holds; and of one cell at most as many.
const (
	maxMade   = 1 << 20
	madeRatio = 16
	maxEach   = 5000
)

// make counts records that are about to be made.
func (r *reader) make(n int, at cell.Pos) bool {
	r.made += n
	if r.over == nil && (n > maxEach || r.made > maxMade+madeRatio*r.stored) {
		r.over = &sheets.Fault{Sheet: r.sheet.Name, Pos: at,
			Why: fmt.Sprintf("sheet %q, cell %s: what the rows of Layouts make of the sheet is more than %d rows, or more than %d of one cell; split fewer cells by each, or read the sheet by fewer rows table",
				r.sheet.Name, at, maxMade, maxEach)}
	}
	return r.over == nil
}

// whole gives the fault for which the sheet cannot be read whole, or nil.
func (r *reader) whole() error {
	if r.over == nil {
		return nil
	}
	return r.over
}
