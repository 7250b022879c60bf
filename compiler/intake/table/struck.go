package table

import (
	"fmt"

	"ferrule/sheets/cell"
)

// struck reports what someone crossed out: a row once, if all of it is, otherwise each
// of its cells. It is read all the same, since only its keeper knows what was meant.
func (r *reader) struck(rec *Record) {
	for i := range rec.Fields {
		if rec.Fields[i].struck || rec.Fields[i].partly {
			r.crossed(rec)
			return
		}
	}
}

func (r *reader) crossed(rec *Record) {
	var crossed []Field
	own := 0
	for i := range rec.Fields {
		f := &rec.Fields[i]
		if f.At.Row != rec.Row {
			continue // a merged range that began further up
		}
		own++
		if f.partly {
			r.partly(f)
		}
		if f.struck {
			crossed = append(crossed, *f)
		}
	}
	if len(crossed) > 0 && len(crossed) == own {
		r.report(&Fault{What: Struck,
			Message:  fmt.Sprintf("row %d is struck through, and is read like the rest", rec.Row),
			Constant: "a row is struck through, and is read like the rest",
			Cells:    []cell.Place{r.table.Place(crossed[0].At)},
			Fix:      "delete the row if it no longer holds, or take the line through it away"})
		return
	}
	last := cell.Pos{}
	for _, f := range crossed {
		if f.At == last {
			continue // a merged range over several columns
		}
		last = f.At
		r.report(&Fault{What: Struck,
			Message: fmt.Sprintf("%q is struck through, and is read like the rest", short(f.Text)),
			Cells:   []cell.Place{r.table.Place(f.At)},
			Fix:     "clear the cell if it no longer holds, or take the line through it away"})
	}
}

// partly reports a cell of which a part is crossed out: what is left may be all that is
// meant, and all of it is read.
func (r *reader) partly(f *Field) {
	key := saying{f.At, Struck}
	if r.said[key] {
		return // a merged range over several columns
	}
	if r.said == nil {
		r.said = map[saying]bool{}
	}
	r.said[key] = true
	r.report(&Fault{What: Struck,
		Message: fmt.Sprintf("a part of %q is struck through, and all of it is read", short(f.Text)),
		Cells:   []cell.Place{r.table.Place(f.At)},
		Fix:     "write into the cell what holds, without the part that does not, or take the line through it away"})
}
