package table

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/sheets/cell"
)

// struck reports what someone crossed out: a row once, if all of it is, otherwise each
// of its cells. It is read all the same, since only its keeper knows what was meant.
func (r *reader) struck(t *Table, rec *Record) {
	var crossed []Field
	own := 0
	for _, f := range rec.Fields {
		if f.At.Row != rec.Row {
			continue // a merged range that began further up
		}
		own++
		if f.Struck {
			crossed = append(crossed, f)
		}
	}
	if len(crossed) > 0 && len(crossed) == own {
		r.report(&finding.Finding{Code: CellStruck, Severity: finding.Warning,
			Message: fmt.Sprintf("row %d is struck through, and is read like the rest", rec.Row),
			Gist:    "a row is struck through, and is read like the rest",
			Cells:   finding.At(t.Place(crossed[0].At)),
			Fix:     "delete the row if it no longer holds, or take the line through it away"})
		return
	}
	last := cell.Pos{}
	for _, f := range crossed {
		if f.At == last {
			continue // a merged range over several columns
		}
		last = f.At
		r.report(&finding.Finding{Code: CellStruck, Severity: finding.Warning,
			Message: fmt.Sprintf("%q is struck through, and is read like the rest", short(f.Text)),
			Cells:   finding.At(t.Place(f.At)),
			Fix:     "clear the cell if it no longer holds, or take the line through it away"})
	}
}
